import { clampPower_W, leakagePower_W, settledClamp_V } from '../../converter/clamp.ts'
import { shortPeak_A } from '../../converter/short.ts'
import { type ReadingKey, type Readings, readingKeys } from '../reading.ts'
import { handedAt, handing_H } from './handing.ts'
import type { Plant } from './plant.ts'
import { clampOvershoot_V, reversePeak_V } from './read-condition.ts'
import { heldByAvalanche_V, onResistance_ohm } from './stage-losses.ts'

/** Peak primary current that the stage climbs to with its output shorted, A. */
export const climbedShort_A = (p: Plant, bulk_V: number, limitPeak_A: number): number =>
  shortPeak_A({
    bulk_V,
    minimumOnTime_s: p.minimumOnTime_s,
    frequency_Hz: p.frequency_Hz.typical,
    turnsRatio: p.turnsRatio,
    rectifierDrop_V: p.rectifierDrop_V,
    secondaryResistance_ohm: p.secondaryResistance20_ohm + p.rectifierSlope_ohm + p.chokeResistance_ohm,
    inductance_H: p.inductance_H.maximum,
    leakage_H: p.leakage_H.typical,
    limitPeak_A,
    skipsPulses: p.skipsWhenShorted,
  })

/**
 * Readings with the output shorted at the highest input: the chip tries at its current limit and pauses. Powers are
 * means over tries and pauses, currents are those within a try. `idle` gives the readings at no load, whose bulk
 * voltage is taken over. Flux, clamp and drain are read at the peak that the current climbs to while each shortest
 * on-time adds more than the short takes away.
 */
export function readShort(p: Plant, idle: Readings): Readings {
  const L = p.inductance_H.maximum
  const f = p.frequency_Hz.typical
  const n = p.turnsRatio
  const share = p.restartShare
  const crest_V = idle.bulkPeak_V
  const limitPeak_A = p.currentLimit_A.maximum + (crest_V * p.limitDelay_s) / L
  const peak_A = climbedShort_A(p, crest_V, limitPeak_A)
  const short_A = n * peak_A
  const reflected_V = n * (p.rectifierDrop_V + short_A * (p.rectifierSlope_ohm + p.secondaryResistance20_ohm))
  const duty = reflected_V / (reflected_V + crest_V)
  const leakage_W = leakagePower_W(p.leakage_H.maximum, peak_A, f)
  const whole_H = handing_H(p, p.leakage_H.maximum)
  const handed_A = handedAt(p, p.leakage_H.maximum, crest_V + reflected_V, peak_A) * peak_A
  const handed_W = leakagePower_W(whole_H, handed_A, f)
  const swing_S = p.drainCapacitance_F * f
  const clamp_V =
    p.clampStyle === 'avalanche'
      ? heldByAvalanche_V(p, p.avalanche_V.maximum, whole_H, handed_A, reflected_V)
      : settledClamp_V(handed_W, p.clampResistor_ohm, reflected_V, swing_S)
  const clamp_W = share * clampPower_W(handed_W, Math.max(clamp_V, 1.05 * reflected_V), reflected_V, swing_S)
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
  const r = zeros(idle)
  r.input_V = idle.input_V
  r.bulkPeak_V = crest_V
  r.bulkMinimum_V = idle.bulkMinimum_V
  r.bulkMean_V = idle.bulkMean_V
  r.bulkEnergy_J = idle.bulkEnergy_J
  r.bridgeReverse_V = idle.bridgeReverse_V
  r.bleed_W = idle.bleed_W
  r.input_W = loss_W
  r.mode = 2
  r.frequency_Hz = f
  r.duty = duty
  r.onTime_s = duty / f
  r.secondaryDuty = conducting
  r.reflectedVoltage_V = reflected_V
  r.primaryPeak_A = peak_A
  r.primaryValley_A = Math.max(0, peak_A - (crest_V * duty) / (L * f))
  r.rippleRatio = Math.min(1, (crest_V * duty) / (L * f) / peak_A)
  r.primary_Arms = primary_Arms
  r.secondaryPeak_A = short_A
  r.secondary_Arms = short_A * Math.sqrt(conducting)
  r.limitPeak_A = limitPeak_A
  r.shortCurrent_A = short_A * conducting
  r.drainPlateau_V = crest_V + reflected_V
  r.drainPeak_V = crest_V + Math.max(clamp_V, reflected_V) + clampOvershoot_V
  r.onResistance_ohm = on_ohm
  r.switchConduction_W = switchConduction_W
  r.control_W = idle.control_W
  r.switch_W = switchConduction_W + idle.control_W
  r.switchJunction_C = p.ambient_C + (switchConduction_W + idle.control_W) * p.switchHeat_K_per_W
  r.primaryInductance_H = L
  r.fluxPeak_T = fluxPer_A * peak_A
  r.fluxLimit_T = fluxPer_A * peak_A
  r.saturation_T = idle.saturation_T
  r.primaryCopper_W = primaryCopper_W
  r.secondaryCopper_W = secondaryCopper_W
  r.transformer_W = primaryCopper_W + secondaryCopper_W
  r.transformer_C = idle.transformer_C
  r.clamp_V = clamp_V
  r.leakageEnergy_W = share * leakage_W
  r.clamp_W = clamp_W
  r.clampCurrent_Aavg = clamp_W / clamp_V
  r.rectifierReverse_V = crest_V / n
  r.rectifierReversePeak_V = reversePeak_V(p, crest_V / n, n * r.primaryValley_A)
  r.rectifierConduction_W = rectifierConduction_W
  r.rectifier_W = rectifierConduction_W
  r.rectifierJunction_C = p.ambient_C + rectifierConduction_W * p.rectifierHeat_K_per_W
  r.insideAir_C = p.ambient_C
  r.outputCapacitor_C = p.ambient_C
  r.bridgeJunction_C = p.ambient_C
  r.outputCapacitorLife_h = idle.outputCapacitorLife_h
  r.loss_W = loss_W
  return r
}

/** A fresh record of zeros with the keys, and the shape in memory, of another. */
function zeros(like: Readings): Record<ReadingKey, number> {
  const record = { ...like }
  for (const key of readingKeys) record[key] = 0
  return record
}
