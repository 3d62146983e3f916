/** Line weights of the scope, beside those of all plots. */
export const scopeStyle = `
.scope .line { stroke-width: 1.5; }
.scope .before { stroke-width: 1.2; }
.scope .band { fill: var(--live, #444); fill-opacity: 0.55; stroke: var(--live, #444); stroke-width: 1; }
.scope .datum { stroke: var(--broken, #111); stroke-width: 1; }
.scope text.tick { font-size: 11.5px; }
`
