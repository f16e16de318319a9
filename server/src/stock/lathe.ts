/** The lathe's stock: an outer and an inner radius over z, cut by single-point tools and drills. */
import { type ArcInWork, arcInWork, chord_mm, nextPiece } from './lathe-arc.ts';
import { LatheContact, Stretches } from './lathe-contact.ts';
import { type CutRun, depthAcross } from './lathe-depth.ts';
import {
  figuresOf,
  type LatheFigures,
  lengthInMetal,
  met,
  newSums,
  resetMet,
  type Sums,
  skin_mm,
} from './lathe-figures.ts';
import { LatheHull } from './lathe-hull.ts';
import { leansOver } from './lathe-lean.ts';
import type { LatheMove } from './lathe-moves.ts';
import { type BarProfile, LatheProfile } from './lathe-profile.ts';
import { cutThread } from './lathe-thread.ts';
import type { TurningTool } from './turning-tool.ts';

/** Thickest skin that is faced from a bore outwards. */
const face_skin_mm = 0.5;
/** Thickest face that a facing tool takes off with the edge behind its nose. */
const face_mm = 3;

/**
 * Two height functions over z. A tool sweeps the convex hull of its outline at both ends of a straight move, exact for convex tools.
 * Grooves that widen inwards and threads are not held as shapes; a thread leaves the bar as it is and keeps its depth apart.
 */
export class LatheStock extends LatheProfile {
  private readonly hull = new LatheHull();
  private readonly contact = new LatheContact();
  private readonly stretches = new Stretches();
  /** What the straight move in work has cut. */
  private runs: CutRun[] | undefined;
  private work: { move: LatheMove; tool: TurningTool; arc: ArcInWork | undefined } | undefined;
  private found = newSums();
  /** Figures of the last move that was finished. */
  figures: LatheFigures = figuresOf(this.found);

  /** Goes back to radii that `profile` gave; a move that was begun is given up. */
  override restore(profile: BarProfile): void {
    super.restore(profile);
    this.work = undefined;
  }

  /** Cuts one move and says what it met. */
  move(move: LatheMove, tool: TurningTool): LatheFigures {
    this.begin(move, tool);
    while (!this.goOn());
    return this.figures;
  }

  /** Begins a move; `goOn` cuts it. */
  begin(move: LatheMove, tool: TurningTool): void {
    this.found = newSums();
    this.work = { move, tool, arc: arcInWork(move) };
  }

  /** Cuts a straight piece of the move that was begun; true when the move is finished and `figures` are its own. */
  goOn(): boolean {
    const { work, found } = this;
    if (!work) return true;
    const { move, tool, arc } = work;
    if (move.kind === 'thread') {
      this.figures = cutThread(this, move, tool, found);
    } else if (!arc) {
      this.cutLine(move.from, move.to, tool, found, true);
      this.figures = figuresOf(found);
    } else {
      const to = nextPiece(arc, move.to);
      this.cutLine(arc.from, to, tool, found, false);
      arc.from = to;
      if (arc.done < arc.pieces) return false;
      this.figures = figuresOf(found);
    }
    this.work = undefined;
    return true;
  }

  /** A drill, reamer or tap on the axis from `from_z` to `to_z` (towards the chuck), tip leading by its point. */
  drill(from_z_mm: number, to_z_mm: number, diameter_mm: number, point_angle_deg = 180): LatheFigures {
    const radius = diameter_mm / 2;
    const slope = point_angle_deg >= 179.99 ? 0 : 1 / Math.tan((point_angle_deg * Math.PI) / 360);
    const found = newSums();
    const tip = Math.min(from_z_mm, to_z_mm);
    const top = Math.max(from_z_mm, to_z_mm);
    const half = this.slice_mm / 2;
    this.stretches.clear();
    for (let k = this.sliceAt(tip); k < this.count; k++) {
      const z = this.low_z_mm + (k + 0.5) * this.slice_mm;
      if (z < tip) continue;
      const reach = slope === 0 ? radius : Math.min(radius, (z - tip) / slope);
      const was = this.inner[k];
      if (this.takeInner(k, z, reach, found) <= skin_mm) continue;
      const end = slope === 0 ? z - half : z - half - slope * Math.min(radius, this.outer[k]);
      this.stretches.add(Math.max(tip, end), Math.min(top, z + half - slope * was));
    }
    found.way = top - tip;
    found.in_metal = this.stretches.length();
    found.length = found.in_metal;
    this.work = undefined;
    this.figures = figuresOf(found);
    return this.figures;
  }

