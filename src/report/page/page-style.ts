/** One style for screen and paper; nothing in it is told by colour alone. */
export const pageStyle = `
:root { color-scheme: light dark; --ink: #1b1b1b; --paper: #fff; --soft: #595959; --line: #b5b5b5; --band: #efefef; }
@media (prefers-color-scheme: dark) { :root { --ink: #e8e8e8; --paper: #161616; --soft: #b3b3b3; --line: #555; --band: #262626; } }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 70rem; font: 1rem/1.45 system-ui, sans-serif; color: var(--ink); background: var(--paper); overflow-wrap: anywhere; }
h1 { font-size: 1.6rem; margin: 0 0 .5rem; }
h2 { font-size: 1.2rem; margin: 2rem 0 .5rem; border-bottom: 2px solid var(--ink); }
p { max-width: 46rem; margin: .5rem 0; }
nav ul, .key ul { list-style: none; margin: .5rem 0; padding: 0; display: flex; flex-wrap: wrap; gap: .25rem 1rem; }
a { color: inherit; }
table { border-collapse: collapse; width: 100%; font-size: .9rem; }
caption { text-align: left; color: var(--soft); padding: .25rem 0; }
th, td { text-align: left; vertical-align: top; padding: .25rem .5rem .25rem 0; border-bottom: 1px solid var(--line); }
thead th { overflow-wrap: normal; border-bottom: 2px solid var(--line); }
tbody th { font-weight: normal; }
tr.group th { font-weight: bold; background: var(--band); padding: .3rem .4rem; }
table.glance { max-width: 46rem; }
table.answers, table.curve { font-size: .85rem; line-height: 1.3; }
table.answers th[scope=row] { width: 50%; }
td.value, .tests td.verdict { font-weight: 600; }
th[scope=row] { min-width: 8rem; }
td.value { min-width: 7rem; }
td.verdict { min-width: 8rem; }
td.says, td.against { min-width: 9rem; }
td.at, td.record { white-space: nowrap; color: var(--soft); font-variant-numeric: tabular-nums; }
td.record { text-align: right; }
.curves { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 20rem), 1fr)); gap: 1rem 1.5rem; margin: 1rem 0; }
figure { margin: 0; max-width: 32rem; }
figcaption { font-weight: 600; }
figure svg[role=img] { display: block; width: 100%; height: auto; }
figure ol { margin: .25rem 0; padding-left: 2rem; font-size: .85rem; }
p.line { font-size: .85rem; margin: .25rem 0; }
svg text { font: 11px system-ui, sans-serif; fill: var(--ink); }
svg text.small { font-size: 9.5px; }
svg text.value { font-weight: 600; paint-order: stroke; stroke: var(--paper); stroke-width: 3px; }
.grid { stroke: var(--line); stroke-width: .5; }
.frame { stroke: var(--ink); stroke-width: 1; fill: none; }
.curve { stroke: var(--ink); stroke-width: 2; fill: none; }
.curve.broken { stroke-dasharray: 6 4; stroke-width: 1.3; }
.whisker { stroke: var(--ink); stroke-width: 1; }
.point { fill: var(--ink); }
.drop { stroke: var(--soft); stroke-width: .6; stroke-dasharray: 1 3; }
.boiling { stroke: var(--ink); stroke-width: 1.2; stroke-dasharray: 1.5 3; }
.shape { width: .9em; height: .9em; vertical-align: -.1em; }
.full { fill: var(--ink); }
.hollow { fill: none; stroke: var(--ink); stroke-width: 1.5; }
.seen { color: var(--soft); }
footer dt { color: var(--soft); }
footer dd { margin: 0 0 .5rem; font-family: ui-monospace, monospace; font-size: .85rem; }
@media screen and (max-width: 52rem) {
  table, thead, tbody, tr, th, td { display: block; }
  thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  tbody tr { padding: .4rem 0; border-bottom: 1px solid var(--line); }
  caption { display: block; }
  th, td { border: 0; padding: .05rem 0; }
  td:empty { display: none !important; }
  td[data-head]::before { content: attr(data-head) ": "; font-weight: normal; color: var(--soft); }
  td.at, td.record { display: inline; padding-right: 1rem; font-size: .85em; }
}
@media print {
  :root { color-scheme: light; --ink: #000; --paper: #fff; --soft: #333; --line: #999; --band: #eee; }
  @page { margin: 15mm; }
  body { max-width: none; padding: 0; font-size: 9.5pt; }
  nav { display: none; }
  h2 { break-after: avoid; }
  thead { display: table-header-group; }
  table { font-size: 8.5pt; }
  th[scope=row], td.value, td.verdict, td.says, td.against { min-width: 4.8rem; }
  td.at { white-space: normal; }
  tr, figure { break-inside: avoid; }
  tr.group { break-after: avoid; }
  .curves { grid-template-columns: 1fr 1fr; }
}
`;
