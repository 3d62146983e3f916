import { aidingInductance_H, opposingInductance_H } from '../../converter/turns.ts'
import { conductorSize_m, copperSkinDepth_m } from '../../magnetics/wire/index.ts'
import { inrush } from '../../mains/inrush.ts'
import { touchCurrent } from '../../mains/touch-current.ts'
import type { Design } from '../design.ts'
import type { FixedReadings } from '../reading.ts'
import { dividedOutput_V } from '../resolve/feedback.ts'

/** Line and contact resistance that an inrush always meets; common practice, no source. */
const lineResistance_ohm = 0.4

/** Readings that are the same at every condition. */
export function fixedReadings(d: Design): FixedReadings {
  const { need, parts, transformer: t } = d
  const { layout } = t.coil
  const f = parts.switcher.frequency_Hz.typical
  const skin_m = copperSkinDepth_m(f, 100)
  const layersOf = (winding: string): number => {
    let layers = 0
    for (const s of layout.sections) if (s.winding === winding) layers += s.layers
    return layers
  }
  const legs = d.core.geometry.outerToPostRatio
  const trimmer_ohm = parts.trimmer?.resistance_ohm ?? 0
  const { dividerTop_ohm: top, dividerBottom_ohm: bottom } = d.feedback
  const ref_V = parts.reference.voltage_V.typical
  const output = (extra_ohm: number): number =>
    dividedOutput_V(ref_V, top, bottom + extra_ohm, parts.reference.inputCurrent_A)
  const set_V = output(trimmer_ohm / 2)
  const mains = need.source.kind === 'mains'
  const highest_V = need.source.kind === 'mains' ? need.source.maximum_Vrms : need.source.maximum_V
  const crest_V = (mains ? highest_V * Math.SQRT2 : highest_V) - 2 * (parts.bridge?.drop_V ?? 0)
  const surge = inrush({
    crest_V,
    capacitance_F: d.bulkCapacitance_F.maximum,
    fixedResistance_ohm:
      lineResistance_ohm +
      (parts.fuse?.resistance_ohm ?? 0) +
      (parts.commonModeChoke?.resistance_ohm ?? 0) +
      2 * (parts.bridge?.slope_ohm ?? 0) +
      parts.bulkCapacitor.resistance_ohm / d.supply.build.bulkCount,
    thermistor: parts.ntc,
    thermistor_C: need.ambient_C,
  })
  const frequency_Hz = need.source.kind === 'mains' ? need.source.frequency_Hz : 0
  return {
    primaryLayers: layersOf('primary'),
    secondaryLayers: layersOf('secondary'),
    biasLayers: layersOf('bias'),
    buildHeight_m: layout.build_m,
    windowHeight_m: layout.windowHeight_m,
    windowFill: layout.fill,
    windingWidth_m: layout.availableWidth_m,
    skinDepth_m: skin_m,
    primaryWireSkin: conductorSize_m(parts.primaryWire) / skin_m,
    secondaryWireSkin: conductorSize_m(parts.secondaryWire) / skin_m,
    primaryAcFactor: 1 + t.coil.excess.primary_ohm[0]! / (t.coil.primary.dcResistance_ohm * 1.275),
    secondaryAcFactor: 1 + t.coil.excess.secondary_ohm[0]! / (t.coil.secondary.dcResistance_ohm * 1.275),
    leakage_H: t.leakage_H.typical,
    leakageRatio: t.leakage_H.typical / t.primaryInductance_H.typical,
    gapTotal_m: t.gapPlace === 'post' ? t.gap_m : t.gap_m * (1 + 1 / legs),
    aimedGap_m: t.aimedGap_m,
    aiding_H: aidingInductance_H(t.primaryInductance_H.typical, t.turnsRatio),
    opposing_H: opposingInductance_H(t.primaryInductance_H.typical, t.turnsRatio),
    outputSet_V: set_V,
    outputLow_V: output(trimmer_ohm),
    outputHigh_V: output(0),
    feedbackOn_V: 0.99 * set_V,
    feedbackFull_V: 1.01 * set_V,
    inrush_Apeak: surge.peak_A,
    inrush_A2s: surge.squareIntegral_A2s,
    xDischarge_s: parts.xCapacitor && d.bleed_ohm > 0 ? parts.xCapacitor.capacitance_F * d.bleed_ohm : 0,
    touchCurrent_Arms:
      parts.yCapacitor && mains ? touchCurrent(parts.yCapacitor.capacitance_F, highest_V, frequency_Hz) : 0,
    startInput_V: parts.switcher.minimumStartVoltage_V / (mains ? Math.SQRT2 : 1),
  }
}
