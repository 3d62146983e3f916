import { useId, useState } from 'react'
import type { FieldColumn } from '../../../engine/parts/csv-columns.ts'
import type { Part } from '../../../engine/parts/part.ts'
import { Dialog } from '../../controls/dialog.tsx'
import { fieldLabel, fieldText, fieldUnit, formColumns, readForm } from '../../fields/part-form.ts'
import { controlStrings } from '../../strings/controls.ts'
import { drawerStrings as words } from '../../strings/drawer.ts'

const Cell = ({
  column,
  text,
  error,
  change,
}: {
  column: FieldColumn
  text: string
  error: string | undefined
  change: (text: string) => void
}) => {
  const id = useId()
  const { cell } = column
  const shared = {
    id,
    value: text,
    'aria-invalid': error !== undefined,
    'aria-describedby': error === undefined ? undefined : `${id}-error`,
  }
  const options =
    cell.form === 'choice' ? cell.values.map(String) : cell.form === 'flag' ? [words.yes, words.no] : null
  const long =
    cell.form === 'points' || cell.form === 'list' || column.path === 'note' || column.path === 'source'
  return (
    <div
      className="form-field"
      data-state={error === undefined ? undefined : 'wrong'}
      data-long={long || undefined}
    >
      <label htmlFor={id}>
        {fieldLabel(column.path)}{' '}
        <small>
          {cell.form === 'spread' ? `${fieldUnit(column)} ${words.spreadHint}` : fieldUnit(column)}
        </small>
      </label>
      {options ? (
        <select {...shared} className="choice" onChange={(event) => change(event.target.value)}>
          {column.optional && <option value="" />}
          {options.map((o) => (
            <option key={o}>{o}</option>
          ))}
        </select>
      ) : long ? (
        <textarea
          {...shared}
          className="value"
          rows={cell.form === 'points' ? 4 : 2}
          onChange={(event) => change(event.target.value)}
        />
      ) : (
        <input
          {...shared}
          className="value"
          autoComplete="off"
          onChange={(event) => change(event.target.value)}
        />
      )}
      <p className="form-error" id={`${id}-error`}>
        {error}
      </p>
    </div>
  )
}

/** All figures of one part; nothing is kept until every field is right. */
export const PartSheet = ({
  part,
  keep,
  close,
}: {
  part: Part
  keep: (part: Part) => void
  close: () => void
}) => {
  const columns = formColumns(part.kind)
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries(columns.map((column) => [column.path, fieldText(part, column)])),
  )
  const [errors, setErrors] = useState<Readonly<Record<string, string>>>({})
  return (
    <Dialog title={words.form(part.name)} close={close} wide>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault()
          const read = readForm(part.kind, part.id, texts)
          if (read.ok) keep(read.part)
          else setErrors(read.errors)
        }}
      >
        <div className="form-fields">
          {columns.map((column) => (
            <Cell
              key={column.path}
              column={column}
              text={texts[column.path] ?? ''}
              error={errors[column.path]}
              change={(text) => setTexts({ ...texts, [column.path]: text })}
            />
          ))}
        </div>
        <p className="picker-lead">{words.inUse}</p>
        <div className="form-end">
          <button type="submit" className="act">
            {words.keep}
          </button>
          <button type="button" className="plain" onClick={close}>
            {controlStrings.cancel}
          </button>
        </div>
      </form>
    </Dialog>
  )
}
