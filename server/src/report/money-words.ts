import { formatTime } from '../cutting/format.ts';
import type { Review } from '../review/review.ts';
import { programTimes } from '../review/times.ts';

/** Time and money of a part against the quote, as sentences; what is not known is said. */
export function moneyWords(review: Review): string[] {
  const times = programTimes(review);
  const quote = review.program.sheet?.quote;
  if (times.time_s === undefined) return ['The time is not known: a cutting move has no feed or no speed.'];
  const words = [`${formatTime(times.time_s)} at programmed feed, of it ${shares(review)}.`];
  if (times.rapid_time_s === undefined)
    words.push('Rapids are not counted: the sheet gives no rapid traverse.');
  const parts = quote?.parts_per_cycle?.value ?? 1;
  const part_s = times.time_s / parts;
  if (parts > 1) words.push(`${parts} parts a run: ${formatTime(part_s)} a part.`);
  if (times.quoted_s !== undefined) {
    const left = times.quoted_s - part_s;
    const side = left >= 0 ? 'under' : 'over';
    words.push(`Quoted ${formatTime(times.quoted_s)} a part: ${formatTime(Math.abs(left))} ${side} it.`);
  } else words.push('No time is quoted in the setup sheet.');
  const rate = quote?.rate_per_hour?.value;
  if (rate !== undefined) {
    const money = (seconds: number) => money2((seconds / 3600) * rate);
    const unit = quote?.currency?.value ?? '';
    const quoted = times.quoted_s === undefined ? '' : ` against ${money(times.quoted_s)} quoted`;
    const job = quote?.parts ? `; ${money(part_s * quote.parts.value)} for ${quote.parts.value} parts` : '';
    words.push(
      `At ${money2(rate)} ${unit} an hour: ${money(part_s)}${quoted} a part${job}.`.replace('  ', ' '),
    );
  }
  return words;
}

function shares(review: Review): string {
  const { cut_time_s, rapid_time_s } = programTimes(review);
  const parts = [`${formatTime(cut_time_s ?? Number.NaN)} cutting`];
  if (rapid_time_s !== undefined) parts.push(`${formatTime(rapid_time_s)} rapids`);
  const change = review.program.machine?.tool_change_s?.value;
  if (change !== undefined) parts.push('tool changes as the sheet says');
  return parts.join(', ');
}

const money2 = (value: number): string => value.toFixed(2);
