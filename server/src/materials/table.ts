import { hHardened } from './data/h-hardened.ts';
import { kCastIron } from './data/k-cast-iron.ts';
import { mStainless } from './data/m-stainless.ts';
import { nAluminium } from './data/n-aluminium.ts';
import { nOther } from './data/n-other.ts';
import { pAlloySteel } from './data/p-alloy-steel.ts';
import { pCarbonSteel } from './data/p-carbon-steel.ts';
import { pStainless } from './data/p-stainless.ts';
import { pToolSteel } from './data/p-tool-steel.ts';
import { sHeatResisting } from './data/s-heat-resisting.ts';
import type { Material } from './material.ts';
import type { LoadedRow, MaterialRow } from './row.ts';
import { loadRow } from './row.ts';

/** All rows of the data files, by ISO 513 group. */
export const materialRows: readonly MaterialRow[] = /* @__PURE__ */ [
  pCarbonSteel,
  pAlloySteel,
  pToolSteel,
  pStainless,
  mStainless,
  kCastIron,
  nAluminium,
  nOther,
  sHeatResisting,
  hHardened,
].flat();

const loaded: readonly LoadedRow[] = /* @__PURE__ */ materialRows.map(loadRow);

/** The materials that come with the program. Figures: general workpiece data, each with its source; starting values only. */
export const builtInMaterials: readonly Material[] = /* @__PURE__ */ loaded.map(row => row.material);

/** Figures of the data files that did not load, because no known source stands beside them. Empty in a good build. */
export const figuresLeftOut: readonly string[] = /* @__PURE__ */ loaded.flatMap(row => row.left_out);
