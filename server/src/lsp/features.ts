import { codeActionFeature } from './code-action-feature.ts';
import { commandFeature } from './command-feature.ts';
import type { Feature } from './feature.ts';
import { hoverFeature } from './hover-feature.ts';
import { inlayHintFeature } from './inlay-hint-feature.ts';
import { languageFeatures } from './language-features.ts';

/** The one table of protocol features. */
export const features: readonly Feature[] = [
  inlayHintFeature,
  hoverFeature,
  codeActionFeature,
  commandFeature,
  ...languageFeatures,
];
