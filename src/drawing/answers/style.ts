/** Colour and letters of the maps of answers and of the range; custom properties as in other drawings. */
export const answersStyle = `
.front-map, .range-map { --line: var(--ink, #111); --quiet: var(--ink-soft, #555); --ground: var(--paper, #fff); font-family: var(--font-drawing, system-ui, sans-serif); }
.front-map text, .range-map text { fill: var(--line); font-size: 13px; font-variant-numeric: tabular-nums; }
.front-map .map-grid, .range-map .map-grid { stroke: var(--rule, #ccc); stroke-width: 0.8; }
.front-map .map-axis, .range-map .map-axis { stroke: var(--line); stroke-width: 1.2; }
.front-map text.map-tick, .range-map text.map-tick { fill: var(--quiet); font-size: 12px; }
.front-map text.map-name, .range-map text.map-name { fill: var(--quiet); font-size: 12.5px; }
.front-map .map-other { fill: none; stroke: var(--quiet); stroke-width: 1; }
.front-map .map-answer { cursor: pointer; }
.front-map .map-answer circle { fill: var(--ground); stroke: var(--rule-strong, #999); stroke-width: 3; }
.front-map .map-answer .map-ring { fill: none; stroke: var(--enamel, #0a5560); stroke-width: 4.5; stroke-linecap: butt; }
.front-map .map-answer text { font-weight: 650; text-anchor: middle; fill: var(--line); }
.front-map .map-answer:hover circle, .front-map .map-answer:focus-visible circle, .front-map .map-answer.is-marked circle { fill: var(--enamel-wash, #d9e8e8); }
.front-map .map-answer:focus-visible { outline: none; }
.front-map .map-answer .map-focus { fill: none; stroke: none; }
.front-map .map-answer:focus-visible .map-focus { fill: none; stroke: var(--line); stroke-width: 2; }
.front-map .map-lead { stroke: var(--quiet); stroke-width: 0.8; }
.range-map .is-divider { fill: color-mix(in oklab, var(--enamel, #0a5560) 42%, var(--ground)); }
.range-map .is-parts { fill: color-mix(in oklab, var(--enamel, #0a5560) 16%, var(--ground)); }
.range-map .is-none { fill: var(--sunk, #eee); }
.range-map .map-hatch { stroke: var(--enamel, #0a5560); stroke-width: 1.1; }
.range-map rect[data-spot] { cursor: crosshair; }
.range-map .map-hatch, .range-map .map-region, .range-map .map-between { pointer-events: none; }
.range-map .map-between { fill: none; stroke: var(--quiet); stroke-width: 0.8; stroke-dasharray: 3 2; }
.range-map text.map-limit { font-size: 12.5px; font-weight: 450; paint-order: stroke; stroke: var(--sunk, #eee); stroke-width: 3px; }
.range-map .map-border { fill: none; stroke: var(--quiet); stroke-width: 1; pointer-events: none; }
.range-map .map-region circle { fill: var(--ground); stroke: var(--line); stroke-width: 1; }
.range-map .map-region text { font-size: 12px; font-weight: 650; text-anchor: middle; }
.range-map .map-here { fill: none; stroke: var(--copper, #8f4318); stroke-width: 2.4; }
.range-map .map-mark { fill: none; stroke: var(--line); stroke-width: 1.8; }
`
