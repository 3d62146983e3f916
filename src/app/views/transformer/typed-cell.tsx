import { useId, useState } from 'react'

/** A field inside a table or a row: what is typed counts when it is a value; else it stays, with the reason beside it. */
export const TypedCell = ({
  label,
  shown,
  placeholder = '',
  commit,
  onFocus,
}: {
  label: string
  shown: string
  placeholder?: string
  /** Carries a text out and returns null, or returns what is wrong with it. */
  commit: (text: string) => string | null
  onFocus?: () => void
}) => {
  const id = useId()
  const [draft, setDraft] = useState<{ readonly text: string; readonly error: string | null } | null>(null)
  const leave = () => {
    if (draft?.error === null) setDraft(null)
  }
  return (
    <span className="typed-cell" data-state={draft?.error ? 'wrong' : undefined}>
      <input
        className="value"
        aria-label={label}
        aria-invalid={Boolean(draft?.error)}
        aria-describedby={draft?.error ? id : undefined}
        value={draft?.text ?? shown}
        placeholder={placeholder}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => setDraft({ text: event.target.value, error: commit(event.target.value) })}
        onFocus={(event) => {
          event.target.select()
          onFocus?.()
        }}
        onBlur={leave}
        onKeyDown={(event) => {
          if (event.key === 'Enter') leave()
          if (event.key === 'Escape' && draft) {
            event.stopPropagation()
            setDraft(null)
          }
        }}
      />
      {draft?.error && (
        <span className="typed-error" id={id} role="alert">
          {draft.error}
        </span>
      )}
    </span>
  )
}
