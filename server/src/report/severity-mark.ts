import type { Severity } from '../review/finding.ts';
import { type Html, html } from './html-text.ts';

/** Shapes that tell severities apart without colour. */
const SHAPES: Record<Severity, string> = { error: '■', warning: '▲', information: '●', hint: '○' };

/** A severity as shape and word. */
export function severityMark(severity: Severity): Html {
  return html`<span class="sev ${severity}"><span aria-hidden="true">${SHAPES[severity]}</span> ${severity}</span>`;
}
