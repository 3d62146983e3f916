import { z } from 'zod'
import { fraction, identity, nonNegative, positive, spread, temperature_C, text } from './fields.ts'

const heatPath = {
  package: text(60),
  junctionToCase_K_per_W: positive(200),
  junctionToAmbient_K_per_W: positive(500),
  maximumJunction_C: temperature_C,
}

/**
 * Control by a current into one pin: duty falls linearly from `maximumDuty` at `fullDutyCurrent_A` to zero at
 * `zeroDutyCurrent_A`; the pin holds about `pinVoltage_V` and also feeds the chip.
 */
const voltageModeControl = z.strictObject({
  style: z.literal('voltage-mode'),
  fullDutyCurrent_A: positive(0.1),
  zeroDutyCurrent_A: positive(0.1),
  pinVoltage_V: positive(50),
  poleFrequency_Hz: positive(1e6),
})

/** Peak-current control: current drawn out of the feedback pin lowers the peak from the limit to zero. */
const peakCurrentControl = z.strictObject({
  style: z.literal('peak-current'),
  fullPowerCurrent_A: nonNegative(0.1),
  zeroPowerCurrent_A: positive(0.1),
  pinVoltage_V: positive(50),
  poleFrequency_Hz: positive(1e6),
  /** Slope compensation referred to drain current. */
  slope_A_per_s: nonNegative(1e8),
})

/** One chip that holds the power switch and its control. */
export const switcher = z.strictObject({
  ...identity,
  kind: z.literal('switcher'),
  family: text(60),
  drainVoltage_V: positive(2000),
  onResistance25_ohm: positive(200),
  onResistance100_ohm: positive(400),
  outputCapacitance_F: positive(1e-8),
  currentLimit_A: spread(50),
  currentLimitDelay_s: nonNegative(5e-6),
  blanking_s: nonNegative(5e-6),
  frequency_Hz: spread(1e6),
  maximumDuty: spread(1),
  minimumOnTime_s: nonNegative(5e-6),
  control: z.discriminatedUnion('style', [voltageModeControl, peakCurrentControl]),
  softStart_s: nonNegative(1),
  /** True where it skips pulses while the current is above its limit already at the end of blanking. */
  skipsPulsesWhenShorted: z.boolean().optional(),
  restartTry_s: positive(10),
  restartPause_s: positive(20),
  supplyCurrent_A: positive(0.1),
  biasVoltage_V: spread(100),
  minimumStartVoltage_V: positive(400),
  thermalShutdown_C: spread(300),
  thermalHysteresis_K: nonNegative(150),
  ratedPowerWide_W: positive(1000),
  ratedPower230_W: positive(1000),
  pins: z.int().min(3).max(40),
  tabIsDrain: z.boolean(),
  ...heatPath,
})

/** A rectifier or blocking diode: forward drop is `drop_V + slope_ohm * current` at 100 °C. */
export const diode = z.strictObject({
  ...identity,
  kind: z.literal('diode'),
  technology: z.enum(['schottky', 'ultrafast', 'fast', 'standard']),
  reverse_V: positive(3000),
  average_A: positive(200),
  surge_A: positive(3000),
  drop_V: positive(5),
  slope_ohm: nonNegative(10),
  recovery_s: nonNegative(1e-5),
  junctionCapacitance_F: nonNegative(1e-7),
  /** Two diodes with common cathode in one package; ratings are for both legs together. */
  dual: z.boolean(),
  ...heatPath,
})

/** Unidirectional avalanche device used as a clamp. */
export const avalanche = z.strictObject({
  ...identity,
  kind: z.literal('avalanche'),
  breakdown_V: spread(1000),
  clampVoltage_V: positive(2000),
  clampCurrent_A: positive(1000),
  power_W: positive(100),
  junctionToAmbient_K_per_W: positive(500),
  maximumJunction_C: temperature_C,
})

/** Mains bridge rectifier; drop is per diode. */
export const bridge = z.strictObject({
  ...identity,
  kind: z.literal('bridge'),
  reverse_V: positive(3000),
  average_A: positive(100),
  surge_A: positive(3000),
  meltingIntegral_A2s: positive(1e5),
  drop_V: positive(3),
  slope_ohm: nonNegative(2),
  ...heatPath,
})

export const optocoupler = z.strictObject({
  ...identity,
  kind: z.literal('optocoupler'),
  /** Current transfer ratio at `testCurrent_A`. */
  transferRatio: spread(20),
  testCurrent_A: positive(0.1),
  /** Fraction of the transfer ratio that is left at end of life. */
  ageing: fraction,
  ledDrop_V: positive(3),
  ledMaximum_A: positive(0.2),
  collector_V: positive(500),
  /** Pole of the current transfer at `poleLoad_ohm`. */
  pole_Hz: positive(1e7),
  poleLoad_ohm: positive(1e6),
  isolation_Vrms: positive(20000),
  creepage_m: positive(0.05),
})

/** Adjustable shunt reference. */
export const reference = z.strictObject({
  ...identity,
  kind: z.literal('reference'),
  voltage_V: spread(50),
  minimumCathode_A: positive(0.05),
  maximumCathode_A: positive(1),
  maximumCathode_V: positive(100),
  minimumCathode_V: positive(10),
  inputCurrent_A: nonNegative(1e-3),
  drift_per_K: nonNegative(1e-2),
  gain: positive(1e6),
  gainBandwidth_Hz: positive(1e9),
})

export const led = z.strictObject({
  ...identity,
  kind: z.literal('led'),
  drop_V: positive(5),
  wanted_A: positive(0.1),
  maximum_A: positive(0.5),
})
