import { useMemo } from 'react'
import type { Judgement } from '../../../engine/bench/index.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { Icon } from '../../controls/icon.tsx'
import { firstLightStrings } from '../../strings/first-light.ts'
import { removeEntry } from './record.ts'
import { expectWords, valueWords, whenWords } from './words.ts'

const words = firstLightStrings.log
const standings = firstLightStrings.check.standing

/** Everything that was read, newest first, each beside what was expected. */
export const LogPart = ({ supply, judgement }: { supply: Supply; judgement: Judgement }) => {
  const { log } = supply.bench
  const byId = useMemo(() => new Map(judgement.checks.map((c) => [c.check.id, c])), [judgement])
  return (
    <section className="fl-log">
      <h3>{words.title}</h3>
      <p className="lead">{log.length === 0 ? words.empty : words.lead}</p>
      {log.length > 0 && (
        <ol>
          {log
            .map((entry, index) => ({ entry, index }))
            .toReversed()
            .map(({ entry, index }) => {
              const known = byId.get(entry.check)
              const what = known?.check.what ?? entry.check
              const last = log.findLastIndex((e) => e.check === entry.check) === index
              const standing = last && known?.standing ? standings[known.standing] : ''
              return (
                <li
                  key={`${entry.at} ${entry.check} ${index}`}
                  data-bad={(last && known?.suspect) || undefined}
                >
                  <span className="fl-when">{whenWords(entry.at)}</span>
                  <b>{what}</b>
                  <span>
                    <b>{known ? valueWords(known.check, entry) : (entry.value ?? entry.note)}</b>{' '}
                    {known ? `(${expectWords(known.check)})` : words.notThis}
                  </span>
                  <span>{last ? standing : words.superseded}</span>
                  <small>
                    {entry.instrument}
                    {entry.value !== null && entry.note !== '' && ` · ${entry.note}`}
                  </small>
                  <button
                    type="button"
                    className="quiet"
                    aria-label={`${words.remove}: ${what}, ${whenWords(entry.at)}`}
                    onClick={() => removeEntry(supply.id, index, what)}
                  >
                    <Icon name="bin" />
                  </button>
                </li>
              )
            })}
        </ol>
      )}
    </section>
  )
}
