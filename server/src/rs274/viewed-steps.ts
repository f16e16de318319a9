import type { Column } from './steps.ts';

/** The columns of a table, as views of where they stand. */
export interface StepViews {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  readonly arcs: Float64Array;
  readonly line: Column;
  readonly run: Column;
  readonly aux: Column;
  readonly kind: Uint8Array;
  readonly flags: Uint8Array;
}

/** A table whose columns are looked up when they are first asked for. */
export abstract class ViewedSteps implements StepViews {
  protected abstract look(): StepViews;

  get x(): Float64Array {
    return this.look().x;
  }

  get y(): Float64Array {
    return this.look().y;
  }

  get z(): Float64Array {
    return this.look().z;
  }

  get line(): Column {
    return this.look().line;
  }

  get run(): Column {
    return this.look().run;
  }

  get kind(): Uint8Array {
    return this.look().kind;
  }

  get flags(): Uint8Array {
    return this.look().flags;
  }

  get aux(): Column {
    return this.look().aux;
  }

  get arcs(): Float64Array {
    return this.look().arcs;
  }
}
