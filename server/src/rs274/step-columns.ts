/** Columns that steps are written to: see `StepTable`. */
export interface StepColumns {
  line: Int32Array;
  kind: Uint8Array;
  flags: Uint8Array;
  run: Int32Array;
  x: Float64Array;
  y: Float64Array;
  z: Float64Array;
  aux: Int32Array;
  arcs: Float64Array;
}

export function emptyColumns(capacity: number): StepColumns {
  return {
    x: new Float64Array(capacity),
    y: new Float64Array(capacity),
    z: new Float64Array(capacity),
    line: new Int32Array(capacity),
    run: new Int32Array(capacity),
    aux: new Int32Array(capacity),
    kind: new Uint8Array(capacity),
    flags: new Uint8Array(capacity),
    arcs: new Float64Array(0),
  };
}
