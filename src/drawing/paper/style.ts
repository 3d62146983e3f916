/** Letters, rules and page sizes of the printed papers: black on white, legible at arm's length. */
export const paperStyle = `
@page { size: A4; margin: 11mm; }
.paper { --ink: #000; --ink-soft: #333; --paper: #fff; --live: #000; --broken: #000; --near: #000; --barrier: #000; color: #000; background: #fff; font: 10.5pt/1.32 var(--font-text, system-ui, sans-serif); max-width: 190mm; }
.paper header { display: flex; align-items: baseline; gap: 5mm; border-bottom: 1.2pt solid #000; padding-bottom: 1mm; margin-bottom: 2mm; flex-wrap: wrap; }
.paper h1 { font-size: 16pt; margin: 0; }
.paper .subtitle { margin: 0; font-size: 10pt; }
.paper h2 { font-size: 11.5pt; margin: 2.4mm 0 0.8mm; break-after: avoid; }
.paper p { margin: 0 0 1.4mm; }
.paper .caution { border: 1.2pt solid #000; padding: 1mm 2mm; font-size: 9.5pt; }
.paper table { border-collapse: collapse; width: 100%; margin: 0 0 1.6mm; font-size: 9.8pt; font-variant-numeric: tabular-nums; }
.paper caption { text-align: left; font-weight: 650; padding: 0 0 0.6mm; }
.paper th, .paper td { border-bottom: 0.4pt solid #555; padding: 0.55mm 1.2mm; text-align: left; vertical-align: baseline; }
.paper thead th { border-bottom: 0.9pt solid #000; font-size: 8.8pt; font-weight: 650; }
.paper thead { display: table-header-group; }
.paper tr { break-inside: avoid; }
.paper .number { text-align: right; white-space: nowrap; }
.paper .strong { font-weight: 700; }
.paper .tick { display: inline-block; width: 3.4mm; height: 3.4mm; border: 0.9pt solid #000; vertical-align: -0.4mm; }
.paper .tick-cell { width: 6mm; }
.paper .blank { display: inline-block; min-width: 17mm; border-bottom: 0.7pt solid #000; }
.paper .blank-cell { white-space: nowrap; }
.paper .facts { display: grid; grid-template-columns: repeat(auto-fit, minmax(40mm, 1fr)); gap: 0.6mm 4mm; margin: 0 0 1.6mm; }
.paper .facts dt { font-size: 8.6pt; color: #333; }
.paper .facts dd { margin: 0; font-weight: 600; font-variant-numeric: tabular-nums; }
.paper .columns { display: grid; grid-auto-flow: column; grid-auto-columns: 1fr; gap: 4mm; align-items: start; }
.paper figure { margin: 0 0 1mm; break-inside: avoid; }
.paper figure svg { width: 100%; height: auto; display: block; }
.paper figcaption { font-size: 8.8pt; }
.paper .tally { display: flex; flex-wrap: wrap; gap: 0.8mm; align-items: center; margin: 0.6mm 0; font-size: 8.4pt; }
.paper .tally-label { font-weight: 650; margin-right: 1mm; }
.paper .tally-box { border: 0.6pt solid #000; min-width: 6.4mm; text-align: center; padding: 0.2mm 0.4mm; }
.paper .tally-box.last { border-width: 1.4pt; font-weight: 700; }
.paper footer { border-top: 0.6pt solid #000; margin-top: 2mm; padding-top: 0.8mm; font-size: 8.4pt; }
.paper .page-break { break-after: page; }
@media screen and (max-width: 640px) {
  .paper .columns { grid-auto-flow: row; }
  .paper table { display: block; overflow-x: auto; }
}
`
