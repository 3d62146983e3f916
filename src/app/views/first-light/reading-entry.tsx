import { useId, useState } from 'react'
import type { Check } from '../../../engine/bench/index.ts'
import type { LogEntry } from '../../../engine/supply/bench-log.ts'
import { firstLightStrings } from '../../strings/first-light.ts'
import { readTyped } from './read-typed.ts'
import { record, usualInstrument } from './record.ts'
import { valueWords } from './words.ts'

const words = firstLightStrings.check
const printed: Readonly<Record<string, string>> = { ohm: 'Ω', C: '°C', fraction: '%', '1': '' }

const Typing = ({ supplyId, check, entry }: { supplyId: string; check: Check; entry: LogEntry | null }) => {
  const id = useId()
  const [text, setText] = useState('')
  const [error, setError] = useState<string | null>(null)
  const unit = check.expected?.unit ?? '1'
  const keep = () => {
    if (text.trim() === '') {
      setError(null)
      return
    }
    const typed = readTyped(text, check)
    if (!typed.ok) {
      setError(typed.message)
      return
    }
    record(supplyId, check, { value: typed.value }, entry?.instrument || usualInstrument(check))
    setText('')
    setError(null)
  }
  return (
    <form
      className="fl-typing"
      onSubmit={(event) => {
        event.preventDefault()
        keep()
      }}
    >
      <label htmlFor={id}>{entry ? words.again : words.reads(printed[unit] ?? unit)}</label>
      <input
        id={id}
        className="value"
        value={text}
        placeholder={entry ? valueWords(check, entry) : ''}
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        enterKeyHint="done"
        aria-label={words.label(check.what)}
        aria-invalid={error !== null}
        aria-describedby={error === null ? undefined : `${id}-error`}
        onChange={(event) => setText(event.target.value)}
        onBlur={keep}
      />
      <button type="submit" className="act" disabled={text.trim() === ''}>
        {words.keep}
      </button>
      {error !== null && (
        <p className="fl-error" id={`${id}-error`} role="alert">
          {error}
        </p>
      )}
    </form>
  )
}

/** Where a reading is typed in, or one of a few answers pressed. */
export const ReadingEntry = ({
  supplyId,
  check,
  entry,
}: {
  supplyId: string
  check: Check
  entry: LogEntry | null
}) => {
  if (check.state === null) return <Typing supplyId={supplyId} check={check} entry={entry} />
  return (
    <fieldset className="fl-answers">
      <legend className="unseen">{words.label(check.what)}</legend>
      {check.state.answers.map(({ id, label }) => (
        <button
          key={id}
          type="button"
          className="fl-answer"
          aria-pressed={entry !== null && (entry.note === id || entry.note === label)}
          onClick={() => record(supplyId, check, { answer: id }, entry?.instrument || usualInstrument(check))}
        >
          {label}
        </button>
      ))}
    </fieldset>
  )
}