  private cutLine(
    from: readonly [number, number],
    to: readonly [number, number],
    tool: TurningTool,
    found: Sums,
    whole: boolean,
  ): void {
    if (tool.kind === 'turn' && (this.facesOutwards(from, to, found) || this.entersBore(from, to))) {
      found.way += Math.hypot(to[0] - from[0], to[1] - from[1]);
      return;
    }
    this.hull.sweep(from, to, tool);
    const { z: hullZ, x: hullX, count: points } = this.hull;
    const area = found.area;
    const { contact, slice_mm, outer, inner } = this;
    const outside = tool.inward > 0;
    const least_mm = whole ? skin_mm : chord_mm;
    const [surface, other] = outside ? [outer, inner] : [inner, outer];
    resetMet();
    contact.begin(from, to, tool);
    this.runs = whole ? [] : undefined;
    let h = 0;
    // slices side by side that have the same surface and the same metal are told to `contact` at once
    let runFrom = 0;
    let runTo = 0;
    let runSurface = Number.NaN;
    let runOther = Number.NaN;
    const first = this.sliceAt(hullZ[0]);
    for (let k = first; k < this.count; k++) {
      const z = this.low_z_mm + (k + 0.5) * slice_mm;
      if (z < hullZ[0]) continue;
      if (z > hullZ[points - 1]) break;
      while (h + 2 < points && hullZ[h + 1] < z) h++;
      const span = hullZ[h + 1] - hullZ[h];
      const part = span > 0 ? (z - hullZ[h]) / span : 0;
      const x = hullX[h] + (hullX[h + 1] - hullX[h]) * part;
      const was = surface[k];
      const thick = outside ? this.takeOuter(k, z, x, found) : this.takeInner(k, z, -x, found);
      if (thick <= least_mm) continue;
      if (k !== runTo || was !== runSurface || other[k] !== runOther) {
        this.tellRun(runFrom, runTo, runSurface, runOther, tool.inward);
        runFrom = k;
        runSurface = was;
        runOther = other[k];
      }
      runTo = k + 1;
    }
    this.tellRun(runFrom, runTo, runSurface, runOther, tool.inward);
    contact.addTo(found, this);
    if (leansOver(from, to, tool, edge => surface[this.sliceAt(edge)] * tool.inward))
      found.in_metal = Number.NaN;
    if (tool.kind === 'turn' && to[1] < from[1]) this.dropFace(from[1], to[0], found);
    if (this.runs) {
      const heightAt = (k: number) => surface[k] * tool.inward;
      found.across = depthAcross(from, to, tool, this.runs, { low_z_mm: this.low_z_mm, slice_mm, heightAt });
    }
    if (found.area > area) found.length += lengthInMetal(from, to, met);
  }

  private tellRun(from: number, to: number, surface: number, other: number, inward: number): void {
    if (to <= from) return;
    const low = this.low_z_mm + from * this.slice_mm;
    const was = surface * inward;
    const bottom = other * inward;
    this.contact.add(low, this.low_z_mm + to * this.slice_mm, was, bottom);
    this.runs?.push({ from, to, was, bottom });
  }

  /** Facing from outside, `x`, has come through at `z`: what stands before it is off, too, as the tool is wider than its nose. */
  private dropFace(x: number, z: number, found: Sums): void {
    let last = this.count - 1;
    while (last >= 0 && this.outer[last] - this.inner[last] <= skin_mm) last--;
    let first = last;
    for (; first >= 0 && this.outer[first] - this.inner[first] > skin_mm; first--)
      if (this.outer[first] > x || (last - first) * this.slice_mm > face_mm) return;
    const at = this.low_z_mm + (first + 1) * this.slice_mm;
    if (first < 0 || at < z || this.low_z_mm + (last + 1) * this.slice_mm - z > face_mm) return;
    const swept = this.runs?.[this.runs.length - 1]?.to ?? 0;
    for (let k = first + 1; k <= last; k++) {
      const was = this.outer[k];
      this.takeOuter(k, this.low_z_mm + (k + 0.5) * this.slice_mm, this.inner[k], found);
      if (k >= swept) this.runs?.push({ from: k, to: k + 1, was, bottom: this.inner[k] });
    }
  }

  /**
   * A turning tool that faces from a bore outwards takes the face off from within: two radii over z hold that as a
   * wider bore. True when the move was one of these and is cut.
   */
  private facesOutwards(
    from: readonly [number, number],
    to: readonly [number, number],
    found: Sums,
  ): boolean {
    if (!(to[1] > from[1]) || Math.abs(to[0] - from[0]) > 0.01 * (to[1] - from[1])) return false;
    const first = this.sliceAt(to[0]);
    if (first >= this.count || !(this.inner[first] > 0) || from[1] > this.inner[first] + 0.5) return false;
    resetMet();
    const area = found.area;
    for (let k = first; k < this.count; k++)
      this.takeInner(k, this.low_z_mm + (k + 0.5) * this.slice_mm, to[1], found);
    if (found.area > area) {
      found.length += lengthInMetal(from, to, met);
      if (met.outer > met.inner) found.in_metal += Math.min(to[1], met.outer) - Math.max(from[1], met.inner);
    }
    return true;
  }

  /**
   * A turning tool comes down to the face with its nose in the mouth of the bore, to face outwards from there: its edge
   * reaches along the face no further than the skin is thick.
   */
  private entersBore(from: readonly [number, number], to: readonly [number, number]): boolean {
    if (!(to[0] < from[0]) || to[1] > from[1]) return false;
    const first = this.sliceAt(to[0]);
    if (first >= this.count || !(this.inner[first] > 0) || to[1] > this.inner[first]) return false;
    const mouth = this.sliceAt(to[0] + face_skin_mm);
    return mouth >= this.count || this.outer[mouth] <= this.inner[mouth];
  }
}
