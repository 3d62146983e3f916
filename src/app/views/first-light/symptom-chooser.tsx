import { useMemo, useState } from 'react'
import type { Check, Judgement, Plan } from '../../../engine/bench/index.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { firstLightStrings } from '../../strings/first-light.ts'
import { ReadingEntry } from './reading-entry.tsx'
import { expectWords } from './words.ts'

const words = firstLightStrings.finder
const most = 8

const textOf = (check: Check, stageTitle: string): string =>
  `${check.what} ${stageTitle} ${check.state?.answers.map((a) => a.label).join(' ') ?? ''}`.toLowerCase()

/** Finds a check by words of what one sees or hears, and takes the answer or the reading. */
export const SymptomChooser = ({
  supply,
  plan,
  judgement,
}: {
  supply: Supply
  plan: Plan
  judgement: Judgement
}) => {
  const [find, setFind] = useState('')
  const titles = useMemo(() => new Map(plan.stages.map((s) => [s.id, s.title])), [plan])
  const wanted = find.toLowerCase().split(/\s+/).filter(Boolean)
  const found = useMemo(() => {
    const all = [...plan.stages.flatMap((s) => s.checks), ...plan.inTrouble]
    // Without words, what is seen and heard comes first: it asks for no meter.
    const pool = wanted.length === 0 ? all.filter((c) => c.state !== null && c.live) : all
    return pool.filter((c) => {
      const text = textOf(c, titles.get(c.stage) ?? '')
      return wanted.every((w) => text.includes(w))
    })
  }, [plan, titles, wanted])
  return (
    <details className="fl-chooser" open={judgement.symptoms.length === 0 || undefined}>
      <summary>{words.add}</summary>
      <input
        type="search"
        className="search"
        placeholder={words.find}
        aria-label={words.add}
        value={find}
        onChange={(event) => setFind(event.target.value)}
      />
      {found.length === 0 && <p className="empty">{words.noneFound}</p>}
      <ul>
        {found.slice(0, most).map((check) => (
          <li key={check.id} className="fl-symptom">
            <p>
              <b>{check.what}</b> <small>{titles.get(check.stage)}</small>{' '}
              {check.expected && (
                <small>
                  {firstLightStrings.check.expect} {expectWords(check)}
                </small>
              )}
            </p>
            <ReadingEntry
              supplyId={supply.id}
              check={check}
              entry={judgement.checks.find((c) => c.check.id === check.id)?.entry ?? null}
            />
          </li>
        ))}
      </ul>
      {found.length > most && <p className="hint">{words.others(found.length - most)}</p>}
    </details>
  )
}
