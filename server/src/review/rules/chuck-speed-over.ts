import { RUN } from '../../rs274/steps.ts';
import { cuttingUses, isTurning, lineOfLetter } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { spindleAt } from '../step-time.ts';

const SHEET =
  '{ "units": "mm", "machine": { "kind": "lathe", "dialect": "lathe-a" }, "workholding": { "max_rpm": 3000 } }';
const HEAD = 'G21 G18 G40 G99\nT0101\n';

/** Faster than the chuck plate allows. */
export const chuckSpeedOver: Rule = {
  code: 'chuck-speed-over',
  title: 'Faster than the chuck plate allows',
  family: 'cutting',
  severity: 'error',
  means:
    'The spindle reaches a speed over what the chuck plate says: the jaws lose their grip and the part comes out.',
  cure: 'Set the limit (G50 S or G92 S) to the chuck plate or less.',
  fine_when: 'Never; check the plate.',
  source: 'VDI 3106 on the loss of grip with speed, from memory; the chuck plate as the setup sheet says it',
  machine: 'lathe',
  needs: ['workholding.max_rpm'],
  explains: ['css-without-clamp'],
  program(program, report) {
    const plate = program.sheet?.workholding?.max_rpm?.value;
    if (plate === undefined || program.kind !== 'lathe') return;
    for (const use of cuttingUses(program)) {
      for (const part of use.parts) {
        if (part.cut_steps === 0 || !isTurning(part)) continue;
        const css = part.run[RUN.css] === 1;
        const speed = spindleAt(part.run, css ? part.least_x_mm / 2 : 0);
        if (!(speed > plate)) continue;
        const clamp = part.run[RUN.clamp_rpm];
        const clamped = css && clamp > plate;
        const line = lineOfLetter(program, 'S', clamped ? 0 : use.change_line, part.first_cut_line);
        const clampLine = clamped ? lineOfClamp(part.first_cut_line) : line;
        const at = program.wordPlace(clampLine >= 0 ? clampLine : part.first_cut_line, 'S');
        const right = Math.floor(plate / 10) * 10;
        const reached = Number.isFinite(speed) ? `${Math.round(speed)} rev/min` : 'whatever the spindle has';
        report({
          at,
          message: `May throw the part: the spindle reaches ${reached} and the chuck plate says ${plate}. ${css ? 'Limit it' : 'Write'} to S${right} or less.`,
          ...(clampLine >= 0 && (clamped || !css)
            ? {
                fixes: [
                  {
                    title: `S${right}, under the chuck plate`,
                    grade: 'asks',
                    edits: [{ ...at, text: `S${right}` }],
                  },
                ],
              }
            : {}),
        });
        break;
      }
    }

    function lineOfClamp(from: number): number {
      for (let line = from; line >= 0 && line > from - 400; line--) {
        const words = program.words(line);
        if (
          words.some(w => w.letter === 'G' && (w.value === 50 || w.value === 92)) &&
          words.some(w => w.letter === 'S')
        )
          return line;
      }
      return -1;
    }
  },
  flagged: [
    {
      name: 'the limit is over the plate',
      program: `${HEAD}G50 S4500\n    ^^^^^\nG96 S200 M3\nG0 X62. Z0.\nG1 X-1.6 F0.2\nM30\n`,
      sheet: SHEET,
    },
    {
      name: 'a fixed speed over the plate',
      program: `${HEAD}G97 S3500 M3\n    ^^^^^\nG0 X22. Z2.\nG1 Z-10. F0.2\nM30\n`,
      sheet: SHEET,
    },
  ],
  silent: [
    {
      name: 'the limit is under it',
      program: `${HEAD}G50 S2500\nG96 S200 M3\nG0 X62. Z0.\nG1 X-1.6 F0.2\nM30\n`,
      sheet: SHEET,
    },
    {
      name: 'a high limit that no diameter reaches',
      program: `${HEAD}G50 S4500\nG96 S200 M3\nG0 X62. Z2.\nX60.\nG1 Z-10. F0.2\nM30\n`,
      sheet: SHEET,
    },
  ],
};
