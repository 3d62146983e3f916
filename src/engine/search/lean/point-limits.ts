import { leakagePower_W, settledClamp_V } from '../../converter/clamp.ts'
import { filterGain } from '../../converter/filter.ts'
import { raised } from '../../converter/trim.ts'
import { junctionTemperature, surfaceFactor } from '../../heat/index.ts'
import { hotSaturationFlux } from '../../magnetics/material/index.ts'
import { claimedLife_h, coolAllowance, lifeByTenKelvin, rippleHeating } from '../../mains/capacitor-life.ts'
import type { PartsUsed } from '../../supply/design.ts'
import { handedAt, handing_H } from '../../supply/evaluate/handing.ts'
import type { Plant } from '../../supply/evaluate/plant.ts'
import { reversePeak_V } from '../../supply/evaluate/read-condition.ts'
import { climbedShort_A } from '../../supply/evaluate/read-short.ts'
import { spikedBias_V } from '../../supply/evaluate/spike.ts'
import type { Need } from '../../supply/need.ts'
import type { BulkPoint } from './bulk-table.ts'
import { hottestCoil_C } from './frame-limits.ts'
import type { Settled } from './settle.ts'
import { atLeast, atMost, coolerThan, type Tally } from './tally.ts'

/** What the limits of a settled point look at beside it. */
export interface Around {
  readonly need: Need
  readonly parts: PartsUsed
  readonly plant: Plant
  readonly bulk: BulkPoint
  readonly primaryArea_m2: number
  readonly secondaryArea_m2: number
}

const overshoot_V = 12
/** Cases are judged by junctions this far below their greatest, K. */
const room_K = 10
/** Share of the output up to which a clamp may burn at any voltage, with room for what tells the lean loss from the whole. */
const littleClamp = 0.0605
const density_A_per_m2 = 6.5e6
const rippleTolerance = { electronics: 1, resistive: 2, charging: 3 } as const

/** Limits on what the current limit and the greatest duty leave, at a valley. */
export function powerBreaks(a: Around, s: Settled, t: Tally, all: boolean, inductance_H: number): boolean {
  const { need, parts } = a
  const { switcher } = parts
  const { slope_A_per_s: slope, limitDelay_s: delay_s } = a.plant
  const trimmed = raised(s.valley, need.trimHigh_V / need.output_V)
  // Compensation lowers the limit as the pulse goes on, the delay of the chip lifts it.
  const least_A =
    switcher.currentLimit_A.minimum -
    slope * (trimmed.duty / s.valley.frequency_Hz - delay_s) +
    (a.bulk.minimum_V / inductance_H) * delay_s
  const limit_A = 0.96 * least_A
  let broken = atMost(t, 'switcher.peak-current', trimmed.peak_A, limit_A)
  if (broken && !all) return true
  broken = atMost(t, 'switcher.duty', trimmed.duty, switcher.maximumDuty.minimum) || broken
  if (broken && !all) return true
  const output_W = need.output_V * need.output_A
  const ceiling_W = (output_W / s.stage_W) * s.ceiling.average_A * a.bulk.minimum_V
  broken = atLeast(t, 'supply.power', ceiling_W, need.trimHigh_V * need.output_A) || broken
  if (broken && !all) return true
  if (need.source.kind === 'mains')
    broken = atLeast(t, 'bulk.valley', a.bulk.minimum_V / a.bulk.maximum_V, 0.6) || broken
  if (switcher.control.style === 'peak-current' && s.valley.mode === 'continuous') {
    const { duty } = s.valley
    const wanted = (0.5 * (s.reflected_V - (s.reflected_V * (1 - duty)) / duty)) / inductance_H
    broken = slopeMargin(t, switcher.control.slope_A_per_s, wanted) || broken
  }
  return broken && !all
}

/** No slope is wanted below half duty. */
const slopeMargin = (t: Tally, slope: number, wanted: number): boolean =>
  wanted > 1e-30 ? atLeast(t, 'switcher.slope', slope, wanted) : false

