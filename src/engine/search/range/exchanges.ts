import { formatQuantity } from '../../quantity/index.ts'
import type { Places } from '../../supply/build.ts'
import type { Design } from '../../supply/design.ts'
import { piecesAt } from '../../supply/pieces.ts'
import type { Spot } from '../../supply/refs.ts'

/** One thing of a built supply that is another afterwards. */
export interface Exchange {
  readonly spot: Spot
  /** What was there, for people; null where nothing was. */
  readonly from: string | null
  /** What comes; null where nothing does. */
  readonly to: string | null
}

type Text = string | null

const ohms = (value: number): Text => (value > 0 ? formatQuantity(value, 'ohm') : null)
const farads = (value: number): Text => (value > 0 ? formatQuantity(value, 'F') : null)
const turns = (count: number, inHand: number): string =>
  `${count} ${count === 1 ? 'turn' : 'turns'}, ${inHand} in hand`

/** What stands in each place of the build, with how many and, of a choke, its turns. */
const places: readonly (readonly [Spot, (d: Design) => Text])[] = (
  [
    ...['switcher', 'core', 'material', 'former', 'primaryWire', 'secondaryWire', 'biasWire', 'tape'],
    ...['spacerFilm', 'rectifier', 'clampDiode', 'clampAvalanche', 'biasDiode', 'bridge', 'ntc', 'fuse'],
    ...['varistor', 'xCapacitor', 'commonModeChoke', 'yCapacitor', 'bulkCapacitor', 'outputCapacitor'],
    ...['choke', 'chokeWire', 'secondCapacitor', 'biasCapacitor', 'optocoupler', 'reference', 'trimmer'],
    ...['indicator', 'switcherHeatsink', 'switcherPad', 'rectifierHeatsink', 'rectifierPad'],
  ] as (keyof Places)[]
).map((place) => [place, (d) => partText(d, place)])

function partText({ parts, supply: { build }, chokeTurns, chokeInHand }: Design, place: keyof Places): Text {
  const part = parts[place]
  if (part === null) return null
  if (place === 'chokeWire') return `${part.name}: ${turns(chokeTurns, chokeInHand)}`
  const count = piecesAt(build, place)
  return count === 1 ? part.name : `${count} of ${part.name}`
}

/** Windings and values that follow from the design, in the order in which the current meets them. */
const values: readonly (readonly [Spot, (d: Design) => Text])[] = [
  ['primary', ({ transformer: t }) => turns(t.primaryTurns, t.primaryInHand)],
  ['secondary', ({ transformer: t }) => turns(t.secondaryTurns, t.secondaryInHand)],
  ['bias', ({ transformer: t }) => turns(t.biasTurns, t.biasInHand)],
  ['clampResistor', ({ clamp }) => (clamp.style === 'avalanche' ? null : ohms(clamp.resistor_ohm))],
  ['clampCapacitor', ({ clamp }) => (clamp.style === 'avalanche' ? null : farads(clamp.capacitor_F))],
  ['snubberResistor', ({ supply }) => ohms(supply.build.snubber?.resistor_ohm ?? 0)],
  ['snubberCapacitor', ({ supply }) => farads(supply.build.snubber?.capacitor_F ?? 0)],
  ['bleed', ({ bleed_ohm }) => ohms(bleed_ohm)],
  ['dividerTop', ({ feedback }) => ohms(feedback.dividerTop_ohm)],
  ['dividerBottom', ({ feedback }) => ohms(feedback.dividerBottom_ohm)],
  ['ledResistor', ({ feedback }) => ohms(feedback.ledResistor_ohm)],
  ['biasResistor', ({ feedback }) => ohms(feedback.biasResistor_ohm)],
  ['compensationResistor', ({ feedback }) => ohms(feedback.compensationResistor_ohm)],
  ['compensationCapacitor', ({ feedback }) => farads(feedback.compensationCapacitor_F)],
  ['highFrequencyCapacitor', ({ feedback }) => farads(feedback.highFrequencyCapacitor_F)],
  ['softFinishCapacitor', ({ feedback }) => farads(feedback.softFinishCapacitor_F)],
  ['indicatorResistor', ({ indicatorResistor_ohm }) => ohms(indicatorResistor_ohm)],
]

/** Everything that one design has otherwise than another: parts, turns, and every resistor and capacitor, old and new. */
export const exchanges = (before: Design, after: Design): Exchange[] =>
  [...places, ...values].flatMap(([spot, read]) => {
    const [from, to] = [read(before), read(after)]
    return from === to ? [] : [{ spot, from, to }]
  })
