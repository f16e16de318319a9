import { SEVERITIES } from '../review/finding.ts';
import type { Review } from '../review/review.ts';
import { count, NOTHING_FOUND } from './words.ts';

/** The verdict in one line: never more than 'no errors found in what was checked'. */
export function verdictLine(review: Pick<Review, 'findings' | 'complete'>): string {
  const counts = SEVERITIES.map(severity => {
    const n = review.findings.filter(finding => finding.severity === severity).length;
    return n === 0 ? '' : severity === 'information' ? `${n} for information` : count(n, severity);
  }).filter(words => words !== '');
  const stopped = review.findings.some(finding => finding.severity === 'error');
  const lead = stopped ? 'Errors stop this program.' : NOTHING_FOUND;
  const bound = review.complete
    ? ''
    : ' The review is incomplete: a bound was reached before the program ended.';
  return `${lead}${counts.length > 0 ? ` ${counts.join(', ')}.` : ''}${bound}`;
}
