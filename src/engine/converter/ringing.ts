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

const product = (a: Float64Array, b: Float64Array): Float64Array => {
  const c = new Float64Array(size * size)
  for (let i = 0; i < size; i++)
    for (let k = 0; k < size; k++) {
      const factor = a[i * size + k]!
      if (factor !== 0) for (let j = 0; j < size; j++) c[i * size + j]! += factor * b[k * size + j]!
    }
  return c
}

/** e^M by its series on M/2^s, squared s times: exact to rounding however fast a snubber settles. */
function exponential(m: Float64Array): Float64Array {
  let norm = 0
  for (let i = 0; i < m.length; i++) norm = Math.max(norm, Math.abs(m[i]!))
  const squarings = Math.max(0, Math.ceil(Math.log2(size * norm)) + 2)
  const small = m.map((value) => value / 2 ** squarings)
  let sum = new Float64Array(size * size)
  for (let i = 0; i < size; i++) sum[i * (size + 1)] = 1
  let term = sum.slice()
  for (let k = 1; k <= 8; k++) {
    term = product(term, small).map((value) => value / k)
    sum = sum.map((value, i) => value + term[i]!)
  }
  for (let k = 0; k < squarings; k++) sum = product(sum, sum) as typeof sum
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
  const step = exponential(
    Float64Array.of(
      ...[-share * series, -share, 0, share],
      ...[1 - share * series * damping, -share * damping - branch, branch, share * damping],
      ...[0, branch * ratio, -branch * ratio, 0],
      ...[0, 0, 0, 0],
    ).map((value) => value * h),
  )
  let most = 0
  const follow = (source: number, from: number): Float64Array => {
    let x = Float64Array.of(from, 0, 0, source)
    return Float64Array.from({ length: count }, () => {
      const next = new Float64Array(size)
      for (let i = 0; i < size; i++) for (let j = 0; j < size; j++) next[i]! += step[i * size + j]! * x[j]!
      x = next
      if (source > 0) most = Math.max(most, x[0]!)
      return x[1]!
    })
  }
  const byStep = follow(1, 0)
  return { current_S: most / impedance_ohm, byStep, byCurrent_ohm: follow(0, impedance_ohm) }
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
