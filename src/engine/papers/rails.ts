import { formatQuantity, formatRange } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { trimOf } from '../supply/loop/index.ts'
import { type Block, figureCell, words } from './document.ts'

/** One rail of the supply: whether it is regulated, how far it may lie, and what loads it without a load. */
export interface Rail {
  readonly name: string
  readonly regulated: boolean
  readonly least_V: number
  readonly greatest_V: number
  readonly preload: string
}

/** Whether pulses are left out without load: the output then needs none to stay in regulation. */
const skips = ({ conditions }: Evaluation): boolean =>
  conditions.some((c) => c.runs && c.condition.load === 0 && c.mode === 'skip')

/**
 * The rails: the output, which the loop holds, and the bias rail, which follows it by turns and gains from the leakage
 * spike with load; least and greatest over all steady inputs and loads.
 */
export function railsOf(evaluation: Evaluation): readonly [output: Rail, bias: Rail] {
  const { design, conditions } = evaluation
  const { worst } = trimOf(design)
  const { switcher } = design.parts
  const bias_V = conditions.flatMap((c) =>
    c.runs && c.condition.kind === 'steady' ? [c.readings.bias_V] : [],
  )
  const [least_V, greatest_V] = [Math.min(...bias_V), Math.max(...bias_V)]
  const own = `the chip takes ${formatQuantity(switcher.supplyCurrent_A, 'A', 2)}`
  return [
    {
      name: 'Output',
      regulated: true,
      least_V: worst.minimum,
      greatest_V: worst.maximum,
      preload: skips(evaluation) ? 'none asked: pulses are skipped without load' : 'none asked',
    },
    {
      name: 'Bias',
      regulated: false,
      least_V,
      greatest_V,
      preload:
        greatest_V > switcher.biasVoltage_V.maximum
          ? `${own}: not enough; a resistor in series with D3, or a preload on C5`
          : own,
    },
  ]
}

/** The rails as a table. */
export const railTable = (evaluation: Evaluation): Block => ({
  kind: 'table',
  caption: 'Rails',
  columns: [
    { title: 'Rail' },
    { title: 'Held by' },
    { title: 'Least to greatest', number: true },
    { title: 'Preload' },
  ],
  rows: railsOf(evaluation).map((rail) => [
    words(rail.name),
    words(rail.regulated ? 'the loop: U3 and U2' : 'turns alone: follows the output, higher with load'),
    figureCell(
      Number.isFinite(rail.least_V) ? formatRange(rail.least_V, rail.greatest_V, 'V') : 'does not run',
    ),
    words(rail.preload),
  ]),
})
