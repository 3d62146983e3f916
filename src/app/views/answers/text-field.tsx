import { useId } from 'react'

/** A field of a question; what is wrong is said under it as it is typed. */
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
  return (
    <div className="form-field" data-state={error ? 'wrong' : undefined}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        className="value"
        autoComplete="off"
        placeholder={placeholder}
        value={value}
        aria-invalid={error !== undefined}
        aria-describedby={error ? `${id}-error` : undefined}
        onFocus={(event) => event.target.select()}
        onChange={(event) => type(event.target.value)}
      />
      <p className="form-error" id={`${id}-error`} role="status">
        {error}
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
