import { formatQuantity, formatRange } from '../quantity/index.ts'
import type { AsBuiltField, InsulationReading, Measured } from '../supply/bench-log.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { dryInsulation_ohm, leastInsulation_ohm } from '../supply/transformer/insulation-band.ts'
import { type PlannedBand, plannedBands } from '../supply/transformer/planned-bands.ts'
import { type Block, blank, figureCell, strong, words } from './document.ts'

/** One value of the finished build: planned with its band, and measured where it was. */
export interface AsBuiltRow {
  readonly field: AsBuiltField
  readonly what: string
  readonly unit: 'H' | 'ohm' | 'F' | 'A' | '1'
  readonly planned: number
  readonly low: number
  /** Infinite where only the least counts. */
  readonly high: number
  readonly measured: Measured | InsulationReading | null
  /** Measured, and within the band. */
  readonly agrees: boolean
}

/** Planned against measured, for every value that the bench can put in the place of a planned one. */
export function asBuiltRows(evaluation: Evaluation): AsBuiltRow[] {
  const { parts, supply } = evaluation.design
  const { asBuilt } = supply.bench
  const row = (
    field: AsBuiltField,
    what: string,
    unit: AsBuiltRow['unit'],
    planned: number,
    [low, high]: readonly [number, number],
  ): AsBuiltRow => {
    const measured = asBuilt[field] ?? null
    const agrees = measured !== null && measured.value >= low && measured.value <= high
    return { field, what, unit, planned, low, high, measured, agrees }
  }
  const bands = plannedBands(evaluation.design)
  const banded = (field: AsBuiltField, what: string, unit: AsBuiltRow['unit'], band: PlannedBand) =>
    row(field, what, unit, band.typical, [band.low, band.high])
  const bulk = parts.bulkCapacitor
  const bulk_F = bulk.capacitance_F * supply.build.bulkCount
  return [
    banded('primaryInductance_H', 'Primary inductance', 'H', bands.inductance),
    banded('leakage_H', 'Leakage, secondary shorted, bias open', 'H', bands.leakage),
    banded('secondaryInductance_H', 'Secondary inductance', 'H', bands.secondary),
    banded('biasInductance_H', 'Bias inductance', 'H', bands.bias),
    banded('aidingInductance_H', 'In series, dots aiding', 'H', bands.aiding),
    banded('opposingInductance_H', 'In series, dots opposing', 'H', bands.opposing),
    banded('primaryResistance_ohm', 'Primary resistance, 20 °C', 'ohm', bands.primaryResistance),
    banded('secondaryResistance_ohm', 'Secondary resistance, 20 °C', 'ohm', bands.secondaryResistance),
    banded('biasResistance_ohm', 'Bias resistance, 20 °C', 'ohm', bands.biasResistance),
    banded('saturationCurrent_A', 'Bend of a pulse, core cold', 'A', bands.saturation),
    banded('secondaryVoltsRatio', 'Primary over secondary volts', '1', bands.secondaryVolts),
    banded('biasVoltsRatio', 'Primary over bias volts', '1', bands.biasVolts),
    row('insulation_ohm', 'Primary, bias and core to secondary', 'ohm', dryInsulation_ohm, [
      leastInsulation_ohm,
      Number.POSITIVE_INFINITY,
    ]),
    row('bulkCapacitance_F', 'Bulk capacitance', 'F', bulk_F, [
      bulk_F * (1 - bulk.toleranceDown),
      bulk_F * (1 + bulk.toleranceUp),
    ]),
  ]
}

/** Where and with what a value was read. */
const readWith = (measured: Measured | InsulationReading): string => {
  const { instrument, frequency_Hz, accuracy } = measured
  const test_V = 'test_V' in measured ? measured.test_V : null
  return [
    instrument || 'instrument not named',
    test_V === null ? '' : `${formatQuantity(test_V, 'V')} dc`,
    frequency_Hz === null ? '' : formatQuantity(frequency_Hz, 'Hz'),
    accuracy === null ? '' : `± ${Number((accuracy * 100).toPrecision(2))} %`,
  ]
    .filter(Boolean)
    .join(', ')
}

/** A band as it is printed; `over 100 MΩ` where there is no upper end. */
export const bandWords = ({ low, high, unit }: Pick<AsBuiltRow, 'low' | 'high' | 'unit'>): string =>
  high === Number.POSITIVE_INFINITY ? `over ${formatQuantity(low, unit)}` : formatRange(low, high, unit)

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
    figureCell(bandWords(row)),
    row.measured ? figureCell(formatQuantity(row.measured.value, row.unit, 4)) : blank(''),
    row.measured === null ? words('') : row.agrees ? words('agrees') : strong('OUTSIDE'),
    words(row.measured ? readWith(row.measured) : ''),
  ]),
})
