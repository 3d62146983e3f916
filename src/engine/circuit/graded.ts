/**
 * A basis x = S y in which very fast motions are states of their own.
 *
 * Inductors in series with an open diode share one very fast motion, the current of their cutset through gigaohms,
 * and nearly every state then seems fast: slow rates would be small differences of very large entries. Elimination
 * of the fast states, largest first, shows the combinations which are slow.
 */
export interface GradedBasis {
  /** S and its inverse, n x n. */
  readonly down: Float64Array
  readonly up: Float64Array
}

/** How much slower the rest must be than what is eliminated, and than the terms it is the difference of, to be worth a basis of its own. */
const apart = 1e5
const seeming = 1e4

/** The basis for a matrix in coordinates of comparable size, or undefined when the states are graded as they are. */
export function gradedBasis(a: Float64Array, n: number): GradedBasis | undefined {
  const m = a.slice()
  // sums of the sizes of all terms, which rounding works on
  const gross = a.map(Math.abs)
  const left = Array.from({ length: n }, (_, i) => i)
  const up = identity(n)
  let taken: number[] = []
  let kept: { count: number; rest: number; states: number[] } | undefined
  while (left.length > 1) {
    const p = left.reduce((best, j) => (Math.abs(m[j * n + j]!) > Math.abs(m[best * n + best]!) ? j : best))
    const pivot = m[p * n + p]!
    if (!(Math.abs(pivot) > 0.3 * largest(m, n, left))) break
    left.splice(left.indexOf(p), 1)
    taken = [...taken, p]
    for (const j of left) {
      const share = m[p * n + j]! / pivot
      up[p * n + j] = share
      if (share !== 0)
        for (const i of left) {
          m[i * n + j]! -= m[i * n + p]! * share
          gross[i * n + j]! += gross[i * n + p]! * Math.abs(share)
        }
    }
    const rest = largest(m, n, left)
    if (rest * apart < Math.abs(pivot)) kept = { count: taken.length, rest, states: [...left] }
  }
  if (kept === undefined || largest(gross, n, kept.states) < seeming * kept.rest) return undefined
  for (const p of taken.slice(kept.count)) for (let j = 0; j < n; j++) up[p * n + j] = p === j ? 1 : 0
  return { up, down: inverseUnit(up, n, taken.slice(0, kept.count)) }
}

function largest(m: Float64Array, n: number, states: readonly number[]): number {
  let most = 0
  for (const i of states) for (const j of states) most = Math.max(most, Math.abs(m[i * n + j]!))
  return most
}

function identity(n: number): Float64Array {
  return Float64Array.from({ length: n * n }, (_, at) => (at % (n + 1) === 0 ? 1 : 0))
}

/** Inverse of a matrix whose row p has entries only for states not taken before p. */
function inverseUnit(up: Float64Array, n: number, taken: readonly number[]): Float64Array {
  const out = identity(n)
  for (const p of [...taken].reverse())
    for (let j = 0; j < n; j++) {
      let value = p === j ? 1 : 0
      for (let k = 0; k < n; k++) if (k !== p) value -= up[p * n + k]! * out[k * n + j]!
      out[p * n + j] = value
    }
  return out
}

/** A basis found in sorted energy coordinates as one of the states themselves. */
export function inStates(
  { up, down }: GradedBasis,
  sorted: readonly number[],
  weight: readonly number[],
): GradedBasis {
  const n = sorted.length
  const turn = (m: Float64Array) => {
    const out = new Float64Array(n * n)
    sorted.forEach((s, i) => {
      sorted.forEach((r, j) => {
        out[s * n + r] = (m[i * n + j]! * weight[r]!) / weight[s]!
      })
    })
    return out
  }
  return { up: turn(up), down: turn(down) }
}

/**
 * Right-hand sides over the new coordinates: the first n columns times `down`, rounded once, so that what cancels in
 * a slow combination cancels fully.
 */
export function combineColumns(
  sides: Float64Array,
  rows: number,
  width: number,
  down: Float64Array,
  n: number,
): Float64Array {
  const out = sides.slice()
  for (let r = 0; r < rows; r++)
    for (let j = 0; j < n; j++) out[r * width + j] = exactDot(sides, r * width, down, j, n, n)
  return out
}

/**
 * Sum of products to nearly twice the working precision (T. Ogita, S. M. Rump and S. Oishi, Accurate sum and dot
 * product, SIAM J. Sci. Comput. 26, 2005): `a` from `aAt` in steps of one, `b` from `bAt` in steps of `bStep`.
 */
function exactDot(
  a: Float64Array,
  aAt: number,
  b: Float64Array,
  bAt: number,
  bStep: number,
  count: number,
): number {
  let sum = 0
  let rest = 0
  for (let i = 0; i < count; i++) {
    const x = a[aAt + i]!
    const y = b[bAt + i * bStep]!
    const term = x * y
    if (term === 0) continue
    const [xHigh, xLow] = halves(x)
    const [yHigh, yLow] = halves(y)
    const termRest = xLow * yLow - (term - xHigh * yHigh - xLow * yHigh - xHigh * yLow)
    const next = sum + term
    const back = next - sum
    rest += sum - (next - back) + (term - back) + termRest
    sum = next
  }
  return sum + rest
}

/** A number as the sum of two of half its digits (Dekker 1971). */
function halves(x: number): [number, number] {
  const scaled = 134217729 * x
  const high = scaled - (scaled - x)
  return [high, x - high]
}