/** Limits on heat, and on currents that heat, at a settled point. */
export function heatBreaks(a: Around, s: Settled, t: Tally, all: boolean): boolean {
  const { need, parts, plant: p } = a
  const amb = need.ambient_C
  const { switcher, rectifier, outputCapacitor } = parts
  const l = s.losses
  let broken = coolerThan(t, 'transformer.temperature', s.transformer_C + 10, hottestCoil_C(parts), amb)
  if (broken && !all) return true
  const hottest_C = Math.min(switcher.thermalShutdown_C.minimum, switcher.maximumJunction_C)
  const switch_W = l.switchConduction_W + l.switchTransition_W + l.switchCapacitive_W + l.control_W
  const caseRise_K = switch_W * switcher.junctionToCase_K_per_W
  broken =
    coolerThan(t, 'switcher.case', s.junction_C - caseRise_K, hottest_C - room_K - caseRise_K, amb) || broken
  if (broken && !all) return true
  const factor = surfaceFactor[p.cooling]
  const rectifier_W = l.rectifierConduction_W + l.rectifierSwitching_W
  const hot_C = junctionTemperature(s.inside_C, rectifier_W, p.rectifierHeat_K_per_W * factor)
  const tabRise_K = rectifier_W * rectifier.junctionToCase_K_per_W
  broken =
    coolerThan(
      t,
      'rectifier.case',
      hot_C - tabRise_K,
      rectifier.maximumJunction_C - room_K - tabRise_K,
      amb,
    ) || broken
  if (broken && !all) return true
  broken = atMost(t, 'primary.density', l.primary_Arms / a.primaryArea_m2, density_A_per_m2) || broken
  broken = atMost(t, 'secondary.density', l.secondary_Arms / a.secondaryArea_m2, density_A_per_m2) || broken
  if (broken && !all) return true
  const each_A = l.outputRipple_Arms / p.outputCount
  broken = atMost(t, 'output-capacitor.ripple-current', each_A, outputCapacitor.ripple100kHz_A) || broken
  if (broken && !all) return true
  if (outputCapacitor.technology === 'electrolytic') {
    const can_C = Math.min(300, s.inside_C + rippleHeating(each_A / outputCapacitor.ripple100kHz_A))
    const life_h = claimedLife_h(
      lifeByTenKelvin(outputCapacitor.life_h, outputCapacitor.temperature_C + 5, can_C),
    )
    broken = atLeast(t, 'output-capacitor.life', life_h, 20_000) || broken
  }
  const ripple_Vpp =
    p.choke && p.secondCapacitance_F > 0
      ? l.firstRipple_Vpp *
        Math.min(
          1,
          filterGain(
            l.chokeInductance_H,
            p.chokeResistance_ohm,
            p.secondCapacitance_F,
            p.secondResistance_ohm,
            s.valley.frequency_Hz,
          ),
        )
      : l.firstRipple_Vpp
  broken = atMost(t, 'output.ripple', ripple_Vpp, rippleTolerance[need.feeds] * need.ripple_Vpp) || broken
  return broken && !all
}

/** What the highest trim adds to the drain: what the output rises the primary sees times the ratio. */
const trimmed_V = ({ need, plant }: Around): number => plant.turnsRatio * (need.trimHigh_V - need.output_V)

/** Peak of the drain above a clamp, at the highest trim. */
const drainPeak_V = (a: Around, crest_V: number, clamp_V: number, reflected_V: number): number =>
  crest_V + Math.max(clamp_V, reflected_V) + overshoot_V + trimmed_V(a)

