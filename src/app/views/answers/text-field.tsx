import { useId, useState } from 'react'

/** A field of a question; its complaint waits while it is typed in. */
export const TextField = ({
  label,
  value,
  error,
  placeholder,
  type,
}: {
  label: string
  value: string
  error?: string | undefined
  placeholder?: string | undefined
  type: (text: string) => void
}) => {
  const id = useId()
  const [here, setHere] = useState(false)
  const told = here ? undefined : error
  return (
    <div className="form-field" data-state={told ? 'wrong' : undefined}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        className="value"
        autoComplete="off"
        placeholder={placeholder}
        value={value}
        aria-invalid={told !== undefined}
        aria-describedby={told ? `${id}-error` : undefined}
        onFocus={(event) => {
          setHere(true)
          event.target.select()
        }}
        onChange={(event) => type(event.target.value)}
        onBlur={() => setHere(false)}
      />
      <p className="form-error" id={`${id}-error`}>
        {told}
      </p>
    </div>
  )
}

/** A choice among few. */
export const ChoiceField = <T extends string>({
  label,
  value,
  options,
  choose,
}: {
  label: string
  value: T
  options: readonly (readonly [value: T, text: string])[]
  choose: (value: T) => void
}) => {
  const id = useId()
  return (
    <div className="form-field">
      <label htmlFor={id}>{label}</label>
      <select id={id} className="choice" value={value} onChange={(event) => choose(event.target.value as T)}>
        {options.map(([key, text]) => (
          <option key={key} value={key}>
            {text}
          </option>
        ))}
      </select>
    </div>
  )
}
