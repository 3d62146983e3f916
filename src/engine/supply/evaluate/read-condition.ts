import { filterGain } from '../../converter/filter.ts'
import { recoveryCurrent_A, ringingPeak_V } from '../../converter/ringing.ts'
import type { StageCycle } from '../../converter/stage.ts'
import { junctionTemperature, surfaceFactor } from '../../heat/index.ts'
import { ledCurrentFor, strongestRatio, weakestRatio } from '../../loop/index.ts'
import { hotSaturationFlux } from '../../magnetics/material/index.ts'
import { claimedLife_h, lifeByTenKelvin, rippleHeating } from '../../mains/capacitor-life.ts'
import type { Condition } from '../condition.ts'
import type { Design } from '../design.ts'
import { clampBody_C } from '../heat-stops.ts'
import type { Readings } from '../reading.ts'
import { pinCurrents } from '../resolve/feedback.ts'
import { dropOutBulk_V } from './drop-out.ts'
import { handing_H } from './handing.ts'
import type { Operation } from './operate.ts'
import type { Plant } from './plant.ts'
import { secondaryRing_A, spikedBias_V } from './spike.ts'
import { heldByAvalanche_V } from './stage-losses.ts'

/** Overshoot of the drain beyond the clamp while its diode turns on; typical of fast diodes, no source. */
export const clampOvershoot_V = 12
/** Rise of an electrolytic at its rated ripple; usual for 105 °C parts. */
const riseAtRating_K = 5
/** ESR of an electrolytic at twice mains over that at 100 kHz; typical, no source. */
const lowFrequencyResistance = 1.5

/** Efficiency of the stage at full load, for the ceiling. */
export interface FullLoad {
  readonly powerCeiling_W: number
}

/** Reverse voltage of the rectifier with its ring, after carrying a current to the end of the cycle, V. */
export const reversePeak_V = (p: Plant, reverse_V: number, valley_A: number): number =>
  ringingPeak_V(
    p.ringing,
    reverse_V,
    recoveryCurrent_A(valley_A, p.rectifierLifetime_s, reverse_V, p.secondaryLoop_H),
  )

/** Peak that the control asks for: what the delay adds is taken off, what slope compensation takes is put on. */
const commandedPeak_A = (p: Plant, cycle: StageCycle, bulk_V: number, inductance_H: number): number =>
  cycle.peak_A -
  (bulk_V / inductance_H) * p.limitDelay_s +
  p.slope_A_per_s * Math.max(0, cycle.duty / cycle.frequency_Hz - p.limitDelay_s)

