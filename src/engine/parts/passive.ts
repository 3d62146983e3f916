import { z } from 'zod'
import { fraction, identity, nonNegative, positive, temperature_C } from './fields.ts'

export const capacitor = z.strictObject({
  ...identity,
  kind: z.literal('capacitor'),
  technology: z.enum(['electrolytic', 'polymer', 'ceramic', 'film']),
  capacitance_F: positive(1),
  /** Relative tolerance downwards and upwards, 0.2 for 20 %. */
  toleranceDown: fraction,
  toleranceUp: fraction,
  voltage_V: positive(10000),
  /** Greatest equivalent series resistance at 100 kHz and 20 °C. */
  resistance_ohm: nonNegative(1000),
  /** Ripple rating (rms) at 100 kHz and at twice the mains frequency, at `temperature_C`. */
  ripple100kHz_A: positive(100),
  ripple100Hz_A: positive(100),
  life_h: positive(1e6),
  temperature_C,
  safetyClass: z.enum(['X1', 'X2', 'Y1', 'Y2']).optional(),
})

export const resistor = z.strictObject({
  ...identity,
  kind: z.literal('resistor'),
  resistance_ohm: positive(1e9),
  tolerance: fraction,
  power_W: positive(1000),
  voltage_V: positive(20000),
  fusible: z.boolean(),
})

export const trimmer = z.strictObject({
  ...identity,
  kind: z.literal('trimmer'),
  resistance_ohm: positive(1e7),
  tolerance: fraction,
  power_W: positive(10),
})

export const ntc = z.strictObject({
  ...identity,
  kind: z.literal('ntc'),
  cold_ohm: positive(1000),
  /** Resistance at `current_A` steady. */
  hot_ohm: positive(100),
  current_A: positive(100),
  beta_K: positive(10000),
  heatCapacity_J_per_K: positive(100),
  dissipation_W_per_K: positive(1),
  /** Greatest capacitor that may be charged from the peak of 230 V mains. */
  maximumCapacitance_F: positive(0.1),
})

export const fuse = z.strictObject({
  ...identity,
  kind: z.literal('fuse'),
  rated_A: positive(100),
  voltage_V: positive(2000),
  speed: z.enum(['slow', 'fast']),
  meltingIntegral_A2s: positive(1e6),
  breaking_A: positive(1e6),
  resistance_ohm: positive(100),
})

/** Voltage-dependent resistor across the mains. */
export const varistor = z.strictObject({
  ...identity,
  kind: z.literal('varistor'),
  continuous_Vrms: positive(2000),
  clampVoltage_V: positive(5000),
  clampCurrent_A: positive(10000),
  energy_J: positive(10000),
})

export const heatsink = z.strictObject({
  ...identity,
  kind: z.literal('heatsink'),
  toAmbient_K_per_W: positive(200),
  heatCapacity_J_per_K: positive(10000),
})

/** Insulating pad or mica washer between a package and a heatsink. */
export const pad = z.strictObject({
  ...identity,
  kind: z.literal('pad'),
  resistance_K_per_W: positive(20),
  strength_V: positive(20000),
  thickness_m: positive(0.01),
})

/** Incandescent lamp used as a series limiter at first power-up. */
export const lamp = z.strictObject({
  ...identity,
  kind: z.literal('lamp'),
  power_W: positive(1000),
  voltage_V: positive(300),
})
