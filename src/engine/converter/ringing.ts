/** What rings on a rectifier when it stops conducting: leakage seen at the secondary, against junction and snubber. */
export interface RingingPath {
  readonly leakage_H: number
  /** In parallel with the leakage: what skin and proximity loss take out of the ring. */
  readonly damping_ohm: number
  /** In series: windings and switch, referred to the secondary. */
  readonly series_ohm: number
  readonly junction_F: number
  readonly snubber: { readonly resistor_ohm: number; readonly capacitor_F: number } | null
}

/** Reverse voltage over the first swing, at equal steps: for a source step of 1 V, and for 1 A already in the leakage. */
export interface RingingResponse {
  /** Greatest current of the leakage for a source step of 1 V. */
  readonly current_S: number
  readonly byStep: Float64Array
  /** Greatest of `byStep`. */
  readonly highest: number
  readonly byCurrent_ohm: Float64Array
}

const stepsPerPeriod = 32
const mostSteps = 400
/**
 * Rows of current of the leakage, voltage of the junction, and voltage of the snubber's capacitor; the fourth column is
 * the source, which stays as it is.
 */
const rows = 3
const columns = 4

/** c = a b, where the fourth row of both is 0 0 0 `corner`. */
function product(a: Float64Array, b: Float64Array, corner: number, c: Float64Array): void {
  for (let i = 0; i < rows; i++) {
    const at = i * columns
    const x = a[at]!
    const y = a[at + 1]!
    const z = a[at + 2]!
    for (let j = 0; j < columns; j++) c[at + j] = x * b[j]! + y * b[columns + j]! + z * b[2 * columns + j]!
    c[at + 3]! += a[at + 3]! * corner
  }
}

const scratch = Array.from({ length: 3 }, () => new Float64Array(rows * columns))

/** e^M by its series on M/2^s, squared s times: exact to rounding however fast a snubber settles. Overwrites `m`. */
function exponential(m: Float64Array): Float64Array {
  let norm = 0
  for (let i = 0; i < m.length; i++) norm = Math.max(norm, Math.abs(m[i]!))
  const squarings = Math.max(0, Math.ceil(Math.log2(columns * norm)) + 2)
  const scale = 2 ** -squarings
  let [sum, term, next] = scratch as [Float64Array, Float64Array, Float64Array]
  for (let i = 0; i < m.length; i++) {
    m[i]! *= scale
    const one = i % (columns + 1) === 0 ? 1 : 0
    sum[i] = one + m[i]!
    term[i] = m[i]!
  }
  for (let k = 2; k <= 8; k++) {
    product(term, m, 0, next)
    for (let i = 0; i < next.length; i++) {
      next[i]! /= k
      sum[i]! += next[i]!
    }
    const spare = term
    term = next
    next = spare
  }
  for (let k = 0; k < squarings; k++) {
    product(sum, sum, 1, next)
    const spare = sum
    sum = next
    next = spare
  }
  return sum
}

const equations = new Float64Array(rows * columns)

/**
 * Response of source, leakage with its damping in parallel, series resistance, and junction with its snubber across it:
 * the linear equations carried from step to step by their own exponential, over three quarters of the slowest period,
 * in which the first peak lies. Without losses it reaches twice the step.
 */
