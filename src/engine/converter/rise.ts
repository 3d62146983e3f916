/** What moves while the drain rises after turn-off, all seen at the primary. */
export interface RisePath {
  /** Between the capacitance at the drain and that of the rectifier. */
  readonly leakage_H: number
  readonly drain_F: number
  readonly junction_F: number
  /** Across the rectifier. */
  readonly snubber: { readonly resistor_ohm: number; readonly capacitor_F: number } | null
}

/** The rise for a winding current of 1 A, at equal steps of time. */
export interface RiseResponse {
  /** By how much the rectifier's side has risen; never falls. */
  readonly swing_ohm: Float64Array
  /** Energy then on its way to the clamp over that of the whole current in the leakage. */
  readonly energy: Float64Array
  /** The same once the ring between the two sides has died. */
  readonly settled: number
}

/** A response that is written over from call to call. */
export type RiseRecord = { -readonly [K in keyof RiseResponse]: RiseResponse[K] }

export const newRise = (): RiseRecord => ({
  swing_ohm: new Float64Array(steps + 1),
  energy: new Float64Array(steps + 1),
  settled: 0,
})

const steps = 32
/** Part of the fastest ring that a step takes, rad. */
const stride = 0.5

/**
 * How drain and rectifier rise after turn-off while the winding current stays what it is: it reaches the capacitance at
 * the drain through the leakage, that of rectifier and snubber through the windings. With v the drain above the
 * rectifier's side y, both from where they stood, and q the voltage of the snubber's resistor R:
 *   L di/dt = -v, Cd d(v + y)/dt = i, Cj dy/dt = I - i - q/R, dq/dt = dy/dt - q/(R Cs).
 * All of it runs to the drain at first, i = I; then the two ring about the share that their capacitances ask for,
 * i = I Cd/(Cd + Cj + Cs), the sooner the more the resistor takes out of it. What goes on to the clamp when the
 * rectifier takes over is L i²/2 + Cd v²/2. Leapfrog with the snubber by the trapezoidal rule: 1 % in the phase of the
 * ring. Circuit laws; coil losses, which take a few per cent of the ring, are left out. Written into a record of the
 * caller's where one is given.
 */
export function riseResponse(
  { leakage_H, drain_F, junction_F, snubber }: RisePath,
  into: RiseRecord = newRise(),
): RiseResponse {
  const step_s = stride * Math.sqrt(leakage_H / (1 / drain_F + 1 / junction_F))
  const byDrain_ohm = step_s / drain_F
  const byJunction_ohm = step_s / junction_F
  const byLeakage_S = step_s / leakage_H
  const snubber_S = snubber ? 1 / snubber.resistor_ohm : 0
  const fade = snubber ? 0.5 * snubber_S * (byJunction_ohm + step_s / snubber.capacitor_F) : 0
  const kept = (1 - fade) / (1 + fade)
  const fed_ohm = byJunction_ohm / (1 + fade)
  const { swing_ohm, energy } = into
  energy[0] = 1
  const perOhm2 = drain_F / leakage_H
  let current = 1
  let drain_ohm = 0
  let apart_ohm = 0
  let drop_ohm = 0
  for (let k = 1; k <= steps; k++) {
    const before_ohm = drop_ohm
    drop_ohm = kept * before_ohm + fed_ohm * (1 - current)
    const snubbed = 0.5 * snubber_S * (before_ohm + drop_ohm)
    drain_ohm += byDrain_ohm * current
    apart_ohm += byDrain_ohm * current - byJunction_ohm * (1 - current - snubbed)
    const next = current - byLeakage_S * apart_ohm
    const middle = 0.5 * (current + next)
    swing_ohm[k] = Math.max(swing_ohm[k - 1]!, drain_ohm - apart_ohm)
    energy[k] = middle * middle + perOhm2 * apart_ohm * apart_ohm
    current = next
  }
  const share = drain_F / (drain_F + junction_F + (snubber?.capacitor_F ?? 0))
  into.settled = share * share
  return into
}

/**
 * Part of the peak current that the leakage brings to the clamp, as the rectifier's side rises by `swing_V` until it
 * takes over: the root of the energy then on its way. Near 1 for a great current, whose rise is over before the
 * two sides have rung; the share of the capacitances for a small one.
 */
export function handedShare(
  { swing_ohm, energy, settled }: RiseResponse,
  swing_V: number,
  peak_A: number,
): number {
  const wanted_ohm = swing_V / peak_A
  const last_ohm = swing_ohm[steps]!
  if (!(wanted_ohm < last_ohm)) {
    const far = last_ohm / wanted_ohm
    return Math.sqrt(settled + (energy[steps]! - settled) * far * far)
  }
  let low = 0
  let high = steps
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (swing_ohm[middle]! <= wanted_ohm) low = middle
    else high = middle
  }
  const from_ohm = swing_ohm[low]!
  const part = (wanted_ohm - from_ohm) / (swing_ohm[high]! - from_ohm)
  return Math.sqrt(energy[low]! + part * (energy[high]! - energy[low]!))
}
