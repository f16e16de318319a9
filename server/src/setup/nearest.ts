/** The candidate that needs the fewest changed letters, if it is near enough to be meant; undefined otherwise. */
export function nearestName(word: string, candidates: Iterable<string>): string | undefined {
  const wanted = plain(word);
  if (wanted.length > 60) return undefined;
  let best: string | undefined;
  let least = Math.max(1, Math.floor(wanted.length / 3)) + 1;
  for (const candidate of candidates) {
    const distance = editDistance(wanted, plain(candidate), least);
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

function plain(word: string): string {
  return word.toLowerCase().replace(/[\s_-]+/g, '');
}

function editDistance(a: string, b: string, bound: number): number {
  if (Math.abs(a.length - b.length) >= bound) return bound;
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(change, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? bound;
}
