import { type KeyboardEvent, type ReactNode, useId, useState } from 'react'
import { drafts, setDraft } from '../state/drafts.ts'
import { useStore } from '../state/store.ts'
import { controlStrings } from '../strings/controls.ts'
import { Explain, type Explanation } from './explain.tsx'
import { Icon } from './icon.tsx'

/** The frame of every field: name, help, the control, and a place for its state that never moves the rest. */
export const FieldRow = ({
  label,
  htmlFor,
  help,
  spot,
  state,
  aside,
  error,
  errorId,
  children,
}: {
  label: string
  htmlFor?: string
  help?: Explanation | undefined
  spot?: string | undefined
  state?: 'fixed' | 'chosen' | 'wrong' | undefined
  aside?: ReactNode
  error?: string | null
  errorId?: string
  children: ReactNode
}) => {
  const [open, setOpen] = useState(false)
  const helpId = useId()
  return (
    <div className="field" data-state={state} data-spot={spot}>
      <div className="field-name">
        {htmlFor ? <label htmlFor={htmlFor}>{label}</label> : <span>{label}</span>}
        {help && (
          <button
            type="button"
            className="why"
            aria-expanded={open}
            aria-controls={helpId}
            aria-label={controlStrings.about(label)}
            onClick={() => setOpen(!open)}
          >
            ?
          </button>
        )}
      </div>
      <div className="field-control">{children}</div>
      {aside && <div className="field-aside">{aside}</div>}
      <p className="field-error" id={errorId} role="status">
        {error}
      </p>
      {help && open && <Explain of={help} id={helpId} />}
    </div>
  )
}

/**
 * A text field that turns what is typed into a value as it is typed. `commit` carries a value out and returns null,
 * or returns the sentence that says what is wrong; then the text stays, the last good value stays in use, and
 * nothing moves. `shown` is how the present value reads; `chosen` is what stands there when the tool chooses.
 */
export const ValueField = ({
  draftKey,
  label,
  shown,
  chosen,
  commit,
  free,
  fix,
  settle,
  step,
  help,
  spot,
  hint,
  inputMode = 'text',
}: {
  draftKey: string
  label: string
  /** Null while the tool chooses. */
  shown: string | null
  chosen?: string | undefined
  commit: (text: string) => string | null
  /** Gives the choice back to the tool; absent where a value is always needed. */
  free?: (() => void) | undefined
  /** Fixes what the tool has chosen. */
  fix?: (() => void) | undefined
  settle: () => void
  /** Arrow keys: one up or down. */
  step?: ((by: 1 | -1) => void) | undefined
  help?: Explanation | undefined
  spot?: string | undefined
  hint?: string | undefined
  inputMode?: 'text' | 'numeric'
}) => {
  const id = useId()
  const draft = useStore(drafts, (all) => all[draftKey]) ?? null
  const isFree = shown === null
  const error = draft?.error ?? null
  const text = draft?.text ?? shown ?? ''

  const type = (next: string) => {
    if (next.trim() === '' && free) {
      free()
      setDraft(draftKey, { text: next, error: null })
    } else setDraft(draftKey, { text: next, error: commit(next) })
  }
  const leave = () => {
    if (draft && draft.error === null) setDraft(draftKey, null)
    settle()
  }
  const press = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Enter') {
      leave()
      event.currentTarget.select()
    } else if (event.key === 'Escape' && draft) {
      setDraft(draftKey, null)
      event.stopPropagation()
    } else if (step && (event.key === 'ArrowUp' || event.key === 'ArrowDown')) {
      event.preventDefault()
      setDraft(draftKey, null)
      step(event.key === 'ArrowUp' ? 1 : -1)
    }
  }

  const state = error !== null ? 'wrong' : free ? (isFree ? 'chosen' : 'fixed') : undefined
  return (
    <FieldRow
      label={label}
      htmlFor={id}
      help={help}
      spot={spot}
      state={state}
      error={error}
      errorId={`${id}-error`}
      aside={
        free && fix ? (
          <button
            type="button"
            className="pin"
            aria-pressed={!isFree}
            aria-label={isFree ? controlStrings.fix(label) : controlStrings.free(label)}
            title={isFree ? controlStrings.fix(label) : controlStrings.free(label)}
            onClick={() => {
              setDraft(draftKey, null)
              if (isFree) fix()
              else free()
              settle()
            }}
          >
            <Icon name={isFree ? 'free' : 'pin'} />
            {isFree ? controlStrings.chosen : controlStrings.fixed}
          </button>
        ) : (
          hint && <span className="hint">{hint}</span>
        )
      }
    >
      <input
        id={id}
        className="value"
        value={text}
        placeholder={chosen}
        inputMode={inputMode}
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        aria-invalid={error !== null}
        aria-describedby={error === null ? undefined : `${id}-error`}
        onChange={(event) => type(event.target.value)}
        onFocus={(event) => event.target.select()}
        onBlur={leave}
        onKeyDown={press}
      />
    </FieldRow>
  )
}

/** One of a few, side by side where they are short, else in a list. */
export const ChoiceField = <T extends string | number>({
  label,
  value,
  options,
  choose,
  help,
  spot,
  wide = false,
}: {
  label: string
  value: T
  options: readonly { readonly value: T; readonly label: string }[]
  choose: (value: T) => void
  help?: Explanation | undefined
  spot?: string | undefined
  wide?: boolean
}) => {
  const id = useId()
  return (
    <FieldRow label={label} htmlFor={id} help={help} spot={spot}>
      <select
        id={id}
        className="choice"
        data-wide={wide || undefined}
        value={String(value)}
        onChange={(event) => {
          const option = options.find((o) => String(o.value) === event.target.value)
          if (option) choose(option.value)
        }}
      >
        {options.map((option) => (
          <option key={String(option.value)} value={String(option.value)}>
            {option.label}
          </option>
        ))}
      </select>
    </FieldRow>
  )
}

export const CheckField = ({
  label,
  value,
  choose,
  help,
  spot,
}: {
  label: string
  value: boolean
  choose: (value: boolean) => void
  help?: Explanation | undefined
  spot?: string | undefined
}) => {
  const id = useId()
  return (
    <FieldRow label={label} htmlFor={id} help={help} spot={spot}>
      <input
        id={id}
        type="checkbox"
        className="checkbox"
        checked={value}
        onChange={(event) => choose(event.target.checked)}
      />
    </FieldRow>
  )
}
