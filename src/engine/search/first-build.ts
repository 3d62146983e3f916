import type { Drawer } from '../parts/part.ts'
import type { Build } from '../supply/build.ts'
import type { Need } from '../supply/need.ts'
import { openTransformer } from '../supply/open-transformer.ts'
import type { FirstParts } from './first-places.ts'

/** A build that leaves every free choice to the tool. */
export function firstBuild(need: Need, drawer: Drawer, first: FirstParts): Build {
  const { places } = first
  const secondary = drawer.entries.find(({ part }) => part.id === places.secondaryWire)?.part
  const insulated = secondary?.kind === 'wire' && secondary.construction === 'triple-insulated'
  const power_W = need.output_V * need.output_A
  return {
    places,
    bulkCount: first.bulkCount,
    outputCount: first.outputCount,
    secondCount: 1,
    transformer: {
      ...openTransformer,
      splitPrimary: power_W >= 40,
      insulation: insulated ? 'triple-insulated' : 'margins',
      tapeBarrier: need.insulation === 'reinforced' ? 3 : 2,
    },
    clamp: { style: 'resistor-capacitor', voltage_V: null, resistor_ohm: null, capacitor_F: null },
    snubber: null,
    chokeTurns: null,
    chokeInHand: null,
    bleed_ohm: null,
    indicatorResistor_ohm: null,
    feedback: {
      dividerTop_ohm: first.dividerTop_ohm,
      dividerBottom_ohm: first.dividerBottom_ohm,
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
