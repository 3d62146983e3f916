import { aidingInductance_H, opposingInductance_H } from '../converter/turns.ts'
import { formatQuantity, formatRange } from '../quantity/index.ts'
import type { AsBuiltField, Measured } from '../supply/bench-log.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { around, resistanceBand } from './bands.ts'
import { type Block, blank, figureCell, strong, words } from './document.ts'

/** One value of the finished build: planned with its band, and measured where it was. */
export interface AsBuiltRow {
  readonly field: AsBuiltField
  readonly what: string
  readonly unit: 'H' | 'ohm' | 'F'
  readonly planned: number
  readonly low: number
  readonly high: number
  readonly measured: Measured | null
  /** Measured, and within the band. */
  readonly agrees: boolean
}

/** Planned against measured, for every value that the bench can put in the place of a planned one. */
export function asBuiltRows(evaluation: Evaluation): AsBuiltRow[] {
  const { transformer: t, parts, supply } = evaluation.design
  const { asBuilt } = supply.bench
  const { typical, minimum, maximum } = t.plannedInductance_H
  const row = (
    field: AsBuiltField,
    what: string,
    unit: AsBuiltRow['unit'],
    planned: number,
    [low, high]: readonly [number, number],
  ): AsBuiltRow => {
    const measured = asBuilt[field]
    const agrees = measured !== null && measured.value >= low && measured.value <= high
    return { field, what, unit, planned, low, high, measured, agrees }
  }
  const inductance = (field: AsBuiltField, what: string, share: number) =>
    row(field, what, 'H', typical * share, [minimum * share, maximum * share])
  const resistance = (field: AsBuiltField, what: string, planned: number) =>
    row(field, what, 'ohm', planned, around(planned, resistanceBand))
  const bulk = parts.bulkCapacitor
  const bulk_F = bulk.capacitance_F * supply.build.bulkCount
  return [
    inductance('primaryInductance_H', 'Primary inductance', 1),
    row('leakage_H', 'Leakage, secondary shorted', 'H', t.plannedLeakage_H.typical, [
      t.plannedLeakage_H.minimum,
      t.plannedLeakage_H.maximum,
    ]),
    inductance('secondaryInductance_H', 'Secondary inductance', (t.secondaryTurns / t.primaryTurns) ** 2),
    inductance('biasInductance_H', 'Bias inductance', (t.biasTurns / t.primaryTurns) ** 2),
    inductance('aidingInductance_H', 'In series, dots aiding', aidingInductance_H(1, t.turnsRatio)),
    inductance('opposingInductance_H', 'In series, dots opposing', opposingInductance_H(1, t.turnsRatio)),
    resistance('primaryResistance_ohm', 'Primary resistance, 20 °C', t.coil.primary.dcResistance_ohm),
    resistance('secondaryResistance_ohm', 'Secondary resistance, 20 °C', t.coil.secondary.dcResistance_ohm),
    resistance('biasResistance_ohm', 'Bias resistance, 20 °C', t.coil.bias.dcResistance_ohm),
    row('bulkCapacitance_F', 'Bulk capacitance', 'F', bulk_F, [
      bulk_F * (1 - bulk.toleranceDown),
      bulk_F * (1 + bulk.toleranceUp),
    ]),
  ]
}

/** Where and with what a value was read. */
const readWith = ({ instrument, frequency_Hz, accuracy }: Measured): string =>
  [
    instrument || 'instrument not named',
    frequency_Hz === null ? '' : formatQuantity(frequency_Hz, 'Hz'),
    accuracy === null ? '' : `± ${Number((accuracy * 100).toPrecision(2))} %`,
  ]
    .filter(Boolean)
    .join(', ')

/** Planned and measured side by side, never mixed. */
export const asBuiltTable = (evaluation: Evaluation): Block => ({
  kind: 'table',
  caption: 'Planned, and as built',
  columns: [
    { title: 'Value' },
    { title: 'Planned', number: true },
    { title: 'Band', number: true },
    { title: 'Measured', number: true },
    { title: '' },
    { title: 'Read with' },
  ],
  rows: asBuiltRows(evaluation).map((row) => [
    words(row.what),
    figureCell(formatQuantity(row.planned, row.unit)),
    figureCell(formatRange(row.low, row.high, row.unit)),
    row.measured ? figureCell(formatQuantity(row.measured.value, row.unit, 4)) : blank(''),
    row.measured === null ? words('') : row.agrees ? words('agrees') : strong('OUTSIDE'),
    words(row.measured ? readWith(row.measured) : ''),
  ]),
})
