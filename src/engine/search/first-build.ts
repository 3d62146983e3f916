import type { Drawer } from '../parts/part.ts'
import type { Build, Places } from '../supply/build.ts'
import type { Need } from '../supply/need.ts'

/** A build that leaves every free choice to the tool. */
export function firstBuild(need: Need, drawer: Drawer, places: Places): Build {
  const find = (id: string | null) => drawer.entries.find(({ part }) => part.id === id)?.part
  const capacitor = find(places.outputCapacitor)
  const ripple_A = capacitor?.kind === 'capacitor' ? capacitor.ripple100kHz_A : 1
  const bulk = find(places.bulkCapacitor)
  const secondary = find(places.secondaryWire)
  const insulated = secondary?.kind === 'wire' && secondary.construction === 'triple-insulated'
  const power_W = need.output_V * need.output_A
  const low = need.source.kind === 'mains' ? need.source.minimum_Vrms < 180 : false
  const wanted_F = (low ? 2.4e-6 : 1e-6) * power_W
  const each_F = bulk?.kind === 'capacitor' ? bulk.capacitance_F : wanted_F
  return {
    places,
    bulkCount: Math.max(1, Math.min(10, Math.round(wanted_F / each_F))),
    outputCount: Math.max(1, Math.min(20, Math.ceil((1.35 * need.output_A) / ripple_A))),
    secondCount: 1,
    transformer: {
      reflectedVoltage_V: null,
      rippleRatio: null,
      primaryTurns: null,
      secondaryTurns: null,
      biasTurns: null,
      biasVoltage_V: null,
      gapPlace: 'post',
      gap_m: null,
      primaryInHand: null,
      secondaryInHand: null,
      biasInHand: null,
      splitPrimary: power_W >= 40,
      insulation: insulated ? 'triple-insulated' : 'margins',
      margin_m: null,
      tapeBarrier: need.insulation === 'reinforced' ? 3 : 2,
      tapeLayer: 1,
      tapeOuter: 2,
      stack: null,
    },
    clamp: { style: 'resistor-capacitor', voltage_V: null, resistor_ohm: null, capacitor_F: null },
    snubber: null,
    chokeTurns: null,
    chokeInHand: null,
    bleed_ohm: null,
    indicatorResistor_ohm: null,
    feedback: {
      dividerTop_ohm: null,
      dividerBottom_ohm: null,
      ledResistor_ohm: null,
      biasResistor_ohm: null,
      compensationResistor_ohm: null,
      compensationCapacitor_F: null,
      highFrequencyCapacitor_F: null,
      softFinishCapacitor_F: null,
      senseAfterChoke: false,
      ledFeedAfterChoke: false,
    },
  }
}
