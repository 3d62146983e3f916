import { asBuilt as asBuiltSchema, type Measured } from '../../../engine/supply/bench-log.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { setting } from '../../fields/check.ts'
import { show } from '../../fields/show.ts'
import { editSupply } from '../../state/desk.ts'
import { transformerStrings } from '../../strings/transformer.ts'

const words = transformerStrings.bench

export const inductances = [
  'primaryInductance_H',
  'leakage_H',
  'secondaryInductance_H',
  'biasInductance_H',
  'aidingInductance_H',
  'opposingInductance_H',
] as const
export const resistances = ['primaryResistance_ohm', 'secondaryResistance_ohm', 'biasResistance_ohm'] as const
export type SheetField = (typeof inductances)[number] | (typeof resistances)[number]

export const unitOf = (field: SheetField): 'H' | 'Ω' => (field.endsWith('_H') ? 'H' : 'Ω')

/** What a reading is taken with, unless the sheet says otherwise. */
export type Meter = Omit<Measured, 'value'>
const usualMeter: Readonly<Record<'H' | 'Ω', Meter>> = {
  H: { instrument: 'LCR meter', frequency_Hz: 10e3, accuracy: 0.02 },
  Ω: { instrument: 'four-wire ohmmeter', frequency_Hz: null, accuracy: 0.02 },
}

/** The meter of another reading of the same kind, or the usual one. */
export const meterFor = (supply: Supply, field: SheetField): Meter => {
  const { asBuilt } = supply.bench
  const peers = unitOf(field) === 'H' ? inductances : resistances
  for (const peer of peers) {
    const known = asBuilt[peer]
    if (known)
      return { instrument: known.instrument, frequency_Hz: known.frequency_Hz, accuracy: known.accuracy }
  }
  return usualMeter[unitOf(field)]
}

/** Keeps a reading, or drops it where it is null; says what is wrong with it, or null. */
export const keepAsBuilt = (supply: Supply, field: SheetField, measured: Measured | null): string | null => {
  const checked = asBuiltSchema.shape[field].safeParse(measured)
  const label = words.fields[field]
  if (!checked.success) return words.outOfRange(label, String(measured?.value))
  editSupply(supply.id, {
    label:
      measured === null ? words.cleared(label) : words.kept(label, show(measured.value, unitOf(field), 4)),
    key: `${supply.id}:asBuilt.${field}`,
    changes: setting(supply, [[['bench', 'asBuilt', field], measured]]),
  })
  return null
}
