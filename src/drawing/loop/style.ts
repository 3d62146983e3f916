/** Line weights and letters of the plots of the loop, in terms of custom properties that page and print define. */
export const loopStyle = `
.plot { --line: var(--ink, #111); --quiet: var(--ink-soft, #555); font-family: var(--font-drawing, system-ui, sans-serif); }
.plot .grid { stroke: var(--rule, #ccc); stroke-width: 0.8; }
.plot .grid.is-fine { stroke-width: 0.4; }
.plot .frame { fill: none; stroke: var(--rule-strong, #888); stroke-width: 1; }
.plot .datum { stroke: var(--line); stroke-width: 1; stroke-dasharray: 5 4; }
.plot text { fill: var(--line); font-size: 12px; }
.plot text.tick { fill: var(--quiet); font-variant-numeric: tabular-nums; }
.plot text.plot-title, .plot text.mark { font-size: 12.5px; font-weight: 600; paint-order: stroke; stroke: var(--paper, #fff); stroke-width: 3.5px; stroke-linejoin: round; }
.plot .band { fill: var(--live, #888); fill-opacity: 0.16; stroke: none; }
.plot .line { stroke: var(--live, #111); stroke-width: 2.2; stroke-linejoin: round; }
.plot .before { stroke: var(--quiet); stroke-width: 1.3; stroke-dasharray: 3 3; }
.plot .switched { stroke: var(--line); stroke-width: 1.2; stroke-linejoin: round; }
.plot .proof circle { fill: var(--paper, #fff); stroke: var(--line); stroke-width: 1.5; }
.plot .lead { stroke: var(--quiet); stroke-width: 0.9; stroke-dasharray: 2 3; }
.plot .margin { stroke: var(--line); stroke-width: 4; }
.plot .margin.is-thin { stroke-width: 2; }
.plot .marks .spot { fill: var(--paper, #fff); stroke: var(--line); stroke-width: 2; }
.plot .marks.is-near .margin { stroke: var(--near, #111); }
.plot .marks.is-broken .margin { stroke: var(--broken, #111); stroke-dasharray: 5 2; }
.plot .bar-first { fill: var(--primary, #ddd); stroke: var(--line); stroke-width: 0.9; }
.plot .bar-load { fill: var(--live, #555); stroke: var(--line); stroke-width: 0.9; }
.plot .allowed { stroke: var(--line); stroke-width: 1.4; stroke-dasharray: 8 4; }
`
