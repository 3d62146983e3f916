import {
  avalancheVoltage_V,
  clampPower_W,
  freeSwing_V,
  leakagePower_W,
  settledClamp_V,
} from '../../converter/clamp.ts'
import { firstRipple_Vpp } from '../../converter/filter.ts'
import { asHeat, excessLoss } from '../../converter/harmonics.ts'
import type { StageCycle } from '../../converter/stage.ts'
import { alternatingRms_A, trapezoidRms_A } from '../../converter/waveform.ts'
import { triangleLoss } from '../../magnetics/material/index.ts'
import { copperResistanceRatio } from '../../magnetics/wire/index.ts'
import { chokeInductance_H } from '../resolve/choke.ts'
import { biasDraw_A, handedAt, handing_H } from './handing.ts'
import type { LossRecord, StageLosses } from './losses.ts'
import type { Plant } from './plant.ts'

/** Time in which voltage and current cross at a switching edge; typical of 700 V switchers, no source. */
const edge_s = 30e-9
/** The clamp cannot take more than this share of what the stage stores: beyond it nothing regulates. */
const greatestClampShare = 0.7

/** Temperatures that losses depend on. */
export interface Heat {
  readonly junction_C: number
  readonly transformer_C: number
}

/** On-resistance between its two stated points, carried on in a straight line, held above 200 °C. */
export const onResistance_ohm = (p: Plant, junction_C: number): number =>
  p.onResistance25_ohm +
  ((p.onResistance100_ohm - p.onResistance25_ohm) / 75) * (Math.min(junction_C, 200) - 25)

/**
 * What one cycle at a bulk voltage costs. `delivered_A` is the mean current out of the rectifier. Written into a
 * record of the caller, whose skin, proximity and core loss and share handed over of a neighbouring point are kept
 * unless `fresh`.
 */
