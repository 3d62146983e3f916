/** x' = A x + b u with u a trapezoid of period, edges and duty; A row-major. */
export interface System {
  readonly a: Float64Array
  readonly b: Float64Array
  readonly start: readonly number[]
  readonly low: number
  readonly high: number
  readonly duty: number
}

export interface Figures {
  readonly average: number
  readonly rms: number
  readonly maximum: number
  readonly minimum: number
  readonly end: number
}

/** Nodes and weights of Gauss and Legendre on 0..1, five points (M. Abramowitz and I. A. Stegun, table 25.4). */
const gauss = [
  [0.046910077030668, 0.1184634425280945],
  [0.2307653449471585, 0.2393143352496833],
  [0.5, 0.2844444444444444],
  [0.7692346550528415, 0.2393143352496833],
  [0.953089922969332, 0.1184634425280945],
] as const

/**
 * Follow the states by Taylor series over steps short against every rate; averages and mean squares by quadrature
 * on five points a step, extremes by the cubic through values and rates at the ends of each step.
 */
export function follow(
  { a, b, start, low, high, duty }: System,
  {
    period_s,
    edge_s,
    cycles,
  }: { readonly period_s: number; readonly edge_s: number; readonly cycles: number },
): Figures[] {
  const n = b.length
  let fastest = 0
  for (let i = 0; i < n; i++) {
    let row = 0
    for (let j = 0; j < n; j++) row += Math.abs(a[i * n + j]!)
    fastest = Math.max(fastest, row)
  }
  let x: Float64Array = Float64Array.from(start)
  const sum = new Float64Array(n)
  const square = new Float64Array(n)
  const maximum = x.slice()
  const minimum = x.slice()
  const width = duty * period_s - edge_s
  const swing = (high - low) / edge_s
  const parts = [
    { span: edge_s, from: low, slope: swing },
    { span: width, from: high, slope: 0 },
    { span: edge_s, from: high, slope: -swing },
    { span: period_s - width - 2 * edge_s, from: low, slope: 0 },
  ]
  for (let cycle = 0; cycle < cycles; cycle++)
    for (const { span, from, slope } of parts) {
      const steps = Math.max(1, Math.ceil((span * fastest) / 0.05))
      const h = span / steps
      for (let s = 0; s < steps; s++) {
        const terms = series(a, b, x, from + slope * s * h, slope)
        for (const [node, weight] of gauss) {
          const at = valueAt(terms, node * h, n)
          for (let i = 0; i < n; i++) {
            sum[i]! += weight * h * at[i]!
            square[i]! += weight * h * at[i]! ** 2
          }
        }
        const next = valueAt(terms, h, n)
        const after = series(a, b, next, from + slope * (s + 1) * h, slope)
        for (let i = 0; i < n; i++)
          for (const value of [next[i]!, ...turns(x[i]!, terms[1]![i]!, next[i]!, after[1]![i]!, h)]) {
            maximum[i] = Math.max(maximum[i]!, value)
            minimum[i] = Math.min(minimum[i]!, value)
          }
        x = next
      }
    }
  const time = cycles * period_s
  return Array.from(x, (end, i) => ({
    average: sum[i]! / time,
    rms: Math.sqrt(square[i]! / time),
    maximum: maximum[i]!,
    minimum: minimum[i]!,
    end,
  }))
}

/** Taylor coefficients of x. */
function series(a: Float64Array, b: Float64Array, x: Float64Array, u: number, slope: number): Float64Array[] {
  const n = b.length
  const terms = [x]
  for (let k = 0; k < 12; k++) {
    const last = terms[k]!
    const force = k === 0 ? u : k === 1 ? slope : 0
    terms.push(
      Float64Array.from({ length: n }, (_, i) => {
        let value = b[i]! * force
        for (let j = 0; j < n; j++) value += a[i * n + j]! * last[j]!
        return value / (k + 1)
      }),
    )
  }
  return terms
}

function valueAt(terms: readonly Float64Array[], t: number, n: number): Float64Array {
  const out = new Float64Array(n)
  for (let k = terms.length - 1; k >= 0; k--) for (let i = 0; i < n; i++) out[i] = out[i]! * t + terms[k]![i]!
  return out
}

/** Values at the turning points of the cubic through values and rates at both ends of 0..h. */
function turns(v0: number, r0: number, v1: number, r1: number, h: number): number[] {
  const c2 = 3 * (v1 - v0) - (2 * r0 + r1) * h
  const c3 = 2 * (v0 - v1) + (r0 + r1) * h
  const root = Math.sqrt(c2 * c2 - 3 * c3 * r0 * h)
  if (!Number.isFinite(root)) return []
  return [root, -root]
    .map((side) => (-r0 * h) / (c2 + side))
    .filter((t) => t > 0 && t < 1)
    .map((t) => v0 + t * (r0 * h + t * (c2 + t * c3)))
}
