import { useId, useState } from 'react'
import type { Need } from '../../../engine/supply/need.ts'
import { need as needSchema } from '../../../engine/supply/need.ts'
import { Dialog } from '../../controls/dialog.tsx'
import { nominalIn } from '../../fields/check.ts'
import { readMains, readValue } from '../../fields/parse.ts'
import { begin } from '../../state/begin.ts'
import { addSupply } from '../../state/desk.ts'
import { go } from '../../state/route.ts'
import { buildStrings } from '../../strings/build.ts'
import { needStrings } from '../../strings/need.ts'
import { shelfStrings as words } from '../../strings/shelf.ts'

type FieldName = 'input' | 'output' | 'current'

const units: Record<FieldName, string> = { input: 'V', output: 'V', current: 'A' }

/** The need that the few fields mean, with the usual answers for the rest; or what is wrong, by field. */
const needOf = (
  texts: Record<FieldName, string>,
  feeds: Need['feeds'],
): Need | Partial<Record<FieldName, string>> => {
  const range = readMains(texts.input)
  const output_V = readValue(texts.output, 'V')
  const output_A = readValue(texts.current, 'A')
  const wrong: Partial<Record<FieldName, string>> = {}
  if (range === null) wrong.input = needStrings.needsRange(words.input, texts.input)
  if (output_V === null) wrong.output = buildStrings.notNumber(words.output, texts.output, 'V')
  if (output_A === null) wrong.current = buildStrings.notNumber(words.current, texts.current, 'A')
  if (range === null || output_V === null || output_A === null) return wrong
  const parsed = needSchema.safeParse({
    source: {
      kind: 'mains',
      minimum_Vrms: range.low,
      nominal_Vrms: nominalIn(range.low, range.high, range.middle ?? 230),
      maximum_Vrms: range.high,
      frequency_Hz: range.low < 100 && range.high < 140 ? 60 : 50,
    },
    output_V,
    trimLow_V: output_V,
    trimHigh_V: output_V,
    output_A,
    ripple_Vpp: Number((output_V * 0.01).toPrecision(2)),
    holdUp_s: 0,
    ambient_C: 40,
    cooling: 'case-vented',
    feeds,
    insulation: 'reinforced',
    pollutionDegree: 2,
    altitude_m: 2000,
  } satisfies Need)
  if (parsed.success) return parsed.data
  for (const issue of parsed.error.issues) {
    const at = issue.path[0] === 'source' ? 'input' : issue.path[0] === 'output_A' ? 'current' : 'output'
    wrong[at] ??= issue.message
  }
  return wrong
}

/** A supply from the least that must be said. */
export const NewSupply = ({ close }: { close: () => void }) => {
  const id = useId()
  const [name, setName] = useState('')
  const [texts, setTexts] = useState<Record<FieldName, string>>({
    input: '195–265 V',
    output: '12 V',
    current: '2 A',
  })
  const [feeds, setFeeds] = useState<Need['feeds']>('electronics')
  const [wrong, setWrong] = useState<Partial<Record<FieldName | 'all', string>>>({})
  const [working, setWorking] = useState(false)

  const make = async () => {
    const need = needOf(texts, feeds)
    if (!('source' in need)) {
      setWrong(need)
      return
    }
    setWorking(true)
    const begun = await begin(name.trim() || words.namePlaceholder, need)
    setWorking(false)
    if (!begun.ok) {
      setWrong({ all: words.noParts + (begun.problems[0]?.message ?? '') })
      return
    }
    const newId = await addSupply(begun.value)
    close()
    go({ at: 'supply', id: newId, view: null, focus: null })
  }

  const field = (key: FieldName, label: string) => (
    <div className="form-field" data-state={wrong[key] ? 'wrong' : undefined}>
      <label htmlFor={`${id}-${key}`}>{label}</label>
      <input
        id={`${id}-${key}`}
        className="value"
        autoComplete="off"
        value={texts[key]}
        aria-invalid={wrong[key] !== undefined}
        aria-describedby={wrong[key] ? `${id}-${key}-error` : key === 'input' ? `${id}-mains` : undefined}
        onFocus={(event) => event.target.select()}
        onChange={(event) => setTexts({ ...texts, [key]: event.target.value })}
        onBlur={(event) => {
          const value =
            key === 'input' ? readMains(event.target.value) : readValue(event.target.value, units[key])
          if (value !== null) setWrong({ ...wrong, [key]: undefined })
        }}
      />
      {key === 'input' && (
        <small id={`${id}-mains`} className="form-hint">
          {words.mainsAlone}
        </small>
      )}
      <p className="form-error" id={`${id}-${key}-error`}>
        {wrong[key]}
      </p>
    </div>
  )

  return (
    <Dialog title={words.newTitle} close={close}>
      <p className="picker-lead">{words.newLead}</p>
      <form
        onSubmit={(event) => {
          event.preventDefault()
          void make()
        }}
      >
        <div className="new-fields">
          <div className="form-field">
            <label htmlFor={`${id}-name`}>{words.name}</label>
            <input
              id={`${id}-name`}
              className="value"
              autoComplete="off"
              maxLength={120}
              placeholder={words.namePlaceholder}
              value={name}
              onChange={(event) => setName(event.target.value)}
            />
          </div>
          {field('input', words.input)}
          {field('output', words.output)}
          {field('current', words.current)}
          <div className="form-field">
            <label htmlFor={`${id}-feeds`}>{words.feeds}</label>
            <select
              id={`${id}-feeds`}
              className="choice"
              value={feeds}
              onChange={(event) => setFeeds(event.target.value as Need['feeds'])}
            >
              {Object.entries(needStrings.feeds).map(([value, label]) => (
                <option key={value} value={value}>
                  {label}
                </option>
              ))}
            </select>
          </div>
        </div>
        {wrong.all && (
          <p className="problem" role="alert">
            {wrong.all}
          </p>
        )}
        <button type="submit" className="act" disabled={working}>
          {working ? words.making : words.make}
        </button>
      </form>
    </Dialog>
  )
}
