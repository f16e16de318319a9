/** Workpiece materials: figures with their sources, lookup by any name, windows for feed and speed. */

export * from './find.ts';
export * from './force.ts';
export * from './hardness.ts';
export * from './material.ts';
export * from './sources.ts';
export { builtInMaterials, figuresLeftOut } from './table.ts';
export * from './tool-kind.ts';
export * from './user-material.ts';
export * from './window.ts';
export type * from './window-request.ts';
