/** Lines and letters of the plots of first light and of the mains side, beside those of the loop's plots. */
export const firstLightStyle = `
.plot .second, .plot .third, .plot .fourth { stroke-width: 1.9; stroke-linejoin: round; }
.plot .second { stroke: var(--barrier, #444); stroke-dasharray: 8 3; }
.plot .third { stroke: var(--line); stroke-dasharray: 2 3; }
.plot .fourth { stroke: var(--quiet); stroke-dasharray: 10 3 2 3; }
.plot .filament { stroke: var(--line); stroke-width: 2.2; stroke-linejoin: round; }
.plot .glow { fill: var(--near, #999); stroke: none; }
.plot .glow.is-step-1 { fill-opacity: 0; }
.plot .glow.is-step-2 { fill: var(--broken, #777); fill-opacity: 0.14; }
.plot .glow.is-step-3 { fill-opacity: 0.2; }
.plot .glow.is-step-4 { fill-opacity: 0.34; }
.plot .glow.is-step-5 { fill-opacity: 0.5; }
.plot .limit-a, .plot .limit-d { stroke: var(--line); stroke-width: 1.8; }
.plot .limit-d { stroke: var(--broken, #111); stroke-dasharray: 3 2; }
.barrier-picture { --line: var(--ink, #111); --quiet: var(--ink-soft, #555); font-family: var(--font-drawing, system-ui, sans-serif); }
.barrier-picture text { fill: var(--line); font-size: 13px; font-variant-numeric: tabular-nums; }
.barrier-picture text.barrier-side { font-size: 15px; font-weight: 650; }
.barrier-picture text.barrier-says, .barrier-picture text.crossing-says { fill: var(--quiet); }
.barrier-picture text.barrier-required { font-weight: 600; }
.barrier-picture .shore { stroke: var(--line); stroke-width: 1.2; }
.barrier-picture .shore.of-primary { fill: var(--primary, #eee); }
.barrier-picture .shore.of-secondary { fill: var(--secondary, #eee); }
.barrier-picture .barrier-line { stroke: var(--barrier, #111); stroke-width: 2; stroke-dasharray: 9 6; }
.barrier-picture .lead { stroke: var(--line); stroke-width: 1.4; }
.barrier-picture .crossing-body { fill: var(--paper, #fff); stroke: var(--line); stroke-width: 1.4; }
.barrier-picture .crossing-name { font-weight: 600; }
.barrier-picture .is-short .crossing-body { stroke: var(--broken, #111); stroke-width: 3; }
.barrier-picture .is-short text.crossing-says { fill: var(--broken, #111); font-weight: 650; }
.barrier-picture .is-to-measure .crossing-body { stroke-dasharray: 5 4; }
`
