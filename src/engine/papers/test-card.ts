import { formatQuantity, formatRange, shownUnit } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { leastInsulation_ohm } from '../supply/transformer/insulation-band.ts'
import { type PlannedBand, plannedBands } from '../supply/transformer/planned-bands.ts'
import { windingPins } from '../supply/transformer/winding-pins.ts'
import { type Block, blank, figureCell, strong, words } from './document.ts'

/** One reading of the finished transformer. */
export interface CardRow {
  readonly what: string
  /** Where the meter goes, and what is joined or shorted. */
  readonly how: string
  readonly unit: 'H' | 'ohm' | 'A' | '1'
  readonly typical: number
  readonly low: number
  /** Infinite where only the least counts. */
  readonly high: number
}

/** Every reading of the transformer before it is soldered in, with its band. */
export function cardRows(evaluation: Evaluation): CardRow[] {
  const { transformer: t } = evaluation.design
  const { sections } = t.coil.layout
  const primary = windingPins(sections, 'primary')!
  const secondary = windingPins(sections, 'secondary')!
  const bias = windingPins(sections, 'bias')
  const planned = plannedBands(evaluation.design)
  const row = (what: string, how: string, unit: CardRow['unit'], band: PlannedBand): CardRow => ({
    what,
    how,
    unit,
    ...band,
  })
  const rows: CardRow[] = [
    row('Primary L', `${primary.dotted}–${primary.other}`, 'H', planned.inductance),
    row(
      'Leakage L',
      `${primary.dotted}–${primary.other}, short ${secondary.dotted}–${secondary.other}, bias open`,
      'H',
      planned.leakage,
    ),
    row(
      'Dots aiding',
      `${primary.dotted}–${secondary.other}, join ${primary.other} + ${secondary.dotted}`,
      'H',
      planned.aiding,
    ),
    row(
      'Dots opposing',
      `${primary.dotted}–${secondary.dotted}, join ${primary.other} + ${secondary.other}`,
      'H',
      planned.opposing,
    ),
  ]
  if (sections.filter((s) => s.winding === 'primary').length > 1)
    rows.push(row('Primary R', `${primary.dotted}–${primary.other}, whole`, 'ohm', planned.primaryResistance))
  rows.push(
    row(
      'Volts P : S',
      `${primary.dotted}–${primary.other} : ${secondary.dotted}–${secondary.other}`,
      '1',
      planned.secondaryVolts,
    ),
  )
  if (bias)
    rows.push(
      row(
        'Volts P : B',
        `${primary.dotted}–${primary.other} : ${bias.dotted}–${bias.other}`,
        '1',
        planned.biasVolts,
      ),
    )
  rows.push(row('Pulse bends', `${primary.dotted}–${primary.other}, cold`, 'A', planned.saturation))
  rows.push({
    what: 'Insulation',
    how: 'sides; each to core',
    unit: 'ohm',
    typical: leastInsulation_ohm,
    low: leastInsulation_ohm,
    high: Number.POSITIVE_INFINITY,
  })
  return rows
}

/** A band as it is printed; `over 100 MΩ` where there is no upper end. */
const bandWords = (row: CardRow): string =>
  row.high === Number.POSITIVE_INFINITY
    ? `over ${formatQuantity(row.low, row.unit)}`
    : formatRange(row.low, row.high, row.unit)

/** The test card: readings of the finished transformer against their bands, with room to write, in two columns. */
export function testCard(evaluation: Evaluation): readonly Block[] {
  const rows = cardRows(evaluation)
  // The first half has the longest row, which takes two lines.
  const half = Math.floor(rows.length / 2)
  const table = (part: readonly CardRow[]): Block => ({
    kind: 'table',
    caption: '',
    columns: [
      { title: 'Reading' },
      { title: 'At pins' },
      { title: 'Expect', number: true },
      { title: 'Measured' },
    ],
    rows: part.map((row) => [
      strong(row.what),
      words(row.how),
      figureCell(bandWords(row)),
      blank(shownUnit(row.typical, row.unit)),
    ]),
  })
  return [
    {
      kind: 'heading',
      text: 'Test card, before soldering in. Other pins open; short windings at their pins; L and volts at 10 to 100 kHz; under 1 Ω with four leads; insulation at 500 V DC, then discharge.',
    },
    { kind: 'columns', columns: [[table(rows.slice(0, half))], [table(rows.slice(half))]] },
    { kind: 'blanks', labels: ['L meter', 'at, kHz', 'R meter', 'room, °C', 'tested by'] },
  ]
}
