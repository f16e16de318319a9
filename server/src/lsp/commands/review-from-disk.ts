import { readOptions, reviewOf } from '../../job/open-job.ts';
import { reviewText } from '../../report/text.ts';
import { ProgramText, readProgram } from '../../rs274/index.ts';
import { type FileCommand, say } from './command.ts';

/** Larger files do not fit the way between the editor and the server. */
const MOST_BYTES = 400_000_000;

/**
 * Reviews a file as it is on the disk. The editor gives no extension a file of more than 50 million characters; this
 * way its review is had all the same.
 */
export const reviewFromDisk: FileCommand = {
  name: 'reviewFromDisk',
  async runFile({ files, jobs, settings }, { uri }) {
    const name = decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1));
    const file = await files.fromDisk(uri, MOST_BYTES);
    if ('missing' in file) {
      const why = file.detail ? `${file.missing}: ${file.detail}` : file.missing;
      return say(`${name} could not be read: ${why}. The terminal reads any size.`, 'warning');
    }
    const wanted = await settings.of(uri);
    const sheets = await jobs.sheetsOf(uri);
    const reading = readProgram(ProgramText.fromString(file.text), readOptions(sheets, {}));
    const review = reviewOf(reading, sheets, { shown: wanted.units, severities: wanted.findings });
    const content = reviewText(review, { path: name });
    return { do: 'page', title: `Review: ${name}`, format: 'text', content, file: `${name}.review.html` };
  },
};
