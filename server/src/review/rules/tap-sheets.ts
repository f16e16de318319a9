/** A drill and a tap for cases of tapped holes. */
export function tapSheet(drill: number, more = ''): string {
  return `{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "tools": { "1": { "kind": "drill", "diameter": ${drill}, "point_angle_deg": 118 }, "2": { "kind": "tap", "diameter": 8, "pitch": "M8x1.25"${more} } } }`;
}

/** Drills and taps one hole; depths below zero. */
export function tapped(drillZ: string, tapLine: string): string {
  return `G21 G17 G40 G49 G80 G90 G94\nT1 M6\nS1500 M3\nG54 G0 X10. Y10.\nG43 H1 Z20.\nG81 Z${drillZ} R2. F150.\nG80\nM5\nT2 M6\nS400 M3\nG54 G0 X10. Y10.\nG43 H2 Z20.\n${tapLine}G80\nM5\nM30\n`;
}
