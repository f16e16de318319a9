import { QUANTITIES } from '../../cutting/quantities.ts';
import { firstContactWeights } from '../../proveout/first-contact-weights.ts';
import { type Explanation, partsOf } from './explanation.ts';

/** Every quantity by its name in the output and by what people call it. */
export function quantityExplanations(): Explanation[] {
  return Object.entries(QUANTITIES).map(([name, row]) => ({
    kind: 'quantity',
    name,
    title: row.title,
    also: [row.title],
    parts: partsOf([
      ['means', row.means],
      ['formula', row.formula, true],
      ['unit', row.unit],
      ['range', row.range],
      ['source', row.source],
    ]),
  }));
}

/** Our own words. */
export function wordExplanations(): Explanation[] {
  const word = (
    name: string,
    title: string,
    also: string[],
    means: string,
    rest: [string, string][] = [],
  ) => ({
    kind: 'word' as const,
    name,
    title,
    also,
    parts: partsOf([['means', means], ...rest]),
  });
  return [
    word(
      'first-contact',
      'first contact',
      ['first_contact_percent'],
      'The feed override to start a tool with: 70 % less a sum of reasons, held in 50 to 70, rounded down to the step of the control. None while an error stands for the tool, none for tapping and threading. Spindle as programmed, rapids low; step up once it cuts steadily.',
      [
        ['takes off', weightWords()],
        ['source', 'common practice, no source'],
      ],
    ),
    word(
      'window',
      'window',
      [],
      'The range a number should sit in, with the source it came from: proven in this shop, else the tool maker, else a handbook table; narrowed by stickout, grip and wear. A table window recommends: outside it is information, a warning only under half the low end or over 1.3 times the high end.',
    ),
    word(
      'fact',
      'fact',
      [],
      'A number that belongs to a line of the program: known, or absent with what is missing.',
    ),
    word(
      'finding',
      'finding',
      [],
      'Something to fix or to know, with a code that stays the same. Silence one with a comment (OK code: reason) on the block, or on the line above a tool change for the whole tool.',
    ),
    word(
      'review',
      'review',
      [],
      'All that is known about one program; hover, terminal and pages show the same one.',
    ),
    word(
      'prove-out',
      'prove-out',
      ['proveout'],
      'Running a program for the first time at the machine, with the override low and a hand at feed hold. The command proveout writes the sheet for it.',
    ),
  ];
}

function weightWords(): string {
  const { window, tool, stickout, grip, wear, material, entry, load, stock_assumed } = firstContactWeights;
  return [
    `window from the maker ${window.maker}, handbook ${window.handbook}, none ${window.none}`,
    `tool read from a comment ${tool.comment}, unknown ${tool.unknown}`,
    `stickout to 4 x D ${stickout.to4}, to 5 ${stickout.to5}, over 5 ${stickout.over5}`,
    `grip fair ${grip.fair}, weak ${grip.weak}, not known ${grip.unknown}`,
    `tool used ${wear.used}, dull ${wear.dull}, wear not known ${wear.unknown}`,
    `material that work-hardens, is hard, has a skin or is not known ${material}`,
    `first entry full width ${entry.full}, and deeper than 1 x D ${entry['full-and-deep']}`,
    `a load over 70 % of its limit ${load}`,
    `stock assumed ${stock_assumed}`,
  ].join('; ');
}
