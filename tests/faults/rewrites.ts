import type { Job } from './fault.ts';

/** A change of the text that changes nothing at the machine. */
export interface Rewrite {
  name: string;
  program(text: string): string;
  /** Jobs that it does not fit. */
  not?(job: Job): boolean;
}

const perBlock = (text: string, change: (block: string) => string): string =>
  text
    .split('\n')
    .map(line =>
      line.replace(/\([^)]*\)|[^(]+/g, part =>
        part.startsWith('(') || part.startsWith('%') ? part : change(part),
      ),
    )
    .join('\n');

/** N words are jump targets, or the program flows by itself. */
const hasTargets = (job: Job): boolean => /\bP\d+ Q\d+|GOTO|o\d+ /.test(job.program);

/** Rewrites that must add no finding. */
export const REWRITES: readonly Rewrite[] = [
  { name: 'line ends of two characters', program: text => text.replace(/\n/g, '\r\n') },
  { name: 'lower case', program: text => perBlock(text, block => block.toLowerCase()) },
  {
    name: 'no blanks between words',
    program: text => perBlock(text, block => block.replace(/ +/g, '')),
    not: job => /o\d+ /.test(job.program),
  },
  {
    name: 'blanks between words',
    program: text => perBlock(text, block => block.replace(/([XYZ])/g, '  $1')),
  },
  {
    name: 'comments with words like codes',
    program: text =>
      text
        .split('\n')
        .map((line, i) => (/^[NGXYZ]/.test(line) && i % 3 === 0 ? `${line} (G91 X999 M4 S99999 F9,9)` : line))
        .join('\n'),
  },
  {
    name: 'renumbered',
    program: text => {
      let n = 0;
      return text
        .split('\n')
        .map(line => {
          if (!/^(N\d+ )?[GTXYZMS]/.test(line)) return line;
          n += 5;
          return `N${n} ${line.replace(/^N\d+ /, '')}`;
        })
        .join('\n');
    },
    not: hasTargets,
  },
  {
    name: 'words in another order',
    program: text =>
      perBlock(text, block => block.replace(/^((?:N\d+ )?)(G[0123]) ([XYZ]\S+) ([XYZ]\S+)$/, '$1$2 $4 $3')),
  },
  { name: 'blank lines', program: text => text.replace(/\n/g, '\n\n') },
  { name: 'trailing blanks', program: text => text.replace(/\n/g, '  \n') },
  {
    name: 'two-digit codes',
    program: text =>
      perBlock(text, block =>
        block.replace(/\bG([0123])(?=\s|$)/g, 'G0$1').replace(/\bM([35689])(?=\s|$)/g, 'M0$1'),
      ),
  },
  {
    name: 'a straight move split in two',
    program: text =>
      text
        .replace('G1 X92. F330.', 'G1 X30. F330.\nX92.')
        .replace('N150 X55. F340.', 'N150 X10. F340.\nX55.')
        .replace('Y2.75\nG2 X.25 Y3.', 'Y1.5\nY2.75\nG2 X.25 Y3.')
        .replace('N90 G1 Z-40. F0.25', 'N90 G1 Z-12. F0.25\nZ-40.')
        .replace('Y85\n', 'Y40\nY85\n'),
  },
];
