import { requireBetween } from '../quantity/require.ts'

const kelvin = 273.15

/** What is asked of an inrush thermistor; the fields of the part of the same name. */
export interface Thermistor {
  readonly cold_ohm: number
  readonly hot_ohm: number
  readonly current_A: number
  readonly beta_K: number
  readonly heatCapacity_J_per_K: number
  readonly dissipation_W_per_K: number
}

/**
 * Resistance of a thermistor by the B relation, R = R25 exp(B (1/T - 1/298.15 K)), never below a tenth of the rated
 * hot resistance (the relation runs away beyond its range). Source: IEC 60539-1 definition of the B value (from
 * memory).
 */
export function thermistorResistance(part: Thermistor, temperature_C: number): number {
  requireBetween('temperature_C', temperature_C, -60, 1000, 'C')
  const r = part.cold_ohm * Math.exp(part.beta_K * (1 / (temperature_C + kelvin) - 1 / 298.15))
  return Math.max(r, 0.1 * part.hot_ohm)
}

export interface HotThermistor {
  readonly resistance_ohm: number
  readonly temperature_C: number
  readonly power_W: number
}

/**
 * Steady state of a thermistor that carries an rms current: I^2 R(T) = d (T - Tambient), found by bisection (the left
 * side falls, the right side rises with temperature, so there is exactly one).
 */
export function hotThermistor(part: Thermistor, current_Arms: number, ambient_C: number): HotThermistor {
  requireBetween('current_Arms', current_Arms, 0, 1e3, 'A')
  requireBetween('ambient_C', ambient_C, -60, 150, 'C')
  const square = current_Arms * current_Arms
  let low = ambient_C
  let high = Math.min(
    1000,
    ambient_C + (square * thermistorResistance(part, ambient_C)) / part.dissipation_W_per_K,
  )
  for (let k = 0; k < 50; k++) {
    const t = 0.5 * (low + high)
    if (square * thermistorResistance(part, t) > part.dissipation_W_per_K * (t - ambient_C)) low = t
    else high = t
  }
  const temperature_C = 0.5 * (low + high)
  const resistance_ohm = thermistorResistance(part, temperature_C)
  return { resistance_ohm, temperature_C, power_W: square * resistance_ohm }
}

/**
 * Resistance left of a hot thermistor after a pause: its temperature falls towards ambient with the time constant
 * heat capacity over dissipation. What a restart after that pause meets.
 */
export function warmRestartResistance(
  part: Thermistor,
  hot_C: number,
  ambient_C: number,
  pause_s: number,
): number {
  requireBetween('pause_s', pause_s, 0, 1e6, 's')
  const tau_s = part.heatCapacity_J_per_K / part.dissipation_W_per_K
  return thermistorResistance(part, ambient_C + (hot_C - ambient_C) * Math.exp(-pause_s / tau_s))
}
