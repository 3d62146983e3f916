import { ringingResponse } from '../../converter/ringing.ts'
import { junctionToAmbient } from '../../heat/index.ts'
import { ledCurrentFor, typicalRatio } from '../../loop/index.ts'
import { coreReluctance, rootFluxRatio } from '../../magnetics/gap/index.ts'
import { copperResistanceRatio } from '../../magnetics/wire/index.ts'
import type { Design } from '../design.ts'
import { pinCurrents } from '../resolve/feedback.ts'
import { leakageDamping_ohm } from '../resolve/leakage-damping.ts'
import { leastJunction_F, risesOf } from '../resolve/rise-path.ts'
import { can_H, handoverLeakage_H, leadsAtPrimary_H, starWithTrack } from '../resolve/secondary-path.ts'
import { bulkSource } from './bulk-source.ts'
import type { Plant } from './plant.ts'

/**
 * Outside of the case that a supply of this power is put in, m²: 0.02 m² at 25 W (about 100 by 60 by 35 mm), growing
 * with power to two thirds. Common practice, no source; only closed and vented cases use it.
 */
const caseSurface_m2 = (output_W: number): number => Math.max(0.012, 0.02 * (output_W / 25) ** (2 / 3))

/** What a plant takes from the shape of its core alone. */
export const corePlant = (g: Design['core']['geometry']) => ({
  area_m2: g.effective.area_m2,
  minimumArea_m2: g.effective.minimumArea_m2,
  postArea_m2: g.post.area_m2,
  coreVolume_m3: g.effective.volume_m3,
  transformerSurface_m2: g.surface_m2,
})

