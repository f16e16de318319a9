export * from './find.ts';
export * from './hardness.ts';
export * from './material.ts';
export type { SetupForWindow } from './narrowing.ts';
export * from './sources.ts';
export { builtInMaterials, figuresLeftOut } from './table.ts';
export * from './tool-kind.ts';
export * from './window.ts';
