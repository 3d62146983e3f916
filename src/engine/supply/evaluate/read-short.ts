import { clampPower_W, leakagePower_W, settledClamp_V } from '../../converter/clamp.ts'
import { shortPeak_A } from '../../converter/short.ts'
import type { Readings } from '../reading.ts'
import type { Plant } from './plant.ts'
import { clampOvershoot_V } from './read-condition.ts'
import { onResistance_ohm } from './stage-losses.ts'

/**
 * Readings with the output shorted at the highest input: the chip tries at its current limit and pauses. Powers are
 * means over tries and pauses, currents are those within a try. `idle` gives the readings at no load, whose bulk
 * voltage is taken over.
 */
export function readShort(p: Plant, idle: Readings): Readings {
  const L = p.inductance_H.maximum
  const f = p.frequency_Hz.typical
  const n = p.turnsRatio
  const share = p.restartShare
  const crest_V = idle.bulkPeak_V
  const limitPeak_A = p.currentLimit_A.maximum + (crest_V * p.limitDelay_s) / L
  const peak_A = shortPeak_A(
    crest_V,
    p.minimumOnTime_s,
    f,
    n,
    p.rectifierDrop_V,
    p.secondaryResistance20_ohm + p.rectifierSlope_ohm + p.chokeResistance_ohm,
    p.leakage_H.typical,
    limitPeak_A,
  )
  const short_A = n * peak_A
  const reflected_V = n * (p.rectifierDrop_V + short_A * (p.rectifierSlope_ohm + p.secondaryResistance20_ohm))
  const duty = reflected_V / (reflected_V + crest_V)
  const leakage_W = leakagePower_W(p.leakage_H.maximum, peak_A, f)
  const clamp_V =
    p.clampStyle === 'avalanche'
      ? p.avalanche_V.maximum + p.avalancheSlope_ohm * peak_A
      : settledClamp_V(leakage_W, p.clampResistor_ohm, reflected_V)
  const clamp_W = share * clampPower_W(leakage_W, Math.max(clamp_V, 1.05 * reflected_V), reflected_V)
  const primary_Arms = peak_A * Math.sqrt(duty)
  const on_ohm = onResistance_ohm(p, 100)
  const switchConduction_W = share * primary_Arms * primary_Arms * on_ohm
  const conducting = 1 - duty
  const rectifierConduction_W =
    share * conducting * short_A * (p.rectifierDrop_V + p.rectifierSlope_ohm * short_A)
  const secondaryCopper_W = share * conducting * short_A * short_A * p.secondaryResistance20_ohm * 1.3
  const primaryCopper_W = share * primary_Arms * primary_Arms * p.primaryResistance20_ohm * 1.3
  const rootArea_m2 = Math.min(p.minimumArea_m2, p.postArea_m2 / p.rootFlux)
  const fluxPer_A = L / (p.primaryTurns * rootArea_m2)
  const loss_W =
    idle.control_W +
    idle.bleed_W +
    clamp_W +
    switchConduction_W +
    rectifierConduction_W +
    secondaryCopper_W +
    primaryCopper_W
  return {
    ...nothing(idle),
    input_V: idle.input_V,
    bulkPeak_V: crest_V,
    bulkMinimum_V: idle.bulkMinimum_V,
    bulkMean_V: idle.bulkMean_V,
    bulkEnergy_J: idle.bulkEnergy_J,
    bridgeReverse_V: idle.bridgeReverse_V,
    bleed_W: idle.bleed_W,
    input_W: loss_W,
    mode: 2,
    frequency_Hz: f,
    duty,
    onTime_s: duty / f,
    secondaryDuty: conducting,
    reflectedVoltage_V: reflected_V,
    primaryPeak_A: peak_A,
    primaryValley_A: Math.max(0, peak_A - (crest_V * duty) / (L * f)),
    rippleRatio: Math.min(1, (crest_V * duty) / (L * f) / peak_A),
    primary_Arms: primary_Arms,
    secondaryPeak_A: short_A,
    secondary_Arms: short_A * Math.sqrt(conducting),
    limitPeak_A,
    shortCurrent_A: short_A * conducting,
    drainPlateau_V: crest_V + reflected_V,
    drainPeak_V: crest_V + Math.max(clamp_V, reflected_V) + clampOvershoot_V,
    onResistance_ohm: on_ohm,
    switchConduction_W,
    control_W: idle.control_W,
    switch_W: switchConduction_W + idle.control_W,
    switchJunction_C: p.ambient_C + (switchConduction_W + idle.control_W) * p.switchHeat_K_per_W,
    primaryInductance_H: L,
    fluxPeak_T: fluxPer_A * peak_A,
    fluxLimit_T: fluxPer_A * Math.max(peak_A, limitPeak_A),
    saturation_T: idle.saturation_T,
    primaryCopper_W,
    secondaryCopper_W,
    transformer_W: primaryCopper_W + secondaryCopper_W,
    transformer_C: idle.transformer_C,
    clamp_V,
    leakageEnergy_W: share * leakage_W,
    clamp_W,
    clampCurrent_Aavg: clamp_W / clamp_V,
    rectifierReverse_V: crest_V / n,
    rectifierReversePeak_V: (1.25 * crest_V) / n,
    rectifierConduction_W,
    rectifier_W: rectifierConduction_W,
    rectifierJunction_C: p.ambient_C + rectifierConduction_W * p.rectifierHeat_K_per_W,
    outputCapacitor_C: p.ambient_C,
    bridgeJunction_C: p.ambient_C,
    outputCapacitorLife_h: idle.outputCapacitorLife_h,
    loss_W,
  }
}

/** A record of zeros with the keys of another. */
const nothing = (like: Readings): Readings => {
  if (zeros === null) {
    const zero: Record<string, number> = {}
    for (const key of Object.keys(like)) zero[key] = 0
    zeros = zero as Readings
  }
  return zeros
}

let zeros: Readings | null = null
