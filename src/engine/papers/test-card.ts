import { aidingInductance_H, opposingInductance_H } from '../converter/turns.ts'
import { formatQuantity, formatRange, type Unit } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { around, resistanceBand } from './bands.ts'
import { type Block, blank, figureCell, strong, tick, words } from './document.ts'
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
    inductance('Primary inductance', `${primary.dotted}–${primary.other}, all else open`, typical),
    {
      what: 'Leakage',
      how: `${primary.dotted}–${primary.other}, short ${secondary.dotted}–${secondary.other}${bias ? ` and ${bias.dotted}–${bias.other}` : ''} at the pins`,
      unit: 'H',
      typical: t.plannedLeakage_H.typical,
      low: t.plannedLeakage_H.minimum,
      high: t.plannedLeakage_H.maximum,
    },
    inductance(
      'Dots aiding',
      `${primary.dotted}–${secondary.other}, join ${primary.other} to ${secondary.dotted}`,
      aidingInductance_H(typical, t.turnsRatio),
    ),
    inductance(
      'Dots opposing',
      `${primary.dotted}–${secondary.dotted}, join ${primary.other} to ${secondary.other}`,
      opposingInductance_H(typical, t.turnsRatio),
    ),
    inductance(
      'Secondary inductance',
      `${secondary.dotted}–${secondary.other}, all else open`,
      typical / t.turnsRatio ** 2,
    ),
  ]
  if (bias)
    rows.push(
      inductance(
        'Bias inductance',
        `${bias.dotted}–${bias.other}, all else open`,
        typical * (t.biasTurns / t.primaryTurns) ** 2,
      ),
    )
  if (sections.filter((s) => s.winding === 'primary').length > 1)
    rows.push(
      resistance(
        'Primary resistance, whole',
        `${primary.dotted}–${primary.other}, 20 °C`,
        t.coil.primary.dcResistance_ohm,
      ),
    )
  rows.push({
    what: 'Insulation at 500 V DC',
    how: 'all primary and bias pins to all secondary pins, and each to the core',
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

/** The test card: readings of the finished transformer against their bands, with room to write. */
export function testCard(evaluation: Evaluation): Extract<Block, { kind: 'table' }> {
  return {
    kind: 'table',
    caption: 'Test card: before it is soldered in',
    columns: [
      { title: '' },
      { title: 'Reading' },
      { title: 'Meter at pins' },
      { title: 'Plan', number: true },
      { title: 'Accept', number: true },
      { title: 'Measured' },
      { title: 'Meter, frequency' },
    ],
    rows: cardRows(evaluation).map((row) => [
      tick,
      strong(row.what),
      words(row.how),
      figureCell(row.high === Number.POSITIVE_INFINITY ? '' : formatQuantity(row.typical, row.unit as Unit)),
      figureCell(bandWords(row)),
      blank(symbol[row.unit]),
      blank(''),
    ]),
  }
}
