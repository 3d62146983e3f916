import { readValue } from '../../fields/parse.ts'
import { show } from '../../fields/show.ts'
import { transformerStrings } from '../../strings/transformer.ts'
import { TypedCell } from './typed-cell.tsx'

const words = transformerStrings.own

/** A number that was measured, with its name beside it; a bare length is in millimetres, a bare share in percent. */
export const Numbered = ({
  label,
  value,
  unit,
  whole = false,
  change,
  onFocus,
}: {
  label: string
  value: number | null
  unit: string
  whole?: boolean
  change: (value: number | null) => void
  onFocus?: () => void
}) => (
  <div className="own-field">
    <span aria-hidden="true">{label}</span>
    <TypedCell
      label={label}
      shown={value === null ? '' : show(value, unit, 4)}
      placeholder="–"
      {...(onFocus && { onFocus })}
      commit={(text) => {
        if (text.trim() === '') {
          change(null)
          return null
        }
        // A bare number means what a calliper shows.
        const bare = unit === 'm' && /^[\d.,\s]+$/.test(text) ? `${text} mm` : text
        const read = readValue(unit === '%' && /^[\d.,\s]+$/.test(text) ? `${text} %` : bare, unit)
        if (read === null || !(read > 0) || (whole && !Number.isInteger(read)))
          return words.notNumber(label, text)
        change(read)
        return null
      }}
    />
  </div>
)
