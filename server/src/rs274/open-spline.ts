import type { ControlPoint } from './geometry/nurbs.ts';
import type { Pending } from './state.ts';

/** Control points of an open spline list (G5.2), in order; the tool stands at the first one until G5.3. */
export class OpenSpline implements Pending {
  constructor(
    readonly points: readonly ControlPoint[],
    readonly order: number,
    readonly z: number,
  ) {}

  get x(): number {
    return this.points[this.points.length - 1].x;
  }

  get y(): number {
    return this.points[this.points.length - 1].y;
  }

  get key(): string {
    return JSON.stringify([this.order, this.z, this.points]);
  }

  movedUp(): OpenSpline {
    return this;
  }
}
