import { unitOfField } from '../../../engine/quantity/index.ts'
import {
  type AsBuilt,
  type AsBuiltField,
  asBuilt as asBuiltSchema,
  type InsulationReading,
  type Measured,
} from '../../../engine/supply/bench-log.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { insulationTest_V } from '../../../engine/supply/transformer/insulation-band.ts'
import { setting } from '../../fields/check.ts'
import { readValue } from '../../fields/parse.ts'
import { show } from '../../fields/show.ts'
import { editSupply } from '../../state/desk.ts'
import { transformerStrings } from '../../strings/transformer.ts'

const words = transformerStrings.bench

/** Readings by the instrument that takes them. */
const groups = [
  [
    'primaryInductance_H',
    'leakage_H',
    'secondaryInductance_H',
    'biasInductance_H',
    'aidingInductance_H',
    'opposingInductance_H',
  ],
  ['primaryResistance_ohm', 'secondaryResistance_ohm', 'biasResistance_ohm'],
  ['secondaryVoltsRatio', 'biasVoltsRatio'],
  ['saturationCurrent_A'],
  ['insulation_ohm'],
] as const
export type SheetField = (typeof groups)[number][number]

/** Readings of the sheet, in its order. */
export const sheetFields: readonly SheetField[] = groups.flat()

export const isSheetField = (field: AsBuiltField): field is SheetField =>
  (sheetFields as readonly string[]).includes(field)

export const unitOf = (field: AsBuiltField): string => unitOfField(field)

/** Whether the frequency of a reading belongs to it. */
export const hasFrequency = (field: AsBuiltField): boolean => ['H', '1'].includes(unitOf(field))

/** What a reading is taken with; the test voltage belongs to insulation alone. */
export type Meter = Omit<InsulationReading, 'value'>

const usualMeter = (field: SheetField): Meter => {
  const none = { frequency_Hz: null, test_V: null }
  if (field === 'insulation_ohm')
    return { ...none, instrument: 'insulation tester', accuracy: 0.1, test_V: insulationTest_V }
  if (field === 'saturationCurrent_A') return { ...none, instrument: 'pulse tester', accuracy: 0.1 }
  if (hasFrequency(field))
    return unitOf(field) === 'H'
      ? { ...none, instrument: 'LCR meter', frequency_Hz: 10e3, accuracy: 0.02 }
      : { ...none, instrument: 'generator and oscilloscope', frequency_Hz: 10e3, accuracy: 0.02 }
  return { ...none, instrument: 'four-wire ohmmeter', accuracy: 0.02 }
}

/** The meter that a kept reading was taken with. */
export const meterOf = (measured: Measured | InsulationReading): Meter => ({
  instrument: measured.instrument,
  frequency_Hz: measured.frequency_Hz,
  accuracy: measured.accuracy,
  test_V: 'test_V' in measured ? measured.test_V : null,
})

/** The meter of another reading of the same kind, or the usual one. */
export const meterFor = (supply: Supply, field: SheetField): Meter => {
  const peers: readonly SheetField[] = groups.find((g) => (g as readonly SheetField[]).includes(field)) ?? []
  for (const peer of peers) {
    const known = supply.bench.asBuilt[peer]
    if (known) return meterOf(known)
  }
  return usualMeter(field)
}

/** A value with its meter, as the field keeps it. */
export const readingWith = (
  field: AsBuiltField,
  value: number,
  { test_V, ...meter }: Meter,
): NonNullable<AsBuilt[AsBuiltField]> =>
  field === 'insulation_ohm' ? { value, ...meter, test_V } : { value, ...meter }

/**
 * What was typed for a reading, in SI units, or null. A volts ratio may be typed as its two voltages, `5 V / 0.63 V`;
 * insulation that is off the scale of the tester as `> 2 GΩ`, and counts as that.
 */
export const readTyped = (field: SheetField, text: string): number | null => {
  if (field === 'insulation_ohm') return readValue(text.replace(/^\s*[>≥]/, ''), 'Ω')
  if (unitOf(field) !== '1') return readValue(text, unitOf(field))
  const [primary, other, ...more] = text.split(/[/:÷]/)
  if (other === undefined) return readValue(text, '1')
  const [primary_V, other_V] = [readValue(primary ?? '', 'V'), readValue(other, 'V')]
  return more.length > 0 || primary_V === null || !other_V ? null : primary_V / other_V
}

/** What is wrong with a reading: the value or the test voltage, with its limit where it is over one. */
const wrongWords = (
  field: SheetField,
  measured: Measured | InsulationReading | null,
  issue:
    | { readonly code?: string | undefined; readonly path: readonly PropertyKey[]; maximum?: unknown }
    | undefined,
): string => {
  const isTest = issue?.path[0] === 'test_V' && measured !== null && 'test_V' in measured
  const label = isTest ? words.testVolts : words.fields[field]
  const unit = isTest ? 'V' : unitOf(field)
  const value = isTest ? measured.test_V : measured?.value
  const text = typeof value === 'number' ? show(value, unit, 4) : String(value)
  return issue?.code === 'too_big'
    ? words.over(label, text, show(Number(issue.maximum), unit))
    : words.outOfRange(label, text)
}

/** Keeps a reading, or drops it where it is null; says what is wrong with it, or null. */
export const keepAsBuilt = (
  supply: Supply,
  field: SheetField,
  measured: NonNullable<AsBuilt[SheetField]> | null,
): string | null => {
  const checked = asBuiltSchema.shape[field].safeParse(measured)
  const label = words.fields[field]
  if (!checked.success) return wrongWords(field, measured, checked.error.issues[0])
  editSupply(supply.id, {
    label:
      measured === null ? words.cleared(label) : words.kept(label, show(measured.value, unitOf(field), 4)),
    key: `${supply.id}:asBuilt.${field}`,
    changes: setting(supply, [[['bench', 'asBuilt', field], measured]]),
  })
  return null
}
