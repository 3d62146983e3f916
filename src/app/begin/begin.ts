import type { Drawer, Part } from '../../engine/parts/part.ts'
import { emptyBench } from '../../engine/supply/bench-log.ts'
import type { Build, Place, Places } from '../../engine/supply/build.ts'
import type { Need } from '../../engine/supply/need.ts'
import type { Result } from '../../engine/supply/result.ts'
import { placeKind, type Supply } from '../../engine/supply/supply.ts'
import { optionalPlaces } from '../fields/parts-in-use.ts'
import { buildStrings } from '../strings/build.ts'
import { firstPicks } from './first-picks.ts'

/** Free choices all open, the barrier by triple-insulated wire where that is the secondary, else by margins. */
const openBuild = (places: Places, secondary: Part): Build => ({
  places,
  bulkCount: 1,
  outputCount: 2,
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
    splitPrimary: false,
    insulation:
      secondary.kind === 'wire' && secondary.construction === 'triple-insulated'
        ? 'triple-insulated'
        : 'margins',
    margin_m: null,
    tapeBarrier: 3,
    tapeLayer: 1,
    tapeOuter: 3,
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
})

/**
 * A supply to begin with: parts of the drawer by rules of thumb, every free choice left to the tool. Fails where
 * the drawer lacks a part that no supply can do without.
 */
export const beginSupply = (name: string, need: Need, drawer: Drawer): Result<Supply> => {
  const picks = firstPicks(need, drawer)
  const missing = (Object.keys(placeKind) as Place[]).filter(
    (p) => picks[p] === null && !optionalPlaces.has(p),
  )
  if (missing.length > 0)
    return {
      ok: false,
      problems: missing.map((p) => ({
        path: p,
        message: `${buildStrings.places[p]}: ${buildStrings.picker.nothing}`,
      })),
    }
  const places = Object.fromEntries(
    Object.entries(picks).map(([place, part]) => [place, part?.id ?? null]),
  ) as Places
  const used = new Map(Object.values(picks).flatMap((part) => (part ? [[part.id, part] as const] : [])))
  return {
    ok: true,
    value: {
      format: 'gapwright-supply',
      version: 1,
      id: 'new',
      name,
      revision: 'A',
      note: '',
      need,
      parts: [...used.values()],
      build: openBuild(places, picks.secondaryWire!),
      bench: emptyBench(),
    },
  }
}
