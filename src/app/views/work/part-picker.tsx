import { useEffect, useMemo, useState } from 'react'
import type { Limit } from '../../../engine/limits/limit.ts'
import type { Part } from '../../../engine/parts/part.ts'
import type { Place } from '../../../engine/supply/build.ts'
import { placeKind, type Supply } from '../../../engine/supply/supply.ts'
import { Dialog } from '../../controls/dialog.tsx'
import { StandingMark } from '../../controls/gauge.tsx'
import { optionalPlaces, partAt, partChanges } from '../../fields/parts-in-use.ts'
import { ratingsOf } from '../../fields/ratings.ts'
import { showPercent } from '../../fields/show.ts'
import { assessmentOf } from '../../state/assessment.ts'
import { desk, editSupply } from '../../state/desk.ts'
import { applyChanges } from '../../state/edits.ts'
import { showRoom, standing } from '../../state/limits.ts'
import { useStore } from '../../state/store.ts'
import { buildStrings } from '../../strings/build.ts'
import { limitStrings } from '../../strings/limits.ts'

const words = buildStrings.picker

interface Candidate {
  readonly part: Part
  readonly ratings: readonly string[]
}

/** What the supply's weakest limit would be with this part; a sentence where the parts do not go together. */
type Outlook = Limit | string

const outlookOf = (supply: Supply, place: Place, part: Part): Outlook => {
  const result = assessmentOf(applyChanges(supply, partChanges(supply, place, part)))
  if (!result.ok) return result.problems[0]?.message ?? words.doesNotWork
  return result.value.limits[0] ?? words.doesNotWork
}

/** Outlooks are worked out a few at a time, so that the sheet opens at once. */
const useOutlooks = (supply: Supply, place: Place, candidates: readonly Candidate[]) => {
  const [outlooks, setOutlooks] = useState<ReadonlyMap<string, Outlook>>(new Map())
  useEffect(() => {
    let at = 0
    let frame = 0
    const found = new Map<string, Outlook>()
    const work = () => {
      const until = performance.now() + 8
      while (at < candidates.length && performance.now() < until) {
        const { part } = candidates[at]!
        found.set(part.id, outlookOf(supply, place, part))
        at += 1
      }
      setOutlooks(new Map(found))
      if (at < candidates.length) frame = requestAnimationFrame(work)
    }
    frame = requestAnimationFrame(work)
    return () => cancelAnimationFrame(frame)
  }, [supply, place, candidates])
  return outlooks
}

const marginOf = (outlook: Outlook | undefined): number =>
  outlook === undefined || typeof outlook === 'string' ? Number.NEGATIVE_INFINITY : outlook.margin

const Room = ({ outlook, now }: { outlook: Outlook | undefined; now: number }) => {
  if (outlook === undefined) return <td colSpan={2} />
  if (typeof outlook === 'string')
    return (
      <td colSpan={2} className="picker-not">
        {outlook}
      </td>
    )
  const state = standing(outlook)
  const change = outlook.margin - now
  return (
    <>
      <td className="picker-room" data-state={state}>
        <StandingMark state={state} label={limitStrings[state]} /> {showRoom(outlook)}
        <small>{Math.abs(change) < 0.0005 ? '' : `${change > 0 ? '+' : ''}${showPercent(change)}`}</small>
      </td>
      <td className="picker-first">{outlook.title}</td>
    </>
  )
}

/** The parts of the drawer that fit one place, best outlook first once that is known. */
export const PartPicker = ({ supply, place, close }: { supply: Supply; place: Place; close: () => void }) => {
  const drawer = useStore(desk, (d) => d.drawer)?.history.value
  const [find, setFind] = useState('')
  const present = partAt(supply, place)
  const candidates = useMemo(() => {
    const fromDrawer = (drawer?.entries ?? []).map((e) => e.part).filter((p) => p.kind === placeKind[place])
    const own = present !== null && !fromDrawer.some((p) => p.id === present.id) ? [present] : []
    return [...own, ...fromDrawer].map((part) => ({ part, ratings: ratingsOf(part) }))
  }, [drawer, place, present])
  const outlooks = useOutlooks(supply, place, candidates)
  const nowResult = assessmentOf(supply)
  const now = nowResult.ok ? (nowResult.value.limits[0]?.margin ?? 0) : 0
  const done = outlooks.size === candidates.length

  const wanted = find.toLowerCase().split(/\s+/).filter(Boolean)
  const shown = candidates.filter(({ part, ratings }) => {
    const text = `${part.name} ${ratings.join(' ')}`.toLowerCase()
    return wanted.every((word) => text.includes(word))
  })
  if (done) shown.sort((a, b) => marginOf(outlooks.get(b.part.id)) - marginOf(outlooks.get(a.part.id)))

  const use = (part: Part | null) => {
    editSupply(supply.id, {
      label: `${buildStrings.places[place]}: ${part?.name ?? buildStrings.empty}`,
      key: null,
      changes: partChanges(supply, place, part),
    })
    close()
  }

  return (
    <Dialog title={words.title(buildStrings.places[place])} close={close} wide>
      <div className="picker-tools">
        <input
          type="search"
          className="search"
          placeholder={words.find}
          aria-label={words.find}
          value={find}
          onChange={(event) => setFind(event.target.value)}
        />
        {optionalPlaces.has(place) && present !== null && (
          <button type="button" className="plain" onClick={() => use(null)}>
            {words.leave}
          </button>
        )}
      </div>
      <p className="picker-lead">{words.lead}</p>
      {shown.length === 0 ? (
        <p className="empty">{candidates.length === 0 ? words.nothing : words.noneMatch}</p>
      ) : (
        <div className="picker-scroll">
          <table className="picker">
            <thead>
              <tr>
                <th scope="col">{words.part}</th>
                <th scope="col">{words.room}</th>
                <th scope="col">{words.first}</th>
              </tr>
            </thead>
            <tbody>
              {shown.map(({ part, ratings }) => (
                <tr key={part.id} data-now={part.id === present?.id || undefined}>
                  <th scope="row">
                    <button
                      type="button"
                      className="pick"
                      aria-label={words.use(part.name)}
                      onClick={() => use(part)}
                    >
                      <b>{part.name}</b>
                      <small>
                        {part.id === present?.id && <em>{words.now}</em>}
                        {ratings.join('  ')}
                      </small>
                    </button>
                  </th>
                  <Room outlook={outlooks.get(part.id)} now={now} />
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </Dialog>
  )
}
