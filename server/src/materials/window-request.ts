import type { Material, StatedWindow } from './material.ts';
import type { Substrate, ToolKind } from './tool-kind.ts';

/** What is asked when the windows of a tool in a material are wanted. */
export interface WindowRequest {
  /** Absent when the material is not known: only stated ranges count then. */
  readonly material?: Material;
  readonly kind: ToolKind;
  readonly substrate?: Substrate;
  readonly diameter_mm?: number;
  readonly teeth?: number;
  readonly nose_radius_mm?: number;
  /** Width of a grooving or parting blade. */
  readonly width_mm?: number;
  /** Depth of the hole that is drilled, for deep-hole derating. */
  readonly hole_depth_mm?: number;
  /** Width of cut over diameter, when known: thin radial cuts allow more feed. */
  readonly radial_share?: number;
  readonly setup?: SetupForWindow;
  readonly maker?: StatedWindow;
  readonly proven?: StatedWindow;
}

/** What of the setup narrows a window. */
export interface SetupForWindow {
  readonly stickout_mm?: number;
  readonly grip?: 'firm' | 'fair' | 'weak';
  readonly wear?: 'new' | 'used' | 'dull';
  /** Dial reading at the cutting edge. */
  readonly runout_mm?: number;
}

/** What a window rests on, best first. */
export type WindowBasis = 'proven' | 'maker' | 'handbook';

/** One thing that changed a window: in words, with the factor and the end it works on. */
export interface WindowStep {
  readonly why: string;
  readonly factor: number;
  readonly end: 'low' | 'high' | 'both';
}

/** The range a number should sit in, where it came from and what was done to it. */
export interface WindowRange {
  readonly low: number;
  readonly high: number;
  readonly basis: WindowBasis;
  readonly source: string;
  readonly steps: readonly WindowStep[];
  /** Remarks, such as `tool material not stated`. */
  readonly notes: readonly string[];
}
