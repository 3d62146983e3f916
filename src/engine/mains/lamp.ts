import { requireBetween } from '../quantity/require.ts'

/**
 * An incandescent lamp as a resistor with temperature and heat: R = Rhot (T/Thot)^1.2 and
 * C dT/dt = i^2 R - P (T^4 - T0^4)/(Thot^4 - T0^4), temperatures in kelvin.
 */
export interface LampModel {
  readonly power_W: number
  readonly hot_ohm: number
  readonly cold_ohm: number
  readonly heatCapacity_J_per_K: number
  readonly hot_K: number
  readonly room_K: number
  readonly exponent: number
}

/**
 * Model of a lamp from its rated power and voltage.
 *
 * Rhot = V^2/P at 2800 K. The exponent 1.2 fits the resistivity of tungsten (Jones and Langmuir, General Electric Review
 * 30 (1927): 5.65 uohm cm at 300 K, 24.9 at 1000 K, 56.7 at 2000 K, 84.7 at 2800 K; from memory), a ratio of 14.6 where
 * 12 to 16 is reported for whole lamps. Heat capacity: a straight filament that radiates its power at Thot has
 * C ~ P^(5/3) V^(-2/3) (from P ~ d l and R ~ l/d^2); 1.5 mJ/K at 60 W 230 V, half more than the bare wire's 1.0 mJ/K
 * because a coil shades itself (that factor is common practice, no source; lamps differ by a third).
 */
export function lampModel(power_W: number, voltage_Vrms: number, room_C = 27): LampModel {
  requireBetween('power_W', power_W, 1, 2000, 'W')
  requireBetween('voltage_Vrms', voltage_Vrms, 5, 400, 'V')
  requireBetween('room_C', room_C, -40, 80, 'C')
  const hot_ohm = voltage_Vrms ** 2 / power_W
  const room_K = room_C + 273
  return {
    power_W,
    hot_ohm,
    cold_ohm: hot_ohm * (room_K / 2800) ** 1.2,
    heatCapacity_J_per_K: 1.5e-3 * (power_W / 60) ** (5 / 3) * (230 / voltage_Vrms) ** (2 / 3),
    hot_K: 2800,
    room_K,
    exponent: 1.2,
  }
}

/** Resistance of the filament at a temperature, ohm. */
export const lampResistance = (lamp: LampModel, temperature_K: number): number =>
  lamp.hot_ohm * (temperature_K / lamp.hot_K) ** lamp.exponent

/** Temperature at which the filament carries off a power for ever, K. */
export function lampTemperature(lamp: LampModel, power_W: number): number {
  requireBetween('power_W', power_W, 0, 100 * lamp.power_W, 'W')
  const room4 = lamp.room_K ** 4
  return (room4 + (power_W / lamp.power_W) * (lamp.hot_K ** 4 - room4)) ** 0.25
}

/** How a filament at a temperature looks. Limits: red heat is seen from about 800 K in the dark (from memory). */
export function lampGlow(temperature_K: number): 'dark' | 'dull red' | 'orange' | 'bright' | 'full' {
  if (temperature_K < 900) return 'dark'
  if (temperature_K < 1300) return 'dull red'
  if (temperature_K < 1900) return 'orange'
  return temperature_K < 2500 ? 'bright' : 'full'
}

/** Steady current of a lamp that stands alone on an rms voltage, and its power: where a hard short puts it. */
export function lampAlone(
  lamp: LampModel,
  voltage_Vrms: number,
): { readonly current_Arms: number; readonly power_W: number } {
  requireBetween('voltage_Vrms', voltage_Vrms, 0, 1000, 'V')
  let low = lamp.room_K
  let high = 4000
  for (let k = 0; k < 60; k++) {
    const t = 0.5 * (low + high)
    const radiated = (lamp.power_W * (t ** 4 - lamp.room_K ** 4)) / (lamp.hot_K ** 4 - lamp.room_K ** 4)
    if (voltage_Vrms ** 2 / lampResistance(lamp, t) > radiated) low = t
    else high = t
  }
  const current_Arms = voltage_Vrms / lampResistance(lamp, 0.5 * (low + high))
  return { current_Arms, power_W: current_Arms * voltage_Vrms }
}
