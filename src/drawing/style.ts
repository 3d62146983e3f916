/**
 * Line weights and letters of every drawing, in terms of custom properties that page and print define, so that
 * screen and paper show the same drawing. Defaults are for black on white paper.
 */
export const drawingStyle = `
.schematic, .section, .former, .connections { --line: var(--ink, #111); --quiet: var(--ink-soft, #555); font-family: var(--font-drawing, system-ui, sans-serif); }
.schematic .wire { stroke: var(--line); stroke-width: 1.3; stroke-linejoin: round; stroke-linecap: round; }
.schematic .symbol { stroke: var(--line); stroke-width: 1.8; fill: none; stroke-linejoin: round; }
.schematic .symbol.thin { stroke-width: 1.1; }
.schematic .symbol.solid { fill: var(--line); stroke-width: 1; }
.schematic .symbol.terminal { fill: var(--paper, #fff); }
.schematic .junction { fill: var(--line); }
.schematic .hit { fill: transparent; stroke: none; }
.schematic .barrier { stroke: var(--barrier, #111); stroke-width: 1.6; stroke-dasharray: 9 6; }
.schematic text { fill: var(--line); font-size: 14px; paint-order: stroke; stroke: var(--paper, #fff); stroke-width: 3px; stroke-linejoin: round; }
.schematic text.reference { font-weight: 650; }
.schematic text.value { fill: var(--quiet); }
.schematic text.reading, .schematic text.node { fill: var(--live, #111); font-variant-numeric: tabular-nums; }
.schematic text.node { font-size: 14.5px; font-weight: 650; }
.schematic text.pin { font-size: 13px; }
.schematic text.mark { font-size: 11px; }
.schematic text.side { font-size: 13px; fill: var(--quiet); letter-spacing: 0.04em; }
.schematic text.flag { font-size: 12.5px; font-weight: 650; fill: var(--broken, #111); }
.schematic text.test-point { font-size: 13px; font-weight: 650; }
.schematic .probe { fill: var(--paper, #fff); stroke: var(--line); stroke-width: 1.6; }
.schematic .title-block .frame { fill: none; stroke: var(--line); stroke-width: 1.4; }
.schematic text.block-label { font-size: 14px; fill: var(--quiet); }
.schematic text.block-value { font-size: 14px; font-weight: 600; }
.schematic .part.is-broken .symbol, .schematic .part.is-broken .wire { stroke: var(--broken, #111); stroke-width: 2.6; }
.schematic .part.is-near .symbol { stroke: var(--near, #111); }
.section text { fill: var(--line); font-size: 19px; font-weight: 650; }
.section text.quiet { fill: var(--quiet); font-size: 17.5px; font-weight: 400; }
.section .core { fill: var(--core, #ddd); stroke: var(--line); stroke-width: 1; }
.section .gap { fill: var(--paper, #fff); stroke: var(--line); stroke-width: 0.8; }
.section .former-wall { fill: var(--former, #f2f2f2); stroke: var(--line); stroke-width: 0.9; }
.section .margins rect { fill: none; stroke: var(--quiet); stroke-width: 0.7; stroke-dasharray: 2 2; }
.section .band circle { stroke: var(--line); stroke-width: 0.9; fill: var(--paper, #fff); }
.section .of-primary circle { fill: var(--primary, #fff); }
.section .of-secondary circle { fill: var(--secondary, #e6e6e6); }
.section .of-secondary path { stroke: var(--line); stroke-width: 0.9; fill: none; }
.section .of-bias circle { fill: var(--bias, #888); }
.section .band.is-tape { fill: var(--tape, #bbb); stroke: none; }
.section .band.is-shield, .section .band.is-foil { fill: var(--secondary, #ccc); stroke: var(--line); stroke-width: 0.7; }
.section .band.is-marked, .section .band.is-marked circle { stroke: var(--broken, #000); stroke-width: 2; }
.section .build { stroke: var(--line); stroke-width: 1; stroke-dasharray: 6 4; }
.section .callout polyline { fill: none; stroke: var(--quiet); stroke-width: 0.9; }
.former .body, .former .barrel { fill: none; stroke: var(--line); stroke-width: 1.5; }
.former .pin, .connections .pin { fill: var(--paper, #fff); stroke: var(--line); stroke-width: 1.8; }
.former text, .connections text { fill: var(--line); font-size: 14px; }
.former .is-free .pin { stroke-dasharray: 2 2; stroke-width: 1.1; }
.former .is-free .pin-number { font-weight: 400; font-size: 11px; }
.former .pin-number, .connections .pin-number { font-weight: 650; font-size: 14px; }
.former text.pin-use { font-weight: 650; }
.former text.pin-net { fill: var(--quiet); }
.former text.view-title { font-size: 14px; font-weight: 650; }
.former text.view-title.is-quiet { font-weight: 400; }
.former .turn path { stroke: var(--line); stroke-width: 2; }
.former .turn .head { fill: var(--line); }
.connections .wire { stroke: var(--line); stroke-width: 1.3; stroke-linejoin: round; }
.connections .symbol { stroke: var(--line); stroke-width: 1.8; fill: none; }
.connections .core-line { stroke: var(--line); stroke-width: 1.4; }
.connections .dot, .former .dot { fill: var(--line); }
.connections text.part-name { font-weight: 650; font-size: 15px; }
.connections text.net { font-weight: 600; }
.connections text.quiet { fill: var(--quiet); }
`
