import { aidingInductance_H, opposingInductance_H } from '../converter/turns.ts'
import { formatQuantity, formatRange } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { around, resistanceBand } from './bands.ts'
import { type Block, blank, figureCell, strong, words } from './document.ts'
import { windingPins } from './pins.ts'

/** Least insulation resistance between the sides at 500 V DC. Common practice, no source. */
const leastInsulation_ohm = 100e6

/** One reading of the finished transformer. */
export interface CardRow {
  readonly what: string
  /** Where the meter goes, and what is joined or shorted. */
  readonly how: string
  readonly unit: 'H' | 'ohm'
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
  const { typical, minimum, maximum } = t.plannedInductance_H
  const inductance = (what: string, how: string, value: number): CardRow => ({
    what,
    how,
    unit: 'H',
    typical: value,
    low: (value / typical) * minimum,
    high: (value / typical) * maximum,
  })
  const resistance = (what: string, how: string, value: number): CardRow => {
    const [low, high] = around(value, resistanceBand)
    return { what, how, unit: 'ohm', typical: value, low, high }
  }
  const rows: CardRow[] = [
    inductance('Primary L', `${primary.dotted}–${primary.other}`, typical),
    {
      what: 'Leakage L',
      how: `${primary.dotted}–${primary.other}, short ${secondary.dotted}–${secondary.other}, bias open`,
      unit: 'H',
      typical: t.plannedLeakage_H.typical,
      low: t.plannedLeakage_H.minimum,
      high: t.plannedLeakage_H.maximum,
    },
    inductance(
      'Dots aiding',
      `${primary.dotted}–${secondary.other}, join ${primary.other} + ${secondary.dotted}`,
      aidingInductance_H(typical, t.turnsRatio),
    ),
    inductance(
      'Dots opposing',
      `${primary.dotted}–${secondary.dotted}, join ${primary.other} + ${secondary.other}`,
      opposingInductance_H(typical, t.turnsRatio),
    ),
    inductance('Secondary L', `${secondary.dotted}–${secondary.other}`, typical / t.turnsRatio ** 2),
  ]
  if (bias)
    rows.push(
      inductance('Bias L', `${bias.dotted}–${bias.other}`, typical * (t.biasTurns / t.primaryTurns) ** 2),
    )
  if (sections.filter((s) => s.winding === 'primary').length > 1)
    rows.push(
      resistance('Primary R', `${primary.dotted}–${primary.other}, whole`, t.coil.primary.dcResistance_ohm),
    )
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

const symbol: Record<CardRow['unit'], string> = { H: 'H', ohm: 'Ω' }

/** The test card: readings of the finished transformer against their bands, with room to write, in two columns. */
export function testCard(evaluation: Evaluation): readonly Block[] {
  const rows = cardRows(evaluation)
  const half = Math.ceil(rows.length / 2)
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
      blank(symbol[row.unit]),
    ]),
  })
  return [
    {
      kind: 'heading',
      text: 'Test card, before soldering in. Pins not named stay open; short windings at their pins; insulation at 500 V DC.',
    },
    { kind: 'columns', columns: [[table(rows.slice(0, half))], [table(rows.slice(half))]] },
    { kind: 'blanks', labels: ['L meter', 'at, kHz', 'R meter', 'room, °C', 'tested by'] },
  ]
}
