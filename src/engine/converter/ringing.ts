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
  readonly byCurrent_ohm: Float64Array
}

const stepsPerPeriod = 32
const mostSteps = 400
/** State: current of the leakage, voltage of the junction, voltage of the snubber's capacitor; and the source. */
const size = 4

/** c = a b. */
function product(a: Float64Array, b: Float64Array, c: Float64Array): void {
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++) {
      let sum = 0
      for (let k = 0; k < size; k++) sum += a[i * size + k]! * b[k * size + j]!
      c[i * size + j] = sum
    }
}

/** e^M by its series on M/2^s, squared s times: exact to rounding however fast a snubber settles. Overwrites `m`. */
function exponential(m: Float64Array): Float64Array {
  let norm = 0
  for (let i = 0; i < m.length; i++) norm = Math.max(norm, Math.abs(m[i]!))
  const squarings = Math.max(0, Math.ceil(Math.log2(size * norm)) + 2)
  const scale = 2 ** -squarings
  for (let i = 0; i < m.length; i++) m[i]! *= scale
  let sum = new Float64Array(size * size)
  let term = new Float64Array(size * size)
  let next = new Float64Array(size * size)
  for (let i = 0; i < size; i++) {
    sum[i * (size + 1)] = 1
    term[i * (size + 1)] = 1
  }
  for (let k = 1; k <= 8; k++) {
    product(term, m, next)
    for (let i = 0; i < next.length; i++) {
      next[i]! /= k
      sum[i]! += next[i]!
    }
    const spare = term
    term = next
    next = spare
  }
  for (let k = 0; k < squarings; k++) {
    product(sum, sum, next)
    const spare = sum
    sum = next
    next = spare
  }
  return sum
}

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
  const matrix = Float64Array.of(
    ...[-share * series, -share, 0, share],
    ...[1 - share * series * damping, -share * damping - branch, branch, share * damping],
    ...[0, branch * ratio, -branch * ratio, 0],
    ...[0, 0, 0, 0],
  )
  for (let i = 0; i < matrix.length; i++) matrix[i]! *= h
  const step = exponential(matrix)
  const byStep = new Float64Array(count)
  const most_A = follow(step, 1, 0, byStep)
  const byCurrent_ohm = new Float64Array(count)
  follow(step, 0, impedance_ohm, byCurrent_ohm)
  return { current_S: most_A / impedance_ohm, byStep, byCurrent_ohm }
}

/** Writes the junction's voltage step by step from a source and a current; the greatest current on the way. */
function follow(step: Float64Array, source: number, from: number, junction_V: Float64Array): number {
  let a = from
  let v = 0
  let c = 0
  let most = 0
  for (let k = 0; k < junction_V.length; k++) {
    const nextA = step[0]! * a + step[1]! * v + step[2]! * c + step[3]! * source
    const nextV = step[4]! * a + step[5]! * v + step[6]! * c + step[7]! * source
    c = step[8]! * a + step[9]! * v + step[10]! * c + step[11]! * source
    a = nextA
    v = nextV
    junction_V[k] = v
    if (a > most) most = a
  }
  return most
}

/** Highest reverse voltage: of a step to `reverse_V` with a reverse current already flowing, V. Never below the step. */
export function ringingPeak_V(response: RingingResponse, reverse_V: number, recovery_A: number): number {
  let most_V = reverse_V
  for (let k = 0; k < response.byStep.length; k++)
    most_V = Math.max(most_V, reverse_V * response.byStep[k]! + recovery_A * response.byCurrent_ohm[k]!)
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
