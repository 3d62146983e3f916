/** Letters, rules and page sizes of the printed papers: black on white, legible at arm's length. */
export const paperStyle = `
@page { margin: 8mm 10mm; }
@page sheet-across { size: landscape; margin: 8mm 10mm; }
.paper { --ink: #000; --ink-soft: #222; --paper: #fff; --live: #000; --broken: #000; --near: #000; --barrier: #000; --core: #ddd; --former: #f2f2f2; --primary: #fff; --secondary: #e6e6e6; --bias: #888; --tape: #bbb; --font-drawing: var(--font-text, Arial, 'Liberation Sans', Helvetica, 'Nimbus Sans', 'DejaVu Sans Condensed', system-ui, sans-serif); box-sizing: border-box; color: #000; background: #fff; font: 9.6pt/1.28 var(--font-drawing); font-size-adjust: 0.519; max-width: 190mm; margin: 0 auto; overflow-wrap: anywhere; }
.paper + .paper { break-before: page; }
.paper *, .paper *::before { box-sizing: border-box; }
.paper > header { display: flex; align-items: baseline; column-gap: 4mm; border-bottom: 1.2pt solid #000; padding-bottom: 0.6mm; margin-bottom: 1.4mm; flex-wrap: wrap; }
.paper h1 { font-size: 14pt; line-height: 1.1; margin: 0; }
.paper .subtitle { margin: 0; font-size: 9.6pt; flex: 1 1 60mm; min-width: 0; }
.paper h2 { font-size: 11.5pt; margin: 2.6mm 0 0.8mm; break-after: avoid; }
.paper p { margin: 0 0 1.4mm; }
.paper .caution { max-width: none; border: 1.2pt solid #000; padding: 0.5mm 1.4mm; color: inherit; font-size: 8.6pt; line-height: 1.25; }
.paper table { border-collapse: collapse; width: 100%; margin: 0 0 1.4mm; font-size: 9.4pt; font-variant-numeric: tabular-nums; overflow-wrap: break-word; }
.paper caption { text-align: left; font-weight: 650; padding: 0 0 0.4mm; }
.paper th, .paper td { border-bottom: 0.4pt solid #555; padding: 0.45mm 1.1mm; text-align: left; vertical-align: baseline; }
.paper thead th, .paper thead td { border-bottom: 0.9pt solid #000; font-size: 8.4pt; font-weight: 650; padding-block: 0.2mm; }
.paper thead { display: table-header-group; }
.paper tr, .paper tbody.step { break-inside: avoid; }
.paper .number { text-align: right; white-space: nowrap; }
.paper thead th.number { white-space: normal; }
.paper .strong { font-weight: 700; }
.paper .tick { display: inline-block; width: 3.2mm; height: 3.2mm; border: 0.9pt solid #000; vertical-align: -0.4mm; }
.paper .tick-cell { width: 6mm; }
.paper .blank { display: inline-block; min-width: 15mm; border-bottom: 0.7pt solid #000; }
.paper .blank-cell { white-space: nowrap; }
.paper .blanks { display: flex; flex-wrap: wrap; gap: 0.6mm 5mm; margin: 0 0 1.2mm; font-size: 9pt; }
.paper .fill { display: flex; flex: 1 1 30mm; gap: 1.2mm; white-space: nowrap; }
.paper .fill .blank { flex: 1; }
.paper .facts { display: flex; flex-wrap: wrap; gap: 0.2mm 4mm; margin: 0 0 1mm; line-height: 1.25; }
.paper .facts div { display: flex; gap: 1.2mm; align-items: baseline; }
.paper .facts dt { font-size: 8.4pt; white-space: nowrap; }
.paper .facts dd { margin: 0; font-weight: 650; font-variant-numeric: tabular-nums; }
.paper .columns { display: grid; grid-auto-flow: column; grid-auto-columns: minmax(0, 1fr); gap: 4mm; align-items: start; }
.paper .columns[data-widths='3:2'] { grid-auto-flow: row; grid-template-columns: minmax(0, 3fr) minmax(0, 2fr); }
.paper figure { margin: 0 0 1mm; break-inside: avoid; }
.paper figure svg { width: 100%; height: auto; display: block; }
.paper figcaption { font-size: 8.6pt; }
.paper .steps td { border-bottom: 0; padding-block: 0.3mm; }
.paper .steps tbody { border-bottom: 0.7pt solid #000; }
.paper .steps .step-more > td { padding-top: 0; padding-bottom: 0.4mm; }
.paper .steps .step > tr:first-child { font-size: 10pt; }
.paper .step-after { display: flex; justify-content: space-between; gap: 4mm; font-size: 8.8pt; line-height: 1.25; }
.paper .step-job { flex: 1 1 0; min-width: 0; }
.paper .checks { display: flex; flex-direction: column; gap: 0.3mm; flex: none; align-items: end; }
.paper .check { white-space: nowrap; }
.paper .tally { display: flex; gap: 0.5mm; margin: 0 0 0.4mm; font-size: 8pt; line-height: 1.15; }
.paper .tally-box { border: 0.6pt solid #000; flex: 1 1 0; min-width: 0; max-width: 9mm; text-align: center; padding: 0.2mm 0; font-variant-numeric: tabular-nums; overflow-wrap: normal; }
.paper .tally-box.is-end { border-width: 1.5pt; font-weight: 700; }
.paper .list { margin: 0 0 1.2mm; padding: 0; list-style: none; font-size: 8.8pt; line-height: 1.25; }
.paper .list li { margin: 0 0 0.5mm; padding-left: 3.4mm; text-indent: -3.4mm; }
.paper .list li::before { content: '– '; }
.paper .list.is-ticked { font-size: 10pt; }
.paper .list.is-ticked li { display: flex; gap: 1.2mm; align-items: baseline; padding-left: 0; text-indent: 0; margin-bottom: 1mm; break-inside: avoid; }
.paper .list.is-ticked .tick { flex: none; }
.paper .list.is-ticked li::before { content: none; }
.paper .plate { display: block; border: 1.4pt solid #000; border-radius: 2mm; padding: 2mm 3mm; max-width: 84mm; font-size: 9.6pt; break-inside: avoid; }
.paper .plate-title { font-size: 8.4pt; letter-spacing: 0.06em; }
.paper .plate-row { display: flex; flex-wrap: nowrap; gap: 2mm; padding: 0.4mm 0; }
.paper .plate-label { flex: 0 0 19mm; }
.paper .plate-row.is-title { font-size: 12pt; font-weight: 700; border-bottom: 0.7pt solid #000; margin-bottom: 1mm; }
.paper .plate-row.is-warning { font-weight: 700; border: 0.9pt solid #000; padding: 0.6mm 1.4mm; margin: 0.8mm 0; }
.paper > footer { border-top: 0.6pt solid #000; margin-top: 1.4mm; padding-top: 0.5mm; font-size: 7.8pt; line-height: 1.2; }
.paper .page-break { break-after: page; }
.paper-winding-sheet h2 { font-size: 9.4pt; margin: 1mm 0 0.2mm; }
.paper-winding-sheet figure { margin: 0; }
.paper-winding-sheet .list li { display: inline; margin-right: 1.4mm; padding: 0; text-indent: 0; }
.paper-winding-sheet .blanks { margin-bottom: 0.8mm; }
.paper-winding-sheet .figure-winding-section svg, .paper-winding-sheet .figure-winding-connections svg { height: 35mm; }
.paper-winding-sheet .figure-former-pins svg, .paper-winding-sheet .figure-former-above svg { height: 29.5mm; }
.paper-winding-sheet .columns table { font-size: 8.8pt; margin: 0 0 0.8mm; }
.paper-winding-sheet .columns :is(td, th) { padding: 0.35mm 0.7mm; }
.paper-winding-sheet .columns .blank { min-width: 12mm; }
.paper-winding-sheet td.strong { white-space: nowrap; }
.paper-results .columns td:first-child { white-space: nowrap; }
.paper-bench-log .blank-cell { padding-block: 2.2mm 0; border-bottom: 0; }
.paper-bench-log .blank { width: 100%; }
.paper-power-up { font-size: 7.5pt; line-height: 1.16; }
.paper-power-up h2 { font-size: 9pt; margin: 0.8mm 0 0.1mm; }
.paper-power-up p { margin: 0 0 0.4mm; }
.paper-power-up .caution, .paper-power-up .list { font-size: 7.2pt; line-height: 1.18; margin: 0 0 0.5mm; }
.paper-power-up .caution { padding: 0.3mm 1.4mm; }
.paper-power-up header { margin-bottom: 1mm; padding-bottom: 0.4mm; }
.paper-power-up table { font-size: 7.5pt; margin: 0 0 0.6mm; }
.paper-power-up .list:not(.is-ticked) { columns: 2; column-gap: 4mm; }
.paper-power-up .list.is-ticked { font-size: 7.5pt; }
.paper-power-up td { padding-block: 0.1mm; }
.paper-power-up thead th { font-size: 6.8pt; line-height: 1.1; padding-block: 0; }
.paper-power-up .tick { width: 2.8mm; height: 2.8mm; }
.paper-power-up .blank { min-width: 13mm; }
.paper.is-dense { zoom: 0.86; max-width: 221mm; }
.paper-schematic { page: sheet-across; max-width: 277mm; }
@media screen {
  .paper { padding: 6mm; }
  .paper + .paper, .paper + .record-file { border-top: 1px dashed #999; }
}
.record-file { max-width: 190mm; margin: 6mm auto; font: 9pt/1.3 ui-monospace, monospace; }
.record-file pre { white-space: pre-wrap; overflow-wrap: anywhere; }
@media print {
  .record-file { display: none; }
}
@media screen and (max-width: 640px) {
  .paper .columns, .paper .columns[data-widths] { grid-auto-flow: row; grid-template-columns: minmax(0, 1fr); }
  .paper .columns figure svg { height: auto; }
  .paper.is-dense { zoom: 1; }
  .paper .steps thead { display: none; }
  .paper .steps tbody, .paper .steps .step-more, .paper .steps .step-more > td { display: block; }
  .paper .steps .step > tr:first-child { display: flex; flex-wrap: wrap; gap: 0 4mm; align-items: baseline; }
  .paper .steps td { padding-inline: 0; text-align: left; }
  .paper .steps .step-more > td:empty { display: none; }
  .paper .steps td[data-title]:not([data-title='Step'])::before { content: attr(data-title) ' '; font-size: 8.4pt; }
  .paper .step-after { flex-direction: column; gap: 1mm; }
  .paper .checks { align-items: start; }
  .paper .tally { flex-wrap: wrap; }
  .paper .tally-box { flex: 0 0 8mm; }
  .paper table { display: block; overflow-x: auto; }
}
`
