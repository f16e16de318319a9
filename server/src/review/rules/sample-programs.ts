/** Beginnings of programs that several rule cases share. */
export const MILL_MM = 'G21 G17 G40 G49 G80 G90 G94\n';
export const LATHE_MM = 'G21 G18 G40 G99\n';
export const ISO = { dialect: 'iso6983', kind: 'mill' } as const;
export const NGC_MILL = { dialect: 'ngc', kind: 'mill' } as const;
export const LATHE_A = { dialect: 'lathe-a', kind: 'lathe' } as const;

/** A tool that mills a line: change, start, approach, cut, retract. */
export function milled(tool: number, more = ''): string {
  return `T${tool} M6\nS3000 M3\nG54 G0 X0 Y0\nG43 H${tool} Z25.\nZ2.\nG1 Z-2. F100.\nX50. F300.\n${more}G0 Z25.\nM5\n`;
}

/** A drill, tool 1, at one place: `line` is its cycle. */
export function drilled(line: string): string {
  return `${MILL_MM}T1 M6\nS1500 M3\nG54 G0 X10. Y10.\nG43 H1 Z20.\n${line}G80\nM30\n`;
}
