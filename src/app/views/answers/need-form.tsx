import type { Effort } from '../../../engine/search/index.ts'
import type { Need } from '../../../engine/supply/need.ts'
import { need as needSchema } from '../../../engine/supply/need.ts'
import { nominalIn, wrongSentence } from '../../fields/check.ts'
import { readMains, readRange, readValue } from '../../fields/parse.ts'
import { createStore, useStore } from '../../state/store.ts'
import { answersStrings } from '../../strings/answers.ts'
import { buildStrings } from '../../strings/build.ts'
import { needStrings } from '../../strings/need.ts'
import { ChoiceField, TextField } from './text-field.tsx'

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
  readonly parts: 'hand' | 'buy'
  readonly effort: Effort
  readonly seed: string
}
type Text = 'input' | 'output' | 'current' | 'trim' | 'ripple' | 'ambient' | 'seed'

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
  parts: 'hand',
  effort: 'usual',
  seed: '1',
})

type Wrong = Partial<Record<Text, string>>

/** Fields of the need as the schema names them, with the unit of each. */
const fieldOf: Readonly<Record<string, readonly [field: Text, unit: string]>> = {
  source: ['input', 'V'],
  output_V: ['output', 'V'],
  output_A: ['current', 'A'],
  trimLow_V: ['trim', 'V'],
  trimHigh_V: ['trim', 'V'],
  ripple_Vpp: ['ripple', 'V'],
  ambient_C: ['ambient', '°C'],
}

const blank = (text: string): boolean => text.trim() === ''

/** The seed that was typed; null for what is no whole number. */
export const seedTyped = (text: string): number | null =>
  /^\d{1,9}$/.test(text.trim()) ? Number(text) : null

/** What cannot be read, by field. */
function unread(t: TypedNeed): Wrong {
  const wrong: Wrong = {}
  const value = (key: Text, unit: string) => {
    if (readValue(t[key], unit) === null) wrong[key] = buildStrings.notNumber(words[key], t[key], unit)
  }
  if (readMains(t.input) === null) wrong.input = needStrings.needsRange(words.input, t.input)
  value('output', 'V')
  value('current', 'A')
  value('ambient', '°C')
  if (!blank(t.ripple)) value('ripple', 'V')
  if (!blank(t.trim) && readRange(t.trim, 'V') === null)
    wrong.trim = needStrings.needsRange(words.trim, t.trim)
  if (seedTyped(t.seed) === null) wrong.seed = words.notSeed(t.seed)
  return wrong
}

/** The need that was typed, or what is wrong with it by field. */
export function needTyped(t: TypedNeed): Need | Wrong {
  const wrong = unread(t)
  if (Object.keys(wrong).length > 0) return wrong
  const range = readMains(t.input)!
  const output_V = readValue(t.output, 'V')!
  const trim = blank(t.trim) ? null : readRange(t.trim, 'V')
  const typed: Need = {
    source: {
      kind: 'mains',
      minimum_Vrms: range.low,
      nominal_Vrms: range.middle ?? nominalIn(range.low, range.high, 230),
      maximum_Vrms: range.high,
      frequency_Hz: range.low < 100 && range.high < 140 ? 60 : 50,
    },
    output_V,
    trimLow_V: trim?.low ?? output_V,
    trimHigh_V: trim?.high ?? output_V,
    output_A: readValue(t.current, 'A')!,
    ripple_Vpp: blank(t.ripple) ? Number((output_V * 0.01).toPrecision(2)) : readValue(t.ripple, 'V')!,
    holdUp_s: 0,
    ambient_C: readValue(t.ambient, '°C')!,
    cooling: t.cooling,
    feeds: t.feeds,
    insulation: t.insulation,
    pollutionDegree: 2,
    altitude_m: 2000,
  }
  const parsed = needSchema.safeParse(typed)
  if (parsed.success) return parsed.data
  for (const issue of parsed.error.issues) {
    const [field, unit] = fieldOf[String(issue.path[0])] ?? ['output', 'V']
    const value = issue.path.reduce<unknown>(
      (from, key) => (from as Record<PropertyKey, unknown>)[key],
      typed,
    )
    wrong[field] ??= wrongSentence(issue, { label: words[field], unit }, value)
  }
  // A trim range that follows the output is wrong only where the output is.
  if (trim === null && wrong.trim !== undefined && wrong.output !== undefined) delete wrong.trim
  return wrong
}

const choices = <T extends string>(texts: Readonly<Record<T, string>>) =>
  Object.entries(texts) as unknown as readonly (readonly [T, string])[]

/** The few fields of a need, and the rest of it folded away. */
export const NeedForm = () => {
  const typed = useStore(typedNeed, (t) => t)
  const read = needTyped(typed)
  const wrong: Wrong = 'source' in read ? {} : read
  const set = (change: Partial<TypedNeed>) => typedNeed.set((t) => ({ ...t, ...change }))
  const field = (key: Text, label: string, placeholder?: string) => (
    <TextField
      label={label}
      value={typed[key]}
      error={wrong[key]}
      placeholder={placeholder}
      type={(text) => set({ [key]: text })}
    />
  )
  return (
    <section className="answers-need" aria-label={words.title}>
      <div className="answers-fields">
        {field('input', words.input)}
        {field('output', words.output)}
        {field('current', words.current)}
        <ChoiceField
          label={words.feeds}
          value={typed.feeds}
          options={choices(needStrings.feeds)}
          choose={(feeds) => set({ feeds })}
        />
        <ChoiceField
          label={words.parts}
          value={typed.parts}
          options={choices(words.partsFrom)}
          choose={(parts) => set({ parts })}
        />
      </div>
      <details className="answers-more">
        <summary>{words.more}</summary>
        <div className="answers-fields">
          {field('trim', words.trim, words.noTrim)}
          {field('ripple', words.ripple, words.ripplePlain)}
          {field('ambient', words.ambient)}
          <ChoiceField
            label={words.cooling}
            value={typed.cooling}
            options={choices(needStrings.cooling)}
            choose={(cooling) => set({ cooling })}
          />
          <ChoiceField
            label={words.insulation}
            value={typed.insulation}
            options={choices(needStrings.insulation)}
            choose={(insulation) => set({ insulation })}
          />
          <ChoiceField
            label={words.effort}
            value={typed.effort}
            options={choices(words.efforts)}
            choose={(effort) => set({ effort })}
          />
          {field('seed', words.seed)}
        </div>
      </details>
    </section>
  )
}
