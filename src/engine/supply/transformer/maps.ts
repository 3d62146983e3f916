import { type FieldMap, fieldMap, type StackField } from '../../magnetics/field/index.ts'
import type { WindingName } from '../build.ts'
import type { WindingCurrents } from './currents.ts'

/** Moments of the cycle whose field is worth a look. */
export const moments = ['on', 'off', 'leakage'] as const
export type Moment = (typeof moments)[number]

/** Winding currents at a moment, in the order of the windings. */
function momentCurrents_A(
  moment: Moment,
  currents: WindingCurrents,
  windings: readonly string[],
  turns: readonly number[],
): number[] {
  const peak = (winding: WindingName): number => Math.max(...currents.waves[winding].current_A)
  const primary_A = peak('primary')
  const ratio = (turns[windings.indexOf('primary')] ?? 1) / (turns[windings.indexOf('secondary')] ?? 1)
  return windings.map((winding) => {
    if (moment === 'on') return winding === 'primary' ? primary_A : 0
    if (moment === 'off') return winding === 'primary' ? 0 : peak(winding as WindingName)
    return winding === 'primary' ? primary_A : winding === 'secondary' ? -ratio * primary_A : 0
  })
}

/**
 * Flux density over the window at each moment: end of the on-time (the primary alone), start of the secondary's
 * conduction, and the leakage field, primary and secondary with equal and opposite ampere-turns.
 */
export function momentMaps(
  field: StackField,
  currents: WindingCurrents,
  columns: number,
  rows: number,
): Record<Moment, FieldMap> {
  const { windings } = field.layout
  const { turns } = field.sections[0]!.section.model
  const map = (moment: Moment): FieldMap =>
    fieldMap(field, momentCurrents_A(moment, currents, windings, turns), columns, rows)
  return { on: map('on'), off: map('off'), leakage: map('leakage') }
}
