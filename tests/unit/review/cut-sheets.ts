/** A block and a bar of C45 for cuts that are worked out by hand, and what stands before the moves. */

export const MILL = {
  units: 'mm',
  machine: { kind: 'mill', dialect: 'iso6983' },
  workpiece: { material: 'C45', stock: { shape: 'block', size: [100, 80, 20], zero: [0, 0, 20] } },
};
export const BAR = {
  units: 'mm',
  machine: { kind: 'lathe', dialect: 'lathe-a' },
  workpiece: { material: 'C45', stock: { shape: 'bar', diameter: 50, length: 100, face: 0 } },
};
export const MILL_HEAD = 'G21 G17 G40 G90 G94\nT1 M6\nG54 S3000 M3\nG0 X-20. Y-20. Z10.\n';
export const BAR_HEAD = 'G21 G18 G40 G99\nT0101\nG97 S1000 M3\n';
