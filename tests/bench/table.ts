import type { Figure } from './figures.ts';

/** Names of the columns; with one more where the figures stand beside those of an earlier run. */
export function header(against_earlier: boolean): string {
  const earlier = against_earlier ? '  earlier' : '';
  return `${'figure'.padEnd(58)} ${'against'.padEnd(20)}   least  median    most  wanted${earlier}`;
}

/** One figure as a line; `before` are those of an earlier run, found by name, empty where that run had none of the name. */
export function row(figure: Figure, before?: readonly Figure[]): string {
  const { name, against, least, median, most, target, over, plain } = figure;
  const wanted =
    target === undefined ? '' : `${over ? '>=' : '<='} ${target}${isMet(figure) ? ' ok' : ' --'}`;
  const earlier = before ? number(before.find(other => other.name === name)?.median) : '';
  return `${name.padEnd(58)} ${against.padEnd(20)} ${number(least)} ${number(median)} ${number(most)}  ${wanted.padEnd(10)}${earlier} ${plain ?? ''}`;
}

function isMet({ median, target = Number.NaN, over }: Figure): boolean {
  return over ? median >= target : median <= target;
}

function number(value: number | undefined): string {
  return (value === undefined ? '' : value.toFixed(value < 10 ? 2 : 1)).padStart(7);
}