/** Turns a solved condition into its readings. `full` gives the ceiling found at full load and the same input. */
export function readCondition(
  d: Design,
  p: Plant,
  c: Condition,
  o: Operation,
  full: FullLoad | null,
): Readings {
  const { input, losses: l, mean, valley } = o
  const { bulk } = input
  const { parts } = d
  const L = o.inductance_H
  const source = p.source[c.input]
  const input_V = source.kind === 'mains' ? source.voltage_Vrms : source.voltage_V
  const output_W = p.output_V * o.output_A
  const hotFactor = surfaceFactor[p.cooling]

  const bulkLine_Arms = bulk.capacitorRipple_Arms
  const bulkCapacitor_W =
    (bulkLine_Arms * bulkLine_Arms * p.bulkResistance_ohm * lowFrequencyResistance) / p.bulkCount +
    l.bulkSwitching_W
  const scaled_A =
    (l.bulkSwitching_Arms * parts.bulkCapacitor.ripple100Hz_A) / parts.bulkCapacitor.ripple100kHz_A
  const bulkCapacitorLine_W = bulkCapacitor_W - l.bulkSwitching_W
  const loss_W =
    l.total_W +
    p.standing_W +
    input.bridge_W +
    input.thermistor_W +
    input.fuse_W +
    input.bleed_W +
    bulkCapacitorLine_W
  const input_W = output_W + loss_W

  // Ceiling: what the stage draws less what this load loses beyond its standing part.
  const useful = output_W > 0 ? output_W / o.stage_W : 0
  const powerCeiling_W = full ? full.powerCeiling_W : useful * o.ceiling.average_A * bulk.minimum_V
  const crest_V = bulk.maximum_V
  const limitPeak_A = o.limit_A + (crest_V * p.limitDelay_s) / L
  const rootArea_m2 = Math.min(p.minimumArea_m2, p.postArea_m2 / p.rootFlux)
  const fluxPer_A = L / (p.primaryTurns * rootArea_m2)

  const switch_W = l.switchConduction_W + l.switchTransition_W + l.switchCapacitive_W + l.control_W
  const rectifier_W = l.rectifierConduction_W + l.rectifierSwitching_W
  const transformer_W = l.core_W + l.primaryCopper_W + l.secondaryCopper_W + l.biasCopper_W
  const clampDrain_V =
    p.clampStyle === 'resistor-capacitor'
      ? l.clamp_V
      : heldByAvalanche_V(
          p,
          p.avalanche_V.maximum,
          handing_H(p, o.leakage_H),
          l.handedShare * valley.peak_A,
          o.reflected_V,
        )
  const ring_A = secondaryRing_A(p, o)
  const bias_V = spikedBias_V(p, o)
  const reverse_V = p.output_V + crest_V / p.turnsRatio
  // Neither ring gets through a choke.
  const firstRipple_Vpp =
    l.firstRipple_Vpp + p.outputResistance_ohm * (ring_A + p.ringing.current_S * reverse_V)

  const capacitorRipple_Arms = l.outputRipple_Arms / p.outputCount
  const outputUse = capacitorRipple_Arms / parts.outputCapacitor.ripple100kHz_A
  // Held at 300 °C, far beyond anything an electrolytic lives through.
  const outputCapacitor_C = Math.min(300, o.inside_C + rippleHeating(outputUse, riseAtRating_K))
  const outputRipple_Vpp =
    p.choke && p.secondCapacitance_F > 0
      ? l.firstRipple_Vpp *
        Math.min(
          1,
          filterGain(
            l.chokeInductance_H,
            p.chokeResistance_ohm,
            p.secondCapacitance_F,
            p.secondResistance_ohm,
            valley.frequency_Hz,
          ),
        )
      : firstRipple_Vpp

  const { optocoupler } = parts
  const pin = pinCurrents(parts.switcher.control)
  const effort =
    parts.switcher.control.style === 'voltage-mode'
      ? mean.duty / p.maximumDuty.typical
      : commandedPeak_A(p, mean, bulk.average_V, L) / o.limit_A
  const asked = mean.mode === 'skip' ? 0 : Math.min(1, Math.max(0, effort))
  const control_A = pin.zero_A + (pin.full_A - pin.zero_A) * asked
  const led_A = ledCurrentFor(weakestRatio(optocoupler), control_A)
  const biasResistor_A = optocoupler.ledDrop_V / d.feedback.biasResistor_ohm
  const cathode_A = ledCurrentFor(strongestRatio(optocoupler), control_A) + biasResistor_A
  const cathode_V = p.output_V - optocoupler.ledDrop_V - d.feedback.ledResistor_ohm * (led_A + biasResistor_A)
  const indicator_A =
    parts.indicator && d.indicatorResistor_ohm > 0
      ? Math.max(0, p.output_V - parts.indicator.drop_V) / d.indicatorResistor_ohm
      : 0
  const indicator_W = indicator_A * p.output_V

  const primaryArea_m2 = d.transformer.coil.primary.copperArea_m2
  const secondaryArea_m2 = d.transformer.coil.secondary.copperArea_m2
  const dropOut_V = dropOutBulk_V(
    o.reflected_V,
    L,
    valley.frequency_Hz,
    o.limit_A,
    p.maximumDuty.typical,
    o.stage_W,
    p.slope_A_per_s,
  )
  const held_V2 = bulk.minimum_V ** 2 - dropOut_V ** 2

  return {
    input_V,
    bulkPeak_V: crest_V,
    bulkMinimum_V: bulk.minimum_V,
    bulkMean_V: bulk.average_V,
    bulkRipple_Vpp: crest_V - bulk.minimum_V,
    conductionTime_s: Number.isFinite(bulk.conductionTime_s) ? bulk.conductionTime_s : 0,
    input_W,
    inputCurrent_Arms: bulk.input_Arms,
    powerFactor: bulk.powerFactor,
    bridgeCurrent_Aavg: source.kind === 'mains' ? 2 * bulk.diode_Aaverage : bulk.diode_Aaverage,
    bridgeReverse_V: source.kind === 'mains' ? input_V * Math.SQRT2 : input_V,
    bridge_W: input.bridge_W,
    bridgeJunction_C: junctionTemperature(o.inside_C, input.bridge_W, p.bridgeHeat_K_per_W * hotFactor),
    ntc_W: input.thermistor_W,
    fuse_W: input.fuse_W,
    bulkRippleLine_Arms: bulkLine_Arms,
    bulkRippleSwitch_Arms: l.bulkSwitching_Arms,
    bulkRippleEquivalent_Arms: Math.hypot(bulkLine_Arms, scaled_A) / p.bulkCount,
    bulkCapacitor_W,
    bulkEnergy_J: 0.5 * p.bulk_F.typical * crest_V * crest_V,
    bleed_W: input.bleed_W,
    holdUp_s: Math.max(0, (p.bulk_F.minimum * held_V2) / (2 * o.stage_W)),

    mode: valley.mode === 'skip' ? 0 : valley.mode === 'discontinuous' ? 1 : 2,
    frequency_Hz: valley.rate_Hz,
    duty: valley.duty,
    onTime_s: valley.duty / valley.frequency_Hz,
    secondaryDuty: valley.secondaryDuty,
    reflectedVoltage_V: o.reflected_V,
    primaryPeak_A: valley.peak_A,
    primaryValley_A: valley.valley_A,
    rippleRatio: (valley.peak_A - valley.valley_A) / valley.peak_A,
    primaryAverage_A: o.stage_W / bulk.average_V,
    primary_Arms: l.primary_Arms,
    primaryDensity_A_per_m2: l.primary_Arms / primaryArea_m2,
    secondaryPeak_A: l.secondaryPeak_A + ring_A,
    secondary_Arms: l.secondary_Arms,
    secondaryDensity_A_per_m2: l.secondary_Arms / secondaryArea_m2,
    limitPeak_A,
    powerCeiling_W,
    currentCeiling_A: powerCeiling_W / p.output_V,
    shortCurrent_A: 0,
    drainPlateau_V: crest_V + o.reflected_V,
    drainPeak_V: crest_V + Math.max(clampDrain_V, o.reflected_V) + clampOvershoot_V,
    onResistance_ohm: l.onResistance_ohm,
    switchConduction_W: l.switchConduction_W,
    switchTransition_W: l.switchTransition_W,
    switchCapacitive_W: l.switchCapacitive_W,
    control_W: l.control_W,
    switch_W,
    switchJunction_C: o.junction_C,

    primaryInductance_H: L,
    fluxPeak_T: fluxPer_A * valley.peak_A,
    fluxSwing_Tpp: l.swing_Tpp,
    fluxLimit_T: fluxPer_A * limitPeak_A,
    saturation_T: hotSaturationFlux(p.saturation, o.transformer_C),
    core_W: l.core_W,
    primaryCopper_W: l.primaryCopper_W,
    primaryCopperAc_W: l.share * l.excess.primary_W,
    secondaryCopper_W: l.secondaryCopper_W,
    secondaryCopperAc_W: l.share * l.excess.secondary_W,
    biasCopper_W: l.biasCopper_W,
    transformer_W,
    transformer_C: o.transformer_C,
    clamp_V: l.clamp_V,
    leakageEnergy_W: l.leakageEnergy_W,
    clamp_W: l.clamp_W,
    clampRipple_Vpp:
      p.clampStyle === 'resistor-capacitor'
        ? Math.min(l.clamp_V, l.clamp_V / (p.clampResistor_ohm * p.clampCapacitor_F * mean.rate_Hz))
        : 0,
    clampCurrent_Aavg: l.clamp_W / l.clamp_V,
    clampDiode_W: l.clampDiode_W,
    clampResistor_C: p.clampStyle === 'resistor-capacitor' ? clampBody_C(d, o.inside_C, l.clamp_W) : 0,
    clampAvalanche_C:
      p.clampStyle === 'avalanche'
        ? junctionTemperature(o.inside_C, l.clamp_W, p.avalancheHeat_K_per_W * hotFactor)
        : 0,

    output_V: p.output_V,
    insideAir_C: o.inside_C,
    output_A: o.output_A,
    output_W,
    rectifierReverse_V: reverse_V,
    rectifierReversePeak_V: reversePeak_V(p, reverse_V, l.secondaryValley_A),
    rectifierConduction_W: l.rectifierConduction_W,
    rectifierSwitching_W: l.rectifierSwitching_W,
    rectifier_W,
    rectifierJunction_C: junctionTemperature(o.inside_C, rectifier_W, p.rectifierHeat_K_per_W * hotFactor),
    snubber_W: l.snubber_W,
    outputCapacitorRipple_Arms: l.outputRipple_Arms,
    outputCapacitorEach_Arms: capacitorRipple_Arms,
    outputCapacitor_W: l.outputCapacitor_W,
    outputCapacitor_C,
    outputCapacitorLife_h: claimedLife_h(
      lifeByTenKelvin(
        parts.outputCapacitor.life_h,
        parts.outputCapacitor.temperature_C + riseAtRating_K,
        outputCapacitor_C,
      ),
    ),
    firstRipple_Vpp,
    outputRipple_Vpp,
    chokeInductance_H: l.chokeInductance_H,
    chokeRipple_App: l.chokeRipple_App,
    choke_W: l.choke_W,
    secondCapacitorRipple_Arms: l.chokeRipple_App / Math.sqrt(12),
    bias_V,
    biasReverse_V: bias_V + crest_V * p.biasPrimaryRatio,
    biasDiode_W: l.biasDiode_W,
    biasRipple_Vpp: Math.min(bias_V, p.chipSupply_A / (mean.rate_Hz * p.biasCapacitance_F)),
    controlCurrent_A: control_A,
    ledCurrent_A: led_A,
    cathodeCurrent_A: cathode_A,
    cathode_V,
    feedback_W: p.standing_W - indicator_W,
    indicator_A,
    indicator_W,
    loss_W,
    efficiency: input_W > 0 ? output_W / input_W : 0,
  }
}