/** Limits on the clamp and on what it leaves for the drain, at a settled point. */
export function clampBreaks(a: Around, s: Settled, t: Tally, all: boolean): boolean {
  const { need, parts, bulk } = a
  const l = s.losses
  let broken = atMost(t, 'clamp.loss', l.clamp_W, 0.15 * need.output_V * need.output_A)
  const burnsLittle = l.clamp_W < littleClamp * need.output_V * need.output_A
  broken = atLeast(t, 'clamp.ratio', l.clamp_V / s.reflected_V, burnsLittle ? 1 : 1.3) || broken
  if (broken && !all) return true
  const drain_V = drainPeak_V(a, bulk.maximum_V, l.clamp_V, s.reflected_V)
  broken = atMost(t, 'switcher.drain-margin', drain_V, 0.9 * parts.switcher.drainVoltage_V) || broken
  broken = atMost(t, 'clamp.diode-reverse', bulk.maximum_V + l.clamp_V, parts.clampDiode.reverse_V) || broken
  return broken && !all
}

/** Limits on the charging current and the bulk capacitor. */
export function chargeBreaks(a: Around, s: Settled, t: Tally, all: boolean): boolean {
  const { need, parts, plant: p, bulk } = a
  const { bulkCapacitor: c } = parts
  let broken = false
  if (parts.fuse) broken = atMost(t, 'fuse.current', bulk.input_Arms, 0.75 * parts.fuse.rated_A)
  if (parts.ntc) broken = atMost(t, 'ntc.current', bulk.input_Arms, parts.ntc.current_A) || broken
  if (parts.commonModeChoke)
    broken =
      atMost(t, 'choke.common-mode-current', bulk.input_Arms, parts.commonModeChoke.current_A) || broken
  if (parts.bridge) {
    const hot_C = junctionTemperature(
      s.inside_C,
      bulk.bridge_W,
      p.bridgeHeat_K_per_W * surfaceFactor[p.cooling],
    )
    broken = coolerThan(t, 'bridge.junction', hot_C, parts.bridge.maximumJunction_C, need.ambient_C) || broken
  }
  if (broken && !all) return true
  const scaled_A = (s.losses.bulkSwitching_Arms * c.ripple100Hz_A) / c.ripple100kHz_A
  const allowed_A = c.ripple100Hz_A * coolAllowance(c.temperature_C, s.inside_C)
  const each_A = Math.hypot(bulk.ripple_Arms, scaled_A) / p.bulkCount
  broken = atMost(t, 'bulk.ripple-current', each_A, allowed_A) || broken
  return broken && !all
}

/**
 * Core and drain in a short, at the current that it climbs to: the leakage then meets a clamp with hardly anything
 * reflected. `fluxAt` gives the flux where the limit acts at a crest.
 */
export function shortBreaks(
  a: Around,
  crest_V: number,
  fluxAt: (crest_V: number) => number,
  t: Tally,
  all: boolean,
  drain = true,
): boolean {
  const { plant: p, parts } = a
  const L = p.inductance_H.maximum
  const f = p.frequency_Hz.typical
  const limit_A = p.currentLimit_A.maximum + (crest_V * p.limitDelay_s) / L
  const peak_A = climbedShort_A(p, crest_V, limit_A)
  const saturation_T = hotSaturationFlux(p.saturation, 0)
  let broken = atMost(t, 'core.saturation', (fluxAt(crest_V) * peak_A) / limit_A, saturation_T)
  if ((broken && !all) || !drain) return broken
  const short_A = p.turnsRatio * peak_A
  const reflected_V =
    p.turnsRatio * (p.rectifierDrop_V + short_A * (p.rectifierSlope_ohm + p.secondaryResistance20_ohm))
  const handed_A = handedAt(p, p.leakage_H.maximum, crest_V + reflected_V, peak_A) * peak_A
  const clamp_V = settledClamp_V(
    leakagePower_W(handing_H(p, p.leakage_H.maximum), handed_A, f),
    p.clampResistor_ohm,
    reflected_V,
    p.drainCapacitance_F * f,
  )
  const drain_V = drainPeak_V(a, crest_V, clamp_V, reflected_V)
  broken = atMost(t, 'switcher.drain-voltage', drain_V, parts.switcher.drainVoltage_V) || broken
  return broken && !all
}