export function stageLosses(
  p: Plant,
  cycle: StageCycle,
  bulk_V: number,
  reflected_V: number,
  inductance_H: number,
  leakage_H: number,
  delivered_A: number,
  stage_W: number,
  heat: Heat,
  fresh: boolean,
  into: LossRecord,
): StageLosses {
  const f = cycle.frequency_Hz
  const share = cycle.rate_Hz / f
  const { peak_A, valley_A, duty } = cycle
  const hot = copperResistanceRatio(20, heat.transformer_C)

  const primary_Arms = trapezoidRms_A(peak_A, valley_A, duty) * Math.sqrt(share)
  const on_ohm = onResistance_ohm(p, heat.junction_C)
  const switchConduction_W = primary_Arms * primary_Arms * on_ohm
  const turnOn_V = valley_A > 0 ? bulk_V + reflected_V : bulk_V
  const switchTransition_W =
    0.5 * edge_s * cycle.rate_Hz * ((bulk_V + reflected_V) * peak_A + turnOn_V * valley_A)
  const switchCapacitive_W = 0.5 * p.drainCapacitance_F * turnOn_V * turnOn_V * cycle.rate_Hz
  const control_W = p.bias_V * p.chipSupply_A

  const swing_Tpp = (inductance_H * (peak_A - valley_A)) / (p.primaryTurns * p.area_m2)
  const corePulse_W = fresh
    ? p.coreVolume_m3 *
      triangleLoss(p.coreLoss, f, swing_Tpp, duty / f, cycle.secondaryDuty / f, heat.transformer_C)
    : into.corePulse_W
  const core_W = share * corePulse_W

  const meanInCycle = delivered_A / share
  const form = valley_A / peak_A
  // Where the current falls to zero, peak and duration of the secondary both go with the root of what is passed on.
  const passed = Math.min(1, (2 * meanInCycle) / (p.turnsRatio * peak_A * cycle.secondaryDuty))
  const secondaryDuty = valley_A > 0 ? cycle.secondaryDuty : cycle.secondaryDuty * Math.sqrt(passed)
  const secondaryPeak_A = (2 * meanInCycle) / (secondaryDuty * (1 + form))
  const secondaryValley_A = secondaryPeak_A * form
  const secondary_Arms = trapezoidRms_A(secondaryPeak_A, secondaryValley_A, secondaryDuty) * Math.sqrt(share)
  const excess = fresh
    ? asHeat(
        excessLoss(
          { start_A: valley_A, end_A: peak_A, duty },
          { start_A: secondaryPeak_A, end_A: secondaryValley_A, duty: secondaryDuty },
          p.excess,
        ),
      )
    : into.excess
  const primaryCopper_W =
    primary_Arms * primary_Arms * p.primaryResistance20_ohm * hot + share * excess.primary_W
  const secondaryCopper_W =
    secondary_Arms * secondary_Arms * p.secondaryResistance20_ohm * hot + share * excess.secondary_W
  const biasCopper_W = 3 * p.chipSupply_A * p.chipSupply_A * p.biasResistance20_ohm * hot

  const leakageEnergy_W = leakagePower_W(leakage_H, peak_A, cycle.rate_Hz)
  const handed = fresh ? handedAt(p, leakage_H, bulk_V + reflected_V, peak_A) : into.handedShare
  const handed_A = handed * peak_A
  const whole_H = handing_H(p, leakage_H)
  const handed_W = leakagePower_W(whole_H, handed_A, cycle.rate_Hz)
  const swing_S = p.drainCapacitance_F * cycle.rate_Hz
  const drawn_A = biasDraw_A(p, leakage_H)
  const clamp_V =
    p.clampStyle === 'avalanche'
      ? heldByAvalanche_V(p, p.avalanche_V.typical, whole_H, handed_A, reflected_V)
      : settledClamp_V(handed_W, p.clampResistor_ohm, reflected_V, swing_S, drawn_A)
  const clamp_W = Math.min(
    greatestClampShare * stage_W,
    p.clampStyle === 'avalanche'
      ? clampPower_W(handed_W, Math.max(clamp_V, 1.02 * reflected_V), reflected_V, swing_S, drawn_A)
      : resistorPower_W(p, clamp_V, cycle.rate_Hz),
  )
  const clampDiode_W = (p.clampDiodeDrop_V * clamp_W) / clamp_V

  const rectifierReverse_V = p.output_V + bulk_V / p.turnsRatio
  const rectifierConduction_W =
    p.rectifierDrop_V * delivered_A + p.rectifierSlope_ohm * secondary_Arms * secondary_Arms
  const rectifierSwitching_W =
    0.5 *
    cycle.rate_Hz *
    rectifierReverse_V *
    (p.rectifierCapacitance_F * rectifierReverse_V + p.rectifierRecovery_s * secondaryValley_A)
  const snubber_W = p.snubber_F * rectifierReverse_V * rectifierReverse_V * cycle.rate_Hz

  const outputRipple_Arms = alternatingRms_A(secondary_Arms, delivered_A)
  const outputCapacitor_W = outputRipple_Arms * outputRipple_Arms * p.outputResistance_ohm
  const first_Vpp = firstRipple_Vpp(
    secondaryPeak_A,
    delivered_A,
    secondaryDuty * share,
    cycle.rate_Hz,
    p.outputCapacitance_F,
    p.outputResistance_ohm,
  )
  const choke_H = p.choke ? chokeInductance_H(p.choke, delivered_A) : 0
  const chokeRipple_App = p.choke ? Math.min(2 * secondaryPeak_A, first_Vpp / (2 * Math.PI * f * choke_H)) : 0
  const choke_W = delivered_A * delivered_A * p.chokeResistance_ohm
  const secondCapacitor_W = (chokeRipple_App * chokeRipple_App * p.secondResistance_ohm) / 12

  const bulkSwitching_Arms = alternatingRms_A(primary_Arms, stage_W / bulk_V)
  const bulkSwitching_W = (bulkSwitching_Arms * bulkSwitching_Arms * p.bulkResistance_ohm) / p.bulkCount
  const biasDiode_W = p.biasDrop_V * p.chipSupply_A

  into.share = share
  into.primary_Arms = primary_Arms
  into.secondaryDuty = secondaryDuty
  into.secondaryPeak_A = secondaryPeak_A
  into.secondaryValley_A = secondaryValley_A
  into.secondary_Arms = secondary_Arms
  into.onResistance_ohm = on_ohm
  into.switchConduction_W = switchConduction_W
  into.switchTransition_W = switchTransition_W
  into.switchCapacitive_W = switchCapacitive_W
  into.control_W = control_W
  into.swing_Tpp = swing_Tpp
  into.corePulse_W = corePulse_W
  into.core_W = core_W
  into.primaryCopper_W = primaryCopper_W
  into.excess = excess
  into.secondaryCopper_W = secondaryCopper_W
  into.biasCopper_W = biasCopper_W
  into.handedShare = handed
  into.clamp_V = clamp_V
  into.leakageEnergy_W = leakageEnergy_W
  into.clamp_W = clamp_W
  into.clampDiode_W = clampDiode_W
  into.rectifierReverse_V = rectifierReverse_V
  into.rectifierConduction_W = rectifierConduction_W
  into.rectifierSwitching_W = rectifierSwitching_W
  into.snubber_W = snubber_W
  into.outputRipple_Arms = outputRipple_Arms
  into.outputCapacitor_W = outputCapacitor_W
  into.firstRipple_Vpp = first_Vpp
  into.chokeInductance_H = choke_H
  into.chokeRipple_App = chokeRipple_App
  into.choke_W = choke_W
  into.secondCapacitor_W = secondCapacitor_W
  into.bulkSwitching_Arms = bulkSwitching_Arms
  into.bulkSwitching_W = bulkSwitching_W
  into.biasDiode_W = biasDiode_W
  into.total_W =
    switchConduction_W +
    switchTransition_W +
    switchCapacitive_W +
    control_W +
    core_W +
    primaryCopper_W +
    secondaryCopper_W +
    biasCopper_W +
    clamp_W +
    clampDiode_W +
    rectifierConduction_W +
    rectifierSwitching_W +
    snubber_W +
    outputCapacitor_W +
    choke_W +
    secondCapacitor_W +
    bulkSwitching_W +
    biasDiode_W
  return into
}

/**
 * Voltage above the bulk at which an avalanche clamp of this breakdown holds the drain, or that the leakage alone lifts
 * it to where this is less.
 */
export const heldByAvalanche_V = (
  p: Plant,
  breakdown_V: number,
  leakage_H: number,
  handed_A: number,
  reflected_V: number,
): number =>
  Math.min(
    avalancheVoltage_V(breakdown_V, breakdown_V + p.avalancheSlope_ohm, 1, handed_A),
    reflected_V + freeSwing_V(handed_A, leakage_H, p.drainCapacitance_F),
  )

/**
 * Loss of the clamp resistor: Vc²/R while pulses follow closely, and what one charge of the capacitor holds when
 * it runs down between pulses: C Vc²/2 (1 - e^(-2/(f R C))) f.
 */
function resistorPower_W(p: Plant, clamp_V: number, rate_Hz: number): number {
  const discharge = -Math.expm1(-2 / (rate_Hz * p.clampResistor_ohm * p.clampCapacitor_F))
  return 0.5 * p.clampCapacitor_F * clamp_V * clamp_V * discharge * rate_Hz
}
