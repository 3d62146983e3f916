/** Letters, lines and steps of colour of maps, charts and the calliper drawing; custom properties as in other drawings. */
export const fieldStyle = `
.window-map, .chart, .calliper { --line: var(--ink, #111); --quiet: var(--ink-soft, #555); --hot: var(--broken, #a8240f); --ground: var(--paper, #fff); font-family: var(--font-drawing, system-ui, sans-serif); }
.window-map text, .chart text, .calliper text { fill: var(--line); font-size: 13px; font-variant-numeric: tabular-nums; }
.window-map text.quiet, .calliper text.quiet { fill: var(--quiet); font-size: 12.5px; }
.window-map.is-compact text, .window-map.is-compact text.quiet { font-size: 18px; }
.window-map .map-room { fill: var(--ground); }
.window-map .map-field path { stroke: none; }
${[1, 2, 3, 4, 5, 6, 7, 8].map((step) => `.window-map .map-step-${step} { fill: color-mix(in oklab, var(--hot) ${Math.round(4 + step * step * 1.15)}%, var(--ground)); }`).join('\n')}
.window-map .map-core { fill: var(--core, #ddd); stroke: var(--line); stroke-width: 0.8; }
.window-map .map-former { fill: none; stroke: var(--quiet); stroke-width: 0.9; }
.window-map .map-gap { fill: var(--ground); stroke: var(--line); stroke-width: 0.7; }
.window-map .map-band circle { fill: none; stroke: var(--line); stroke-width: 1.1; }
.window-map .of-primary circle { stroke: var(--copper, #8f4318); }
.window-map .of-secondary circle { stroke: var(--enamel, #0a5560); }
.window-map .map-band.is-tape { fill: none; stroke: var(--quiet); stroke-width: 0.6; stroke-dasharray: 2 2; }
.window-map .map-band.is-foil, .window-map .map-band.is-shield { fill: color-mix(in oklab, var(--enamel, #0a5560) 40%, transparent); stroke: var(--enamel, #0a5560); stroke-width: 1; }
.window-map .map-hit { fill: transparent; }
.window-map .map-band.is-marked .map-hit { fill: color-mix(in oklab, var(--enamel, #0a5560) 22%, transparent); stroke: var(--enamel, #0a5560); stroke-width: 1.5; }
.window-map .map-band.is-marked circle { stroke-width: 1.9; }
.window-map [data-layer] { cursor: pointer; }
.window-map .map-callout polyline { fill: none; stroke: var(--quiet); stroke-width: 0.8; }
.window-map .map-bar { fill: var(--hot); }
.window-map .map-callout.is-marked text { font-weight: 700; }
.window-map .map-callout .layer-number { font-weight: 650; }
.window-map .map-legend rect { stroke: var(--quiet); stroke-width: 0.6; }
.chart .chart-grid { stroke: var(--rule, #ccc); stroke-width: 0.8; }
.chart .chart-axis { stroke: var(--line); stroke-width: 1.2; }
.chart text.chart-tick { fill: var(--quiet); font-size: 12px; }
.chart text.chart-name { fill: var(--quiet); font-size: 12.5px; }
.chart .chart-band { fill: color-mix(in oklab, var(--enamel, #0a5560) 15%, transparent); }
.chart .chart-curve { fill: none; stroke: var(--enamel, #0a5560); stroke-width: 2.2; stroke-linejoin: round; }
.chart .chart-curve.is-second { stroke: var(--hot); stroke-dasharray: 7 3; }
.chart .chart-curve.is-faint { stroke: var(--quiet); stroke-width: 1.4; stroke-dasharray: 3 3; }
.chart text.chart-curve-name { font-size: 12.5px; fill: var(--line); paint-order: stroke; stroke: var(--ground); stroke-width: 3px; }
.chart .chart-mark line { stroke: var(--line); stroke-width: 1; }
.chart .chart-mark circle { fill: var(--ground); stroke: var(--line); stroke-width: 2; }
.chart .chart-mark.is-measured line, .chart .chart-mark.is-measured circle { stroke: var(--copper, #8f4318); }
.chart .chart-mark.is-measured circle { fill: var(--copper, #8f4318); }
.chart .chart-mark.is-best line { stroke-dasharray: 2 2; }
.chart .chart-mark.is-best circle { fill: var(--enamel, #0a5560); stroke: var(--enamel, #0a5560); }
.chart .chart-mark.is-limit line { stroke: var(--hot); stroke-width: 1.6; }
.chart text.chart-words { font-size: 12.5px; font-weight: 600; paint-order: stroke; stroke: var(--ground); stroke-width: 4px; stroke-linejoin: round; }
.calliper .calliper-body { fill: var(--core, #ddd); stroke: var(--line); stroke-width: 1.3; }
.calliper .calliper-window { fill: var(--ground); stroke: var(--quiet); stroke-width: 0.8; }
.calliper .calliper-dimension line, .calliper .calliper-dimension path { fill: none; stroke: var(--line); stroke-width: 1.1; }
.calliper text.calliper-letter { font-weight: 650; font-size: 15px; paint-order: stroke; stroke: var(--ground); stroke-width: 3px; }
.calliper .calliper-dimension.is-marked :is(line, path) { stroke: var(--hot); stroke-width: 2.4; }
.calliper .calliper-dimension.is-marked text { fill: var(--hot); }
`