/** Drain at the highest input and full load while a surge on the mains lifts the bulk to `surged_V`. */
export function surgeBreaks(a: Around, high: Settled, surged_V: number, t: Tally): boolean {
  if (a.need.source.kind !== 'mains') return false
  const drain_V = drainPeak_V(a, surged_V, high.losses.clamp_V, high.reflected_V)
  return atMost(t, 'switcher.mains-surge', drain_V, a.parts.switcher.drainVoltage_V)
}

/** Reverse voltage of the rectifier with its ring, at the highest input loaded and idle. */
export function ringBreaks(a: Around, high: Settled, idleCrest_V: number, t: Tally, all: boolean): boolean {
  const { parts, bulk } = a
  const peak_V = Math.max(
    ringPeak_V(a, bulk.maximum_V, high.losses.secondaryValley_A),
    ringPeak_V(a, idleCrest_V, 0),
  )
  return atMost(t, 'rectifier.reverse-margin', peak_V, parts.rectifier.reverse_V) && !all
}

/** The same idle alone. */
export const idleRingBreaks = (a: Around, idleCrest_V: number, t: Tally): boolean =>
  atMost(t, 'rectifier.reverse-margin', ringPeak_V(a, idleCrest_V, 0), a.parts.rectifier.reverse_V)

/** Ring on the rectifier at a crest, at the highest trim. */
function ringPeak_V({ need, plant: p }: Around, crest_V: number, valley_A: number): number {
  const reverse_V = p.output_V + crest_V / p.turnsRatio
  return reversePeak_V(p, reverse_V, valley_A) * (1 + (need.trimHigh_V - need.output_V) / reverse_V)
}

/** Saturation where the core runs hotter than the 100 °C it is judged at anyway; `fluxAt` gives the flux at a crest. */
export function hotCoreBreaks(
  a: Around,
  transformer_C: number,
  crest_V: number,
  fluxAt: (crest_V: number) => number,
  t: Tally,
): boolean {
  if (transformer_C <= 100) return false
  return atMost(t, 'core.saturation', fluxAt(crest_V), hotSaturationFlux(a.plant.saturation, transformer_C))
}

/** Core, drain, diodes and bias at the greatest current limit with the output still up; the ring where it is known. */
export function overloadBreaks(
  a: Around,
  o: Settled,
  fluxAt: (crest_V: number) => number,
  t: Tally,
  ringIsKnown: boolean,
): boolean {
  const crest_V = a.bulk.maximum_V
  const { clamp_V } = o.losses
  const drain_V = drainPeak_V(a, crest_V, clamp_V, o.reflected_V)
  const pierced = atMost(t, 'switcher.drain-voltage', drain_V, a.parts.switcher.drainVoltage_V)
  // A voltage that the secondary follows: it rises with the output.
  const { biasDiode, switcher, biasCapacitor } = a.parts
  const raised_V = a.need.trimHigh_V / a.need.output_V
  const bias_V = spikedBias_V(a.plant, o)
  const chip_V = (bias_V + biasDiode.drop_V) * raised_V - biasDiode.drop_V
  const overfed =
    atMost(t, 'switcher.bias-high', chip_V, switcher.biasVoltage_V.maximum) ||
    atMost(t, 'bias-capacitor.voltage', bias_V * raised_V, biasCapacitor.voltage_V)
  const reversed =
    atMost(t, 'clamp.diode-reverse', crest_V + clamp_V, a.parts.clampDiode.reverse_V) ||
    (ringIsKnown &&
      atMost(
        t,
        'rectifier.reverse-margin',
        ringPeak_V(a, crest_V, o.losses.secondaryValley_A),
        a.parts.rectifier.reverse_V,
      ))
  return hotCoreBreaks(a, o.transformer_C, crest_V, fluxAt, t) || pierced || reversed || overfed
}
