import { useRef, useState } from 'react'
import { readDrawer } from '../../../engine/file/file.ts'
import { problemSentence } from '../../../engine/file/problem.ts'
import { exportDrawerCsv } from '../../../engine/parts/csv-export.ts'
import { importDrawerCsv } from '../../../engine/parts/csv-import.ts'
import { addPart, freeId, mergeDrawers, removePart, replacePart } from '../../../engine/parts/drawer.ts'
import type { Drawer, DrawerEntry, Part, PartKind } from '../../../engine/parts/part.ts'
import { Icon } from '../../controls/icon.tsx'
import { ratingsOf } from '../../fields/ratings.ts'
import { desk, editDrawer, undoDrawer } from '../../state/desk.ts'
import { say } from '../../state/status.ts'
import { useStore } from '../../state/store.ts'
import { strings } from '../../strings/common.ts'
import { drawerStrings as words } from '../../strings/drawer.ts'
import { saveFile } from '../shelf/files.ts'
import { PartSheet } from './part-sheet.tsx'
import { UnusableDrawer } from './unusable-drawer.tsx'

/** One edit of the drawer as a whole; its entries are shared, so that it is small all the same. */
const change = (drawer: Drawer, next: Drawer, label: string) => {
  editDrawer(label, [{ path: ['entries'], from: drawer.entries, to: next.entries }])
  say(label, 'plain', { label: strings.edit.undo, run: undoDrawer })
}

type TakenIn = { readonly drawer: Drawer } | { readonly problems: readonly string[] }

/** A drawer from a table, or what is wrong with its cells. */
const fromTable = (text: string, name: string): TakenIn => {
  const read = importDrawerCsv(text, name)
  return read.ok
    ? { drawer: read.drawer }
    : { problems: read.problems.map((p) => words.problemRow(p.row, p.column, p.message)) }
}

/** A drawer from its own file, or what is wrong with that. */
const fromFile = (text: string): TakenIn => {
  const read = readDrawer(text)
  return read.ok ? { drawer: read.value } : { problems: read.problems.map(problemSentence) }
}

const Count = ({ drawer, entry }: { drawer: Drawer; entry: DrawerEntry }) => {
  const [text, setText] = useState<string | null>(null)
  const shown = entry.quantity === null ? '' : String(entry.quantity)
  const keep = () => {
    const typed = (text ?? shown).trim()
    const quantity = typed === '' ? null : Number(typed)
    setText(null)
    if (quantity !== null && !(quantity >= 0 && quantity <= 1e6)) return
    if (quantity !== entry.quantity)
      change(drawer, replacePart(drawer, entry.part.id, entry.part, quantity), words.kept(entry.part.name))
  }
  return (
    <input
      className="value count-field"
      inputMode="numeric"
      aria-label={`${words.quantity}: ${entry.part.name}`}
      placeholder={words.enough}
      value={text ?? shown}
      onChange={(event) => setText(event.target.value)}
      onBlur={keep}
      onKeyDown={(event) => event.key === 'Enter' && keep()}
    />
  )
}

const Rows = ({
  drawer,
  entries,
  edit,
}: {
  drawer: Drawer
  entries: readonly DrawerEntry[]
  edit: (part: Part, isNew: boolean) => void
}) => (
  <table className="drawer-table">
    <thead className="unseen">
      <tr>
        <th scope="col">{words.name}</th>
        <th scope="col">{words.quantity}</th>
        <td />
      </tr>
    </thead>
    <tbody>
      {entries.map((entry) => (
        <tr key={entry.part.id}>
          <th scope="row">
            <button
              type="button"
              className="pick"
              aria-label={words.edit(entry.part.name)}
              onClick={() => edit(entry.part, false)}
            >
              <b>{entry.part.name}</b>
              <small>{ratingsOf(entry.part).join('  ')}</small>
            </button>
          </th>
          <td>
            <Count drawer={drawer} entry={entry} />
          </td>
          <td className="drawer-tools">
            <button
              type="button"
              className="quiet"
              title={words.copy}
              aria-label={`${words.copy}: ${entry.part.name}`}
              onClick={() =>
                edit(
                  {
                    ...entry.part,
                    id: freeId(drawer, entry.part.id),
                    name: words.copyOf(entry.part.name).slice(0, 120),
                  },
                  true,
                )
              }
            >
              <Icon name="copy" />
            </button>
            <button
              type="button"
              className="quiet"
              title={words.remove}
              aria-label={`${words.remove}: ${entry.part.name}`}
              onClick={() =>
                change(drawer, removePart(drawer, entry.part.id), words.removed(entry.part.name))
              }
            >
              <Icon name="bin" />
            </button>
          </td>
        </tr>
      ))}
    </tbody>
  </table>
)

