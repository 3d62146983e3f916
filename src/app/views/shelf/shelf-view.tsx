import { useEffect, useRef, useState } from 'react'
import { supplyText } from '../../../engine/file/file.ts'
import { openSupply as openContent } from '../../../engine/file/open.ts'
import { problemSentence } from '../../../engine/file/problem.ts'
import { rankOf } from '../../../engine/limits/limit.ts'
import type { ShelfEntry } from '../../../server/api-types.ts'
import { newSupplySheet } from '../../commands/commands.ts'
import { GapGauge, StandingMark } from '../../controls/gauge.tsx'
import { Icon } from '../../controls/icon.tsx'
import { show, showRange } from '../../fields/show.ts'
import { wholeAssessmentOf } from '../../state/assessment.ts'
import { addSupply, desk, duplicateSupply, openSupply, removeSupply } from '../../state/desk.ts'
import { showRoom, standing } from '../../state/limits.ts'
import { formatRoute, go } from '../../state/route.ts'
import { say } from '../../state/status.ts'
import { useStore } from '../../state/store.ts'
import { strings } from '../../strings/common.ts'
import { limitStrings } from '../../strings/limits.ts'
import { saveFile } from './files.ts'

const words = strings.shelf

/** Starts the workers of the search once a pointer or the focus comes to what leads there. */
const lookAhead = (): void => void import('../answers/answer-pool.ts').then(({ warmUp }) => warmUp())

const Card = ({
  entry,
  compareFrom,
  setCompareFrom,
}: {
  entry: ShelfEntry
  compareFrom: string | null
  setCompareFrom: (id: string | null) => void
}) => {
  const supply = useStore(desk, (d) => d.supplies[entry.id])?.history.value
  useEffect(() => void openSupply(entry.id), [entry.id])
  const result = supply ? wholeAssessmentOf(supply) : null
  const first = result?.ok ? result.value.limits[0] : undefined
  const need = supply?.need
  const source = need?.source
  const href = formatRoute({ at: 'supply', id: entry.id, view: null, focus: null })
  return (
    <li className="shelf-item" data-state={first ? standing(first) : undefined}>
      <a href={href} className="shelf-open">
        <h2>{entry.name}</h2>
        {need && source && (
          <p className="shelf-need">
            <span>
              {source.kind === 'mains'
                ? `${showRange(source.minimum_Vrms, source.maximum_Vrms, 'V')} AC`
                : `${showRange(source.minimum_V, source.maximum_V, 'V')} DC`}
            </span>
            <b>
              {show(need.output_V, 'V')} {show(need.output_A, 'A')}
            </b>
            <span>{show(need.output_V * need.output_A, 'W')}</span>
          </p>
        )}
        {supply && supply.note !== '' && <p className="shelf-note">{supply.note}</p>}
        {first ? (
          <div className="shelf-first">
            <StandingMark state={standing(first)} label={limitStrings[standing(first)]} />
            <span>{first.title}</span>
            <b>{showRoom(first)}</b>
            <GapGauge margin={rankOf(first)} state={standing(first)} />
          </div>
        ) : (
          <p className="shelf-first">{result && !result.ok ? result.problems[0]?.message : ''}</p>
        )}
      </a>
      <div className="shelf-tools">
        {compareFrom === null ? (
          <button type="button" className="plain" onClick={() => setCompareFrom(entry.id)}>
            <Icon name="compare" /> {words.compare}
            <span className="unseen"> {entry.name}</span>
          </button>
        ) : compareFrom === entry.id ? (
          <button type="button" className="plain" aria-pressed="true" onClick={() => setCompareFrom(null)}>
            <Icon name="close" /> {words.compare}
            <span className="unseen"> {entry.name}</span>
          </button>
        ) : (
          <button
            type="button"
            className="plain"
            onClick={() => go({ at: 'compare', left: compareFrom, right: entry.id })}
          >
            <Icon name="compare" /> {words.compareWith} <span className="unseen">{entry.name}</span>
          </button>
        )}
        <button type="button" className="plain" onClick={() => void duplicateSupply(entry.id)}>
          <Icon name="copy" /> {words.duplicate}
          <span className="unseen"> {entry.name}</span>
        </button>
        <button
          type="button"
          className="plain"
          disabled={!supply}
          onClick={() => supply && saveFile(`${entry.id}.supply.json`, supplyText(supply))}
        >
          <Icon name="file" /> {words.export}
          <span className="unseen"> {entry.name}</span>
        </button>
        <button type="button" className="plain" onClick={() => void removeSupply(entry.id)}>
          <Icon name="bin" /> {words.remove}
          <span className="unseen"> {entry.name}</span>
        </button>
      </div>
    </li>
  )
}

const openFile = async (file: File): Promise<void> => {
  const read = openContent(new Uint8Array(await file.arrayBuffer()))
  if (!read.ok) {
    const isDrawer = read.problems.some(
      ({ path, value }) => path === 'format' && value === '"gapwright-drawer"',
    )
    if (isDrawer) say(words.isDrawer(file.name), 'wrong')
    else say(words.notImported(file.name, read.problems.slice(0, 2).map(problemSentence).join('; ')), 'wrong')
    return
  }
  const id = await addSupply(read.value)
  say(words.imported(read.value.name))
  go({ at: 'supply', id, view: null, focus: null })
}

/** All supplies, each with its need and what gives first. */
export const ShelfView = () => {
  const shelf = useStore(desk, (d) => d.shelf)
  const unreadable = useStore(desk, (d) => d.unreadable)
  const place = useStore(desk, (d) => d.place)
  const [compareFrom, setCompareFrom] = useState<string | null>(null)
  const input = useRef<HTMLInputElement>(null)
  if (shelf === null) return <div className="view-waits" />
  return (
    <div className="page">
      <div className="page-head">
        <h1>{words.title}</h1>
        <p className="lead">
          {words.lead} <span className="place">{place}</span>.
        </p>
        <div className="page-tools">
          <button type="button" className="act" onClick={() => newSupplySheet.set(() => true)}>
            <Icon name="plus" /> {words.create}
          </button>
          <button
            type="button"
            className="plain"
            onPointerEnter={lookAhead}
            onFocus={lookAhead}
            onClick={() => go({ at: 'answers' })}
          >
            <Icon name="drawer" /> {words.answers}
          </button>
          <button type="button" className="plain" onClick={() => input.current?.click()}>
            <Icon name="file" /> {words.import}
          </button>
          <input
            ref={input}
            className="unseen"
            type="file"
            accept=".json,.html,.htm,application/json,text/html"
            tabIndex={-1}
            aria-label={words.import}
            onChange={(event) => {
              const file = event.target.files?.[0]
              event.target.value = ''
              if (file) void openFile(file)
            }}
          />
        </div>
      </div>
      {shelf.length === 0 ? (
        <p className="empty">{words.empty}</p>
      ) : (
        <ul className="shelf">
          {shelf.map((entry) => (
            <Card key={entry.id} entry={entry} compareFrom={compareFrom} setCompareFrom={setCompareFrom} />
          ))}
        </ul>
      )}
      {unreadable.length > 0 && (
        <section className="unreadable">
          <h2>{words.unreadable}</h2>
          <p>{words.unreadableLead}</p>
          <ul>
            {unreadable.map((file) => (
              <li key={file.file}>
                <b>{file.file}</b> {file.problems.slice(0, 3).map(problemSentence).join('; ')}
              </li>
            ))}
          </ul>
        </section>
      )}
      <p className="caution">{strings.caution}</p>
    </div>
  )
}