export function ringingResponse(path: RingingPath): RingingResponse {
  const { leakage_H, damping_ohm, series_ohm, junction_F, snubber } = path
  const all_F = junction_F + (snubber?.capacitor_F ?? 0)
  const span_s = 0.75 * 2 * Math.PI * Math.sqrt(leakage_H * all_F)
  const wanted = Math.ceil(0.75 * stepsPerPeriod * Math.sqrt(all_F / junction_F))
  const count = Math.min(mostSteps, wanted)
  // units of the leakage's impedance, so that current and voltage are of one size
  const impedance_ohm = Math.sqrt(leakage_H / junction_F)
  const rate = 1 / Math.sqrt(leakage_H * junction_F)
  // voltage across the leakage: (source - v - R i)/(1 + R/Rd)
  const share = 1 / (1 + series_ohm / damping_ohm)
  const series = series_ohm / impedance_ohm
  const damping = impedance_ohm / damping_ohm
  const branch = snubber ? impedance_ohm / snubber.resistor_ohm : 0
  const ratio = snubber ? junction_F / snubber.capacitor_F : 0
  const h = (span_s / count) * rate
  const m = equations
  m[0] = -h * share * series
  m[1] = -h * share
  m[2] = 0
  m[3] = h * share
  m[4] = h * (1 - share * series * damping)
  m[5] = h * (-share * damping - branch)
  m[6] = h * branch
  m[7] = h * share * damping
  m[8] = 0
  m[9] = h * branch * ratio
  m[10] = -h * branch * ratio
  m[11] = 0
  const step = exponential(m)
  const byStep = new Float64Array(count)
  const most_A = follow(step, 1, 0, byStep)
  const byCurrent_ohm = new Float64Array(count)
  follow(step, 0, impedance_ohm, byCurrent_ohm)
  let highest = 0
  for (let k = 0; k < count; k++) if (byStep[k]! > highest) highest = byStep[k]!
  return { current_S: most_A / impedance_ohm, byStep, highest, byCurrent_ohm }
}

/** Writes the junction's voltage step by step from a source and a current; the greatest current on the way. */
function follow(step: Float64Array, source: number, from: number, junction_V: Float64Array): number {
  const s0 = step[0]!
  const s1 = step[1]!
  const s2 = step[2]!
  const s3 = step[3]! * source
  const s4 = step[4]!
  const s5 = step[5]!
  const s6 = step[6]!
  const s7 = step[7]! * source
  const s8 = step[8]!
  const s9 = step[9]!
  const s10 = step[10]!
  const s11 = step[11]! * source
  let a = from
  let v = 0
  let c = 0
  let most = 0
  for (let k = 0; k < junction_V.length; k++) {
    const nextA = s0 * a + s1 * v + s2 * c + s3
    const nextV = s4 * a + s5 * v + s6 * c + s7
    c = s8 * a + s9 * v + s10 * c + s11
    a = nextA
    v = nextV
    junction_V[k] = v
    if (a > most) most = a
  }
  return most
}

/** Highest reverse voltage: of a step to `reverse_V` with a reverse current already flowing, V. Never below the step. */
export function ringingPeak_V(response: RingingResponse, reverse_V: number, recovery_A: number): number {
  const { byStep, byCurrent_ohm, highest } = response
  let most_V = reverse_V * Math.max(1, highest)
  if (recovery_A > 0)
    for (let k = 0; k < byStep.length; k++) {
      const at_V = reverse_V * byStep[k]! + recovery_A * byCurrent_ohm[k]!
      if (at_V > most_V) most_V = at_V
    }
  return most_V
}

/**
 * Reverse current at which a p-n diode lets go, A: stored charge obeys dQ/dt = i - Q/τ while the leakage turns the
 * current round at k = V/L. From the steady charge τ If, Q = 0 where u = t/τ meets If/(kτ) + 1 - u = e^-u, and then
 * I = k τ (1 - e^-u). 0 for a Schottky or a current that has already ended. Charge control, any text on p-n diodes.
 */
export function recoveryCurrent_A(
  forward_A: number,
  lifetime_s: number,
  reverse_V: number,
  leakage_H: number,
): number {
  const full_A = (reverse_V / leakage_H) * lifetime_s
  if (!(forward_A > 0 && full_A > 0)) return 0
  const a = forward_A / full_A
  // Newton's method on a function that is convex from the right
  let u = a + 1
  for (let k = 0; k < 6; k++) u -= (a + 1 - u - Math.exp(-u)) / (Math.exp(-u) - 1)
  return full_A * (1 - Math.exp(-u))
}
