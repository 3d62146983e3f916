import { useId, useState } from 'react'
import type { Need } from '../../../engine/supply/need.ts'
import { need as needSchema } from '../../../engine/supply/need.ts'
import { nominalIn } from '../../fields/check.ts'
import { readMains, readRange, readValue } from '../../fields/parse.ts'
import { createStore, useStore } from '../../state/store.ts'
import { answersStrings } from '../../strings/answers.ts'
import { buildStrings } from '../../strings/build.ts'
import { needStrings } from '../../strings/need.ts'

const words = answersStrings.need

/** What has been typed; kept while the page is open, so that coming back finds it. */
export interface TypedNeed {
  readonly input: string
  readonly output: string
  readonly current: string
  readonly trim: string
  readonly ripple: string
  readonly ambient: string
  readonly feeds: Need['feeds']
  readonly cooling: Need['cooling']
  readonly insulation: Need['insulation']
}
type Text = 'input' | 'output' | 'current' | 'trim' | 'ripple' | 'ambient'

export const typedNeed = createStore<TypedNeed>({
  input: '195–265 V',
  output: '12 V',
  current: '2 A',
  trim: '',
  ripple: '',
  ambient: '40 °C',
  feeds: 'electronics',
  cooling: 'case-vented',
  insulation: 'reinforced',
})

type Wrong = Partial<Record<Text, string>>

/** The need that was typed, or what is wrong with it by field. */
export function needTyped(t: TypedNeed): Need | Wrong {
  const wrong: Wrong = {}
  const range = readMains(t.input)
  const output_V = readValue(t.output, 'V')
  const output_A = readValue(t.current, 'A')
  const trim = t.trim.trim() === '' ? null : readRange(t.trim, 'V')
  const ripple_Vpp = t.ripple.trim() === '' ? null : readValue(t.ripple, 'V')
  const ambient_C = readValue(t.ambient, '°C')
  if (range === null) wrong.input = needStrings.needsRange(words.input, t.input)
  if (output_V === null) wrong.output = buildStrings.notNumber(words.output, t.output, 'V')
  if (output_A === null) wrong.current = buildStrings.notNumber(words.current, t.current, 'A')
  if (t.trim.trim() !== '' && trim === null) wrong.trim = needStrings.needsRange(words.trim, t.trim)
  if (t.ripple.trim() !== '' && ripple_Vpp === null)
    wrong.ripple = buildStrings.notNumber(words.ripple, t.ripple, 'V')
  if (ambient_C === null) wrong.ambient = buildStrings.notNumber(words.ambient, t.ambient, '°C')
  if (range === null || output_V === null || output_A === null || ambient_C === null) return wrong
  if (Object.keys(wrong).length > 0) return wrong
  const parsed = needSchema.safeParse({
    source: {
      kind: 'mains',
      minimum_Vrms: range.low,
      nominal_Vrms: nominalIn(range.low, range.high, 230),
      maximum_Vrms: range.high,
      frequency_Hz: range.low < 100 && range.high < 140 ? 60 : 50,
    },
    output_V,
    trimLow_V: trim?.low ?? output_V,
    trimHigh_V: trim?.high ?? output_V,
    output_A,
    ripple_Vpp: ripple_Vpp ?? Number((output_V * 0.01).toPrecision(2)),
    holdUp_s: 0,
    ambient_C,
    cooling: t.cooling,
    feeds: t.feeds,
    insulation: t.insulation,
    pollutionDegree: 2,
    altitude_m: 2000,
  } satisfies Need)
  if (parsed.success) return parsed.data
  for (const { path, message } of parsed.error.issues) {
    const at: Text =
      path[0] === 'source'
        ? 'input'
        : path[0] === 'output_A'
          ? 'current'
          : path[0] === 'trimLow_V' || path[0] === 'trimHigh_V'
            ? 'trim'
            : path[0] === 'ripple_Vpp'
              ? 'ripple'
              : path[0] === 'ambient_C'
                ? 'ambient'
                : 'output'
    wrong[at] ??= message
  }
  return wrong
}

const Choice = <T extends string>({
  label,
  value,
  options,
  choose,
}: {
  label: string
  value: T
  options: Readonly<Record<T, string>>
  choose: (value: T) => void
}) => {
  const id = useId()
  return (
    <div className="form-field">
      <label htmlFor={id}>{label}</label>
      <select id={id} className="choice" value={value} onChange={(event) => choose(event.target.value as T)}>
        {(Object.entries(options) as [T, string][]).map(([key, text]) => (
          <option key={key} value={key}>
            {text}
          </option>
        ))}
      </select>
    </div>
  )
}

/** The few fields of a need, and the rest of it folded away. */
export const NeedForm = () => {
  const id = useId()
  const typed = useStore(typedNeed, (t) => t)
  const [left, setLeft] = useState<ReadonlySet<Text>>(new Set())
  const read = needTyped(typed)
  const wrong: Wrong = 'source' in read ? {} : read
  const set = (change: Partial<TypedNeed>) => typedNeed.set((t) => ({ ...t, ...change }))
  const field = (key: Text, label: string, placeholder?: string) => {
    // While a field is typed in its complaint waits.
    const error = left.has(key) ? wrong[key] : undefined
    return (
      <div className="form-field" data-state={error ? 'wrong' : undefined}>
        <label htmlFor={`${id}-${key}`}>{label}</label>
        <input
          id={`${id}-${key}`}
          className="value"
          autoComplete="off"
          placeholder={placeholder}
          value={typed[key]}
          aria-invalid={error !== undefined}
          aria-describedby={error ? `${id}-${key}-error` : undefined}
          onFocus={(event) => event.target.select()}
          onChange={(event) => set({ [key]: event.target.value })}
          onBlur={() => setLeft(new Set([...left, key]))}
        />
        <p className="form-error" id={`${id}-${key}-error`}>
          {error}
        </p>
      </div>
    )
  }
  return (
    <section className="answers-need" aria-label={words.title}>
      <div className="answers-fields">
        {field('input', words.input)}
        {field('output', words.output)}
        {field('current', words.current)}
        <Choice
          label={words.feeds}
          value={typed.feeds}
          options={needStrings.feeds}
          choose={(feeds) => set({ feeds })}
        />
      </div>
      <details>
        <summary>{words.more}</summary>
        <div className="answers-fields">
          {field('trim', words.trim, words.noTrim)}
          {field('ripple', words.ripple, '1 %')}
          {field('ambient', words.ambient)}
          <Choice
            label={words.cooling}
            value={typed.cooling}
            options={needStrings.cooling}
            choose={(cooling) => set({ cooling })}
          />
          <Choice
            label={words.insulation}
            value={typed.insulation}
            options={needStrings.insulation}
            choose={(insulation) => set({ insulation })}
          />
        </div>
      </details>
    </section>
  )
}
