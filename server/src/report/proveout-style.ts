/** The sheet for the machine: dense enough for one page of paper, large enough on a tablet. */
export const PROVEOUT_STYLE = `
body { max-width: 70rem; margin: 0 auto; }
h2 { margin: 0.9rem 0 0.3rem; }
ol { padding-left: 1.3rem; }
dl div { display: flex; gap: 0.6rem; }
dt { font-weight: 700; flex: 0 0 8.5rem; }
dd { margin: 0; }
.fill { display: flex; gap: 0.5rem; flex-wrap: wrap; }
.blank { flex: 1 1 6rem; border-bottom: 1px solid var(--ink); min-height: 1.2em; }
.two { display: grid; grid-template-columns: 1fr 1fr; gap: 0 1.5rem; }
@media (max-width: 50rem) { .two { grid-template-columns: 1fr; } }
table { width: 100%; }
caption { font-size: 0.9em; }
td.write { border: 1px solid var(--ink); min-width: 6rem; padding: 0.2rem 0.4rem; }
.offsets td.write { width: 35%; }
.offsets th { white-space: nowrap; }
.tools tbody + tbody .main > * { border-top: 2px solid var(--ink); }
.tools tbody .main > * { border-top: 1px solid var(--ink); }
.tools tbody tr + tr > td { border-top: 0; padding-top: 0; }
.tools td.write, .tools tbody tr + tr > td.write { border: 1px solid var(--ink); }
.tools tbody tr + tr > td.write { border-top: 0; }
.what { font-weight: 400; }
.tick { display: inline-block; border: 1px solid var(--ink); padding: 0 0.25rem; }
.box { display: inline-block; width: 0.8em; height: 0.8em; border: 1px solid var(--ink); vertical-align: -0.1em; }
.empty td { height: 1.6rem; border-bottom: 1px solid var(--ink); }
.article td + td { border-left: 1px solid var(--line); padding-left: 0.4rem; }
.restart th:first-child, .restart td:nth-child(2), .article thead th { white-space: nowrap; }
.restart .code { font-size: 0.85em; }
@media print {
  @page { margin: 9mm; }
  body { padding: 0; font-size: 7.8pt; line-height: 1.25; max-width: none; }
  h1 { font-size: 12pt; margin: 0; }
  h2 { font-size: 9pt; margin: 1.6mm 0 0.6mm; border-bottom-width: 1px; }
  p, ol, dl { margin: 0.5mm 0; }
  th, td { padding: 0.4mm 1.5mm 0.4mm 0; }
  td.write { padding: 0.4mm 1mm; }
  .two { grid-template-columns: 1fr 1fr; gap: 0 4mm; }
  dt { flex-basis: 24mm; }
  .caution { margin: 1.5mm 0 0; padding: 0.8mm 1.5mm; border-width: 1px; }
  .empty td { height: 5.5mm; }
}
`;
