import type { Limit } from '../../engine/limits/limit.ts'
import { inputWords } from '../../engine/papers/heading.ts'
import { testPoints } from '../../engine/papers/test-points.ts'
import { formatQuantity } from '../../engine/quantity/index.ts'
import type { Evaluation } from '../../engine/supply/evaluation.ts'
import { pinGroups } from '../../engine/supply/pin-sharing.ts'
import { windingPins } from '../../engine/supply/transformer/winding-pins.ts'
import type { SchematicItem, SchematicModel, Spot } from '../schematic/model.ts'
import { schematicModel } from './schematic-model.ts'

/** Pins of one end in a few letters: `3`, `16–14` for neighbours, else `16+13`. */
function shortPins(pins: readonly number[]): string {
  const [first, last] = [pins[0]!, pins.at(-1)!]
  if (pins.length === 1) return String(first)
  const inRow = pins.every((pin, i) => Math.abs(pin - first) === i)
  return inRow ? `${first}–${last}` : pins.join('+')
}

/** Pins of every winding, upper end first: the primary stands with its dotted end below. */
function transformerPins({ design }: Evaluation): NonNullable<SchematicModel['pins']> {
  const { sections } = design.transformer.coil.layout
  const groups = pinGroups(design)
  const ends = (winding: string): readonly [string, string] => {
    const pins = windingPins(sections, winding)
    const words = (pin: number) => shortPins(groups.get(pin) ?? [pin])
    return pins ? [words(pins.dotted), words(pins.other)] : ['', '']
  }
  const [drain, bulk] = ends('primary')
  return { primary: [bulk, drain], secondary: ends('secondary'), bias: ends('bias') }
}

/** The schematic as it is printed: values and ratings, probing points and title block; no readings of parts. */
export function printedSchematic(evaluation: Evaluation, limits: readonly Limit[]): SchematicModel {
  const live = schematicModel(evaluation, limits)
  const { supply, need, parts } = evaluation.design
  const items: Partial<Record<Spot, SchematicItem>> = {}
  for (const [spot, { reference, value }] of Object.entries(live.items) as [Spot, SchematicItem][])
    items[spot] = { reference, value }
  return {
    ...live,
    items,
    testPoints,
    pins: transformerPins(evaluation),
    titleBlock: [
      ['Supply', supply.name],
      ['Revision', supply.revision],
      ['Input', inputWords(evaluation)],
      ['Output', `${formatQuantity(need.output_V, 'V')}  ${formatQuantity(need.output_A, 'A')}`],
      [
        'Barrier',
        `dashed; only ${parts.yCapacitor ? 'T1, U2 and C12' : 'T1 and U2'} cross it. Dots: ends that swing together; numbers: pins of T1.`,
      ],
    ],
  }
}
