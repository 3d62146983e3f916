import type { Design } from '../../../engine/supply/design.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import type { Explanation } from '../../controls/explain.tsx'
import { ValueField } from '../../controls/field.tsx'
import { setting, wrongWith } from '../../fields/check.ts'
import { readRange, readValue, type TypedRange } from '../../fields/parse.ts'
import { show, showRange } from '../../fields/show.ts'
import { editSupply, settleSupply } from '../../state/desk.ts'
import { type Change, type Path, valueAt } from '../../state/edits.ts'
import { buildStrings } from '../../strings/build.ts'

export const fieldKey = (supply: Supply, path: Path): string => `${supply.id}:${path.join('.')}`

/** Carries changes out when nothing is wrong with them, else says what is. */
const tryChanges = (
  supply: Supply,
  changes: readonly Change[],
  named: { readonly label: string; readonly unit: string },
  shown: string,
  key: string | null,
): string | null => {
  const wrong = wrongWith(supply, changes, named)
  if (wrong === null) editSupply(supply.id, { label: `${named.label} ${shown}`, key, changes })
  return wrong
}

/** A number of the supply. Where `chosen` is given, an empty field means that the tool chooses. */
export const NumberOf = ({
  supply,
  design,
  path,
  label,
  unit,
  whole = false,
  chosen,
  changes,
  help,
  spot,
}: {
  supply: Supply
  design: Design | null
  path: Path
  label: string
  unit: string
  whole?: boolean
  chosen?: ((design: Design) => number) | undefined
  /** Changes that a new value makes; just the value itself when absent. */
  changes?: (value: number) => Change[]
  help?: Explanation | undefined
  spot?: string | undefined
}) => {
  const value = valueAt(supply, path) as number | null
  const key = fieldKey(supply, path)
  const named = { label, unit }
  const put = (next: number | null, shown: string) =>
    tryChanges(
      supply,
      next !== null && changes ? changes(next) : setting(supply, [[path, next]]),
      named,
      shown,
      key,
    )
  const suggestion = chosen && design ? chosen(design) : null
  return (
    <ValueField
      draftKey={key}
      label={label}
      shown={value === null ? null : show(value, unit, 4)}
      chosen={suggestion === null ? undefined : show(suggestion, unit, 4)}
      help={help}
      spot={spot}
      inputMode={whole ? 'numeric' : 'text'}
      settle={() => settleSupply(supply.id)}
      commit={(text) => {
        const parsed = readValue(text, unit)
        if (parsed === null) return buildStrings.notNumber(label, text, unit)
        return put(parsed, show(parsed, unit, 4))
      }}
      free={chosen ? () => void put(null, buildStrings.stackChosen) : undefined}
      fix={
        chosen && suggestion !== null
          ? () => void put(whole ? suggestion : Number(suggestion.toPrecision(4)), show(suggestion, unit, 4))
          : undefined
      }
      step={
        whole && (value !== null || suggestion !== null)
          ? (by) => void put((value ?? suggestion!) + by, show((value ?? suggestion!) + by, unit, 4))
          : undefined
      }
    />
  )
}

/** Two values typed as one range: `85-265 V`, `230 V ±10 %`, or one value, which `read` takes for both or widens. */
export const RangeOf = ({
  supply,
  path,
  label,
  unit,
  low,
  high,
  shown = showRange(low, high, unit),
  read = (text) => readRange(text, unit),
  changes,
  help,
  spot,
  wrong,
}: {
  supply: Supply
  path: Path
  label: string
  unit: string
  low: number
  high: number
  shown?: string
  read?: (text: string) => TypedRange | null
  changes: (range: TypedRange) => Change[]
  help?: Explanation | undefined
  spot?: string | undefined
  wrong: (text: string) => string
}) => {
  const key = fieldKey(supply, path)
  return (
    <ValueField
      draftKey={key}
      label={label}
      shown={shown}
      help={help}
      spot={spot}
      settle={() => settleSupply(supply.id)}
      commit={(text) => {
        const range = read(text)
        if (range === null) return wrong(text)
        return tryChanges(
          supply,
          changes(range),
          { label, unit },
          showRange(range.low, range.high, unit),
          key,
        )
      }}
    />
  )
}
