import { formatTime } from '../../../cutting/format.ts';
import type { Program } from '../../program.ts';
import type { Rule } from '../../rule.ts';
import { MILL_HEAD } from './sample-sheets.ts';

/** Seconds of one run at the programmed feeds, with rapids and tool changes where the machine says how fast; NaN when a cut has no time. */
function programSeconds(program: Program): number {
  let cut = 0;
  let rapid_mm = 0;
  let changes = 0;
  for (const use of program.uses) {
    if (use.untimed > 0) return Number.NaN;
    cut += 60 * (use.cut_min + use.dwell_min);
    rapid_mm += use.rapid_length_mm;
    if (use.number >= 0) changes++;
  }
  const rapid = program.rapidSecondsOf(rapid_mm);
  const change = program.machine?.tool_change_s?.value ?? 0;
  return cut + (Number.isFinite(rapid) ? rapid : 0) + changes * change;
}

/** Share over the quote that is not worth a word. */
const SLACK = 1.02;

const sheet = (minutes: number) =>
  JSON.stringify({
    units: 'mm',
    machine: { kind: 'mill', dialect: 'iso6983' },
    quote: { time: `${minutes} min`, parts: 10, rate_per_hour: 60, currency: 'EUR' },
  });

/** The program takes longer than was quoted. */
export const timeOverQuote: Rule = {
  code: 'time-over-quote',
  title: 'Longer than quoted',
  family: 'shop',
  severity: 'information',
  means: 'At its programmed feeds the program takes longer than the time that was quoted for the part.',
  cure: 'See which tool takes the most time in the report, and start there.',
  fine_when: 'The quote counts on a faster machine or on several parts at once.',
  source: 'length over feed; the quote of the setup sheet',
  needs: ['quote'],
  program(program, report) {
    const quote = program.sheet?.quote;
    const quoted = quote?.time_s?.value;
    const seconds = programSeconds(program) / (quote?.parts_per_cycle?.value ?? 1);
    if (quoted === undefined || !(seconds > quoted * SLACK)) return;
    const over = seconds - quoted;
    const rate = quote?.rate_per_hour?.value;
    const parts = quote?.parts?.value;
    const money = rate && parts ? ((over * rate) / 3600) * parts : undefined;
    const cost =
      money === undefined
        ? ''
        : ` Over ${parts} parts about ${Math.round(money)} ${quote?.currency?.value ?? ''}`.trimEnd();
    const most = [...program.uses].sort((a, b) => b.cut_min - a.cut_min)[0];
    const line = most?.change_line ?? 0;
    report({
      at: program.blockPlace(line),
      message: `Costs more than quoted: ${formatTime(seconds)} a part at the programmed feeds, ${formatTime(quoted)} were quoted.${cost}${cost === '' ? '' : '.'}${most && most.number >= 0 ? ` T${most.number} takes the most of it.` : ''}`,
    });
  },
  flagged: [
    {
      name: 'five minutes where two were quoted',
      program: `G21 G17 G40 G90 G94\nT1 M6\n^^^^^\nG54 S3000 M3\nG0 X0 Y0 Z1.\nG1 X500. F100.\n`,
      sheet: sheet(2),
    },
  ],
  silent: [
    { name: 'within the quote', program: `${MILL_HEAD}G0 X0 Y0 Z1.\nG1 X500. F100.\n`, sheet: sheet(6) },
    { name: 'a feed is not known', program: `${MILL_HEAD}G0 X0 Y0 Z1.\nG1 X500. F#1\n`, sheet: sheet(1) },
  ],
};
