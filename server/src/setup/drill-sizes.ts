import { product } from './quantity.ts';

/** Diameters of number drills 1 to 80 in inches, ASME B94.11M. */
const numbered_in = [
  0.228, 0.221, 0.213, 0.209, 0.2055, 0.204, 0.201, 0.199, 0.196, 0.1935, 0.191, 0.189, 0.185, 0.182, 0.18,
  0.177, 0.173, 0.1695, 0.166, 0.161, 0.159, 0.157, 0.154, 0.152, 0.1495, 0.147, 0.144, 0.1405, 0.136, 0.1285,
  0.12, 0.116, 0.113, 0.111, 0.11, 0.1065, 0.104, 0.1015, 0.0995, 0.098, 0.096, 0.0935, 0.089, 0.086, 0.082,
  0.081, 0.0785, 0.076, 0.073, 0.07, 0.067, 0.0635, 0.0595, 0.055, 0.052, 0.0465, 0.043, 0.042, 0.041, 0.04,
  0.039, 0.038, 0.037, 0.036, 0.035, 0.033, 0.032, 0.031, 0.0292, 0.028, 0.026, 0.025, 0.024, 0.0225, 0.021,
  0.02, 0.018, 0.016, 0.0145, 0.0135,
];

/** Diameters of letter drills A to Z in inches, ASME B94.11M. */
const lettered_in = [
  0.234, 0.238, 0.242, 0.246, 0.25, 0.257, 0.261, 0.266, 0.272, 0.277, 0.281, 0.29, 0.295, 0.302, 0.316,
  0.323, 0.332, 0.339, 0.348, 0.358, 0.368, 0.377, 0.386, 0.397, 0.404, 0.413,
];

/** Diameter in mm of a number drill, 1 to 80. */
export function numberDrill_mm(number: number): number | undefined {
  const size_in = numbered_in[number - 1];
  return size_in === undefined ? undefined : product(size_in, 25.4);
}

/** Diameter in mm of a letter drill, A to Z. */
export function letterDrill_mm(letter: string): number | undefined {
  const size_in = lettered_in[letter.toUpperCase().charCodeAt(0) - 65];
  return size_in === undefined || letter.length !== 1 ? undefined : product(size_in, 25.4);
}