/** Boils a design down to what its operation needs. */
export function plantOf(d: Design): Plant {
  const { need, parts, transformer: t, core, ferrite } = d
  const { switcher, rectifier, optocoupler, bridge } = parts
  const g = core.geometry
  const pin = pinCurrents(switcher.control)
  const pinMean_A = (pin.full_A + pin.zero_A) / 2
  const led_A = ledCurrentFor(typicalRatio(optocoupler), pinMean_A)
  const cathode_A = led_A + optocoupler.ledDrop_V / d.feedback.biasResistor_ohm
  const divider_A = need.output_V / (d.feedback.dividerTop_ohm + d.feedback.dividerBottom_ohm)
  const indicator_A =
    parts.indicator && d.indicatorResistor_ohm > 0
      ? Math.max(0, need.output_V - parts.indicator.drop_V) / d.indicatorResistor_ohm
      : 0
  const avalanche = parts.clampAvalanche
  const snubber = d.supply.build.snubber
  const model = core.gap[t.gapPlace]
  const square = t.turnsRatio ** 2
  const leakage_H = handoverLeakage_H(t.leakage_H, t.turnsRatio)
  const capacitorLeads_H = leadsAtPrimary_H(t.turnsRatio, d.supply.build.outputCount)
  const secondaryLoop_H = leakage_H.typical / square + can_H / d.supply.build.outputCount
  const drainCapacitance_F = switcher.outputCapacitance_F + t.coil.drainCapacitance_F
  const warm = copperResistanceRatio(20, 80)
  const damping_ohm = leakageDamping_ohm(
    d,
    switcher.frequency_Hz.typical,
    leakage_H.typical,
    drainCapacitance_F,
  )
  const core_per_H = coreReluctance(g.effective.C1_per_m, parts.material.initialPermeability.typical)
  return {
    source: {
      minimum: bulkSource(need, 'minimum'),
      nominal: bulkSource(need, 'nominal'),
      maximum: bulkSource(need, 'maximum'),
    },
    ambient_C: need.ambient_C,
    cooling: need.cooling,
    caseSurface_m2: caseSurface_m2(need.output_V * need.output_A),

    bulk_F: d.bulkCapacitance_F,
    bulkCount: d.supply.build.bulkCount,
    bulkResistance_ohm: parts.bulkCapacitor.resistance_ohm,
    bridgeDrop_V: bridge?.drop_V ?? 0,
    bridgeSlope_ohm: bridge?.slope_ohm ?? 0,
    bridgeHeat_K_per_W: bridge?.junctionToAmbient_K_per_W ?? 0,
    thermistor: parts.ntc,
    fixedInputResistance_ohm:
      (parts.fuse?.resistance_ohm ?? 0) + (parts.commonModeChoke?.resistance_ohm ?? 0),
    bleed_ohm: d.bleed_ohm > 0 ? d.bleed_ohm : null,

    frequency_Hz: switcher.frequency_Hz,
    minimumOnTime_s: Math.max(1e-8, switcher.minimumOnTime_s),
    maximumDuty: switcher.maximumDuty,
    currentLimit_A: switcher.currentLimit_A,
    limitDelay_s: switcher.currentLimitDelay_s,
    slope_A_per_s: switcher.control.style === 'peak-current' ? switcher.control.slope_A_per_s : 0,
    skipsWhenShorted: switcher.skipsPulsesWhenShorted === true,
    onResistance25_ohm: switcher.onResistance25_ohm,
    onResistance100_ohm: switcher.onResistance100_ohm,
    drainCapacitance_F,
    rise: risesOf(leakage_H, capacitorLeads_H, drainCapacitance_F, rectifier, snubber, t.turnsRatio),
    leakageQuality: damping_ohm / Math.sqrt(leakage_H.typical / drainCapacitance_F),
    switchHeat_K_per_W: junctionToAmbient({
      junctionToCase_K_per_W: switcher.junctionToCase_K_per_W,
      junctionToAmbient_K_per_W: switcher.junctionToAmbient_K_per_W,
      heatsink: parts.switcherHeatsink,
      pad: parts.switcherPad,
    }),
    restartShare: switcher.restartTry_s / (switcher.restartTry_s + switcher.restartPause_s),
    chipSupply_A:
      switcher.control.style === 'voltage-mode'
        ? Math.max(switcher.supplyCurrent_A, pinMean_A)
        : switcher.supplyCurrent_A,

    primaryTurns: t.primaryTurns,
    turnsRatio: t.turnsRatio,
    inductance_H: t.primaryInductance_H,
    leakage_H,
    capacitorLeads_H,
    ...corePlant(g),
    rootFlux: rootFluxRatio(model, core_per_H, t.gap_m),
    coreLoss: ferrite.loss,
    saturation: ferrite.curve,
    primaryResistance20_ohm: t.primaryResistance20_ohm,
    secondaryResistance20_ohm: t.secondaryResistance20_ohm,
    biasResistance20_ohm: t.biasResistance20_ohm,
    excess: t.coil.excess,

    clampStyle: d.clamp.style,
    clampResistor_ohm: d.clamp.resistor_ohm,
    clampCapacitor_F: d.clamp.capacitor_F,
    clampDiodeDrop_V: parts.clampDiode.drop_V,
    avalanche_V: avalanche?.breakdown_V ?? { minimum: 0, typical: 0, maximum: 0 },
    avalancheSlope_ohm: avalanche
      ? Math.max(0, avalanche.clampVoltage_V - avalanche.breakdown_V.maximum) / avalanche.clampCurrent_A
      : 0,
    avalancheHeat_K_per_W: avalanche?.junctionToAmbient_K_per_W ?? 0,

    output_V: need.output_V,
    output_A: need.output_A,
    rectifierDrop_V: rectifier.drop_V,
    rectifierSlope_ohm: rectifier.slope_ohm,
    rectifierRecovery_s: rectifier.recovery_s,
    rectifierCapacitance_F: rectifier.junctionCapacitance_F,
    rectifierHeat_K_per_W: junctionToAmbient({
      junctionToCase_K_per_W: rectifier.junctionToCase_K_per_W,
      junctionToAmbient_K_per_W: rectifier.junctionToAmbient_K_per_W,
      heatsink: parts.rectifierHeatsink,
      pad: parts.rectifierPad,
    }),
    snubber_F: snubber?.capacitor_F ?? 0,
    secondaryLoop_H,
    ringing: ringingResponse({
      leakage_H: secondaryLoop_H,
      damping_ohm: damping_ohm / square,
      series_ohm:
        warm * (t.secondaryResistance20_ohm + t.primaryResistance20_ohm / square) +
        switcher.onResistance25_ohm / square,
      junction_F: Math.max(leastJunction_F, rectifier.junctionCapacitance_F),
      snubber,
    }),
    rectifierLifetime_s: rectifier.technology === 'schottky' ? 0 : rectifier.recovery_s,
    outputCapacitance_F: parts.outputCapacitor.capacitance_F * d.supply.build.outputCount,
    outputResistance_ohm: parts.outputCapacitor.resistance_ohm / d.supply.build.outputCount,
    outputCount: d.supply.build.outputCount,
    choke: d.choke,
    chokeResistance_ohm: d.choke ? d.choke.resistance20_ohm * copperResistanceRatio(20, 70) : 0,
    secondCapacitance_F: (parts.secondCapacitor?.capacitance_F ?? 0) * d.supply.build.secondCount,
    secondResistance_ohm: (parts.secondCapacitor?.resistance_ohm ?? 0) / d.supply.build.secondCount,
    standing_W: need.output_V * (divider_A + cathode_A + indicator_A),

    bias_V: d.biasVoltage_V,
    biasDrop_V: parts.biasDiode.drop_V,
    biasCapacitance_F: parts.biasCapacitor.capacitance_F,
    biasPrimaryRatio: t.biasTurns / t.primaryTurns,
    leakageStar: starWithTrack(t.coil.star, t.leakage_H.typical, t.turnsRatio),
  }
}
