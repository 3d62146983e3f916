import type { Supply } from '../../../engine/supply/supply.ts'
import { CheckField, FieldRow } from '../../controls/field.tsx'
import { setting, wrongWith } from '../../fields/check.ts'
import { readValue } from '../../fields/parse.ts'
import { show } from '../../fields/show.ts'
import { editSupply } from '../../state/desk.ts'
import { mainsStrings } from '../../strings/mains.ts'
import { TypedCell } from '../transformer/typed-cell.tsx'

const words = mainsStrings.barrier.asBuilt

type Length = 'boardCreepage_m' | 'boardSlot_m'

const LengthField = ({ supply, field }: { supply: Supply; field: Length }) => {
  const label = words[field]
  const value = supply.build[field] ?? null
  const put = (next: number | null): string | null => {
    const changes = setting(supply, [[['build', field], next]])
    const wrong = wrongWith(supply, changes, { label, unit: 'm' })
    if (wrong === null)
      editSupply(supply.id, {
        label: next === null ? words.cleared(label) : `${label} ${show(next, 'm')}`,
        key: `${supply.id}:build.${field}`,
        changes,
      })
    return wrong
  }
  return (
    <FieldRow label={label}>
      <TypedCell
        label={label}
        shown={value === null ? '' : show(value, 'm')}
        placeholder="–"
        commit={(text) => {
          if (text.trim() === '') return put(null)
          // A bare number means what a ruler shows.
          const read = readValue(/^[\d.,\s]+$/.test(text) ? `${text} mm` : text, 'm')
          return read === null ? words.notLength(text) : put(read)
        }}
      />
    </FieldRow>
  )
}

/** What only a ruler and a look tell of the barrier: the board, and leads that were not sleeved. */
export const BarrierMeasured = ({ supply }: { supply: Supply }) => (
  <div className="mains-measured">
    <h4>{words.title}</h4>
    <LengthField supply={supply} field="boardCreepage_m" />
    <LengthField supply={supply} field="boardSlot_m" />
    {supply.build.transformer.insulation === 'margins' && (
      <CheckField
        label={words.unsleeved}
        value={supply.build.unsleeved ?? false}
        choose={(on) =>
          editSupply(supply.id, {
            label: words.unsleeved,
            key: null,
            changes: setting(supply, [[['build', 'unsleeved'], on]]),
          })
        }
      />
    )}
  </div>
)