/** The parts at hand, by kind. */
export const DrawerView = () => {
  const doc = useStore(desk, (d) => d.drawer)
  const [kind, setKind] = useState<PartKind>('switcher')
  const [find, setFind] = useState('')
  const [sheet, setSheet] = useState<{ readonly part: Part; readonly isNew: boolean } | null>(null)
  const [problems, setProblems] = useState<{ file: string; of: readonly string[] } | null>(null)
  const file = useRef<HTMLInputElement>(null)
  if (doc === null) return <div className="view-waits" />
  const drawer = doc.history.value
  const wanted = find.toLowerCase().split(/\s+/).filter(Boolean)
  const shown = drawer.entries.filter(({ part }) => {
    if (wanted.length === 0) return part.kind === kind
    const text = `${words.kinds[part.kind]} ${part.name} ${ratingsOf(part).join(' ')}`.toLowerCase()
    return wanted.every((word) => text.includes(word))
  })

  const takeIn = async (chosen: File) => {
    const text = await chosen.text()
    const read = /^\s*\{/.test(text) ? fromFile(text) : fromTable(text, drawer.name)
    if ('problems' in read) {
      setProblems({ file: chosen.name, of: read.problems })
      return
    }
    setProblems(null)
    const merged = mergeDrawers(drawer, read.drawer)
    change(drawer, merged.drawer, words.imported(read.drawer.entries.length, merged.renamed.length))
  }

  const keep = (part: Part) => {
    if (sheet === null) return
    const next = sheet.isNew ? addPart(drawer, part) : replacePart(drawer, part.id, part)
    change(drawer, next, sheet.isNew ? words.added(part.name) : words.kept(part.name))
    setSheet(null)
  }

  return (
    <div className="page drawer">
      <div className="page-head">
        <h1>{words.title}</h1>
        <p className="lead">{words.lead}</p>
        <div className="page-tools">
          <input
            type="search"
            className="search"
            placeholder={words.find}
            aria-label={words.find}
            value={find}
            onChange={(event) => setFind(event.target.value)}
          />
          <button type="button" className="plain" onClick={() => file.current?.click()}>
            <Icon name="plus" /> {words.importCsv}
          </button>
          <button
            type="button"
            className="plain"
            onClick={() => saveFile('drawer.csv', exportDrawerCsv(drawer), 'text/csv')}
          >
            <Icon name="file" /> {words.exportCsv}
          </button>
          <a className="plain" href="#/answers">
            {strings.shelf.answers}
          </a>
          <input
            ref={file}
            className="unseen"
            type="file"
            accept=".csv,.json,text/csv,application/json"
            tabIndex={-1}
            aria-label={words.importCsv}
            onChange={(event) => {
              const chosen = event.target.files?.[0]
              event.target.value = ''
              if (chosen) void takeIn(chosen)
            }}
          />
        </div>
      </div>
      <UnusableDrawer />
      {problems && (
        <div className="problem" role="alert">
          <p>{words.notImported(problems.file)}</p>
          <ul>
            {problems.of.slice(0, 12).map((problem) => (
              <li key={problem}>{problem}</li>
            ))}
          </ul>
        </div>
      )}
      <div className="drawer-body">
        <nav className="kinds" aria-label={words.title}>
          {(Object.keys(words.kinds) as PartKind[]).map((k) => (
            <button
              key={k}
              type="button"
              aria-current={wanted.length === 0 && k === kind ? 'true' : undefined}
              onClick={() => {
                setKind(k)
                setFind('')
              }}
            >
              {words.kinds[k]} <small>{drawer.entries.filter((e) => e.part.kind === k).length}</small>
            </button>
          ))}
        </nav>
        {shown.length === 0 ? (
          <p className="empty">{wanted.length > 0 ? words.none : words.noneOfKind}</p>
        ) : (
          <Rows
            drawer={drawer}
            entries={shown.slice(0, 200)}
            edit={(part, isNew) => setSheet({ part, isNew })}
          />
        )}
      </div>
      {sheet && <PartSheet part={sheet.part} keep={keep} close={() => setSheet(null)} />}
    </div>
  )
}
