/** Programs to measure with, made up from a seed: the same seed and size give the same bytes on every computer. */

export const PROGRAM_KINDS = ['finishing', 'pockets', 'turning'] as const;
export type ProgramKind = (typeof PROGRAM_KINDS)[number];

const SEED = 20_260_131;

/** A program of `lines` lines. Finishing has about 28 bytes a line, pockets are arcs for the half, turning is for a lathe. */
export function makeProgram(kind: ProgramKind, lines: number): Uint8Array {
  const out = new Lines(lines);
  const random = randomFrom(SEED);
  if (kind === 'finishing') finishing(out, random);
  else if (kind === 'pockets') pockets(out, random);
  else turning(out, random);
  return out.bytes();
}

/** Small numbers from 0 to 1 that depend on the seed only (a linear congruence with the constants of Numerical Recipes). */
function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

class Lines {
  private readonly pieces: Uint8Array[] = [];
  private text = '';
  private count = 0;
  private readonly encoder = new TextEncoder();

  constructor(private readonly most: number) {}

  get full(): boolean {
    return this.count >= this.most - 2;
  }

  add(line: string): void {
    this.text += `${line}\n`;
    this.count++;
    if (this.text.length > 1_000_000) this.flush();
  }

  bytes(): Uint8Array {
    this.add('M5');
    this.add('M30');
    this.flush();
    const all = new Uint8Array(this.pieces.reduce((sum, piece) => sum + piece.length, 0));
    let at = 0;
    for (const piece of this.pieces) {
      all.set(piece, at);
      at += piece.length;
    }
    return all;
  }

  private flush(): void {
    this.pieces.push(this.encoder.encode(this.text));
    this.text = '';
  }
}

const LINES_A_TOOL = 60_000;

/** Raster passes of a ball end mill over a waved surface; feeds change at the ends of passes, the tool now and then. */
function finishing(out: Lines, random: () => number): void {
  out.add('(FINISHING, SURFACE OF A COVER)');
  out.add('G21 G90 G94 G17 G54');
  for (let tool = 1; !out.full; tool++) {
    const number = ((tool - 1) % 6) + 1;
    out.add(`(T${number} BALL ENDMILL D${4 + number} 2FL)`);
    out.add(`T${number} M6`);
    out.add(`G43 H${number} S${8000 + number * 500} M3`);
    out.add('G0 X0.0000 Y0.0000 Z25.0000');
    let made = 0;
    for (let pass = 0; made < LINES_A_TOOL && !out.full; pass++) {
      const y = pass * 0.2 + random() * 0.01;
      out.add(`G0 X${(20 + random()).toFixed(4)} Y${y.toFixed(4)} Z5.0000`);
      out.add(`G1 Z${(-2 - random()).toFixed(4)} F${300 + (pass % 3) * 50}`);
      const points = 380 + Math.floor(random() * 60);
      for (let k = 0; k < points && !out.full; k++) {
        const x = 20 + k * 0.41 + random() * 0.05;
        const z = -3.5 - 1.8 * Math.sin(x / 15) * Math.cos(y / 20) + random() * 0.01;
        const first = k === 0 ? ` F${1800 + (pass % 4) * 100}` : '';
        out.add(`X${x.toFixed(4)} Y${(y + random() * 0.02).toFixed(4)} Z${z.toFixed(4)}${first}`);
      }
      out.add('G0 Z5.0000');
      made += points + 3;
    }
    out.add('G0 Z25.0000');
  }
}

/** Round pockets and slots with rounded ends, level after level. */
function pockets(out: Lines, random: () => number): void {
  out.add('(ROUND POCKETS)');
  out.add('G21 G90 G94 G17 G54');
  out.add('T3 M6 (ENDMILL D10 4FL)');
  out.add('G43 H3 S6000 M3');
  for (let pocket = 0; !out.full; pocket++) {
    const x = 20 + (pocket % 12) * 30 + random();
    const y = 20 + (Math.floor(pocket / 12) % 8) * 30 + random();
    out.add(`G0 X${x.toFixed(3)} Y${y.toFixed(3)} Z2.`);
    for (let level = 1; level <= 20 && !out.full; level++) {
      out.add(`G1 X${x.toFixed(3)} Y${y.toFixed(3)} Z${(-level * 0.4).toFixed(3)} F250`);
      let from = x;
      for (let ring = 1; ring <= 6 && !out.full; ring++) {
        const radius = ring * 1.5;
        out.add(`G1 X${(x + radius).toFixed(3)} Y${y.toFixed(3)} F900`);
        out.add(`G3 X${(x - radius).toFixed(3)} Y${y.toFixed(3)} I${(-radius).toFixed(3)} J0.`);
        out.add(`G3 X${(x + radius).toFixed(3)} Y${y.toFixed(3)} I${radius.toFixed(3)} J0.`);
        from = x + radius;
        out.add(`G1 X${(from - 0.2).toFixed(3)} Y${y.toFixed(3)} Z${(-level * 0.4).toFixed(3)}`);
      }
    }
    out.add('G0 Z2.');
  }
}

/** Passes along a shaft with shoulders and rounded corners, constant surface speed, feed per revolution. */
function turning(out: Lines, random: () => number): void {
  out.add('(SHAFT, MANY SHOULDERS)');
  out.add('G21 G90 G99 G18 G54');
  out.add('G50 S3000');
  out.add('T0101 (CNMG 120408)');
  out.add('G96 S180 M3');
  for (let pass = 0; !out.full; pass++) {
    const depth = (pass % 40) * 0.5;
    out.add(`G0 X${(102 - depth).toFixed(3)} Z2.`);
    out.add(`G1 Z0. F${(0.2 + (pass % 3) * 0.05).toFixed(2)}`);
    for (let step = 0; step < 60 && !out.full; step++) {
      const z = -step * 2 - random();
      const x = 100 - depth - Math.floor(step / 6) * 2;
      if (step % 6 === 5) {
        out.add(`G3 X${x.toFixed(3)} Z${(z - 1).toFixed(3)} R4.000`);
        out.add(`G1 Z${(z - 1.5).toFixed(3)}`);
      } else {
        out.add(`G1 X${(x + random() * 0.01).toFixed(3)} Z${z.toFixed(3)}`);
      }
    }
    out.add('G0 X110. Z2.');
  }
}
