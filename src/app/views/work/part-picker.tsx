import { useEffect, useMemo, useState } from 'react'
import type { Limit } from '../../../engine/limits/limit.ts'
import type { Drawer, Part } from '../../../engine/parts/part.ts'
import type { Place } from '../../../engine/supply/build.ts'
import { placeKind, type Supply } from '../../../engine/supply/supply.ts'
import { Dialog } from '../../controls/dialog.tsx'
import { StandingMark } from '../../controls/gauge.tsx'
import { coreChoice, type PartChoice } from '../../fields/core-choice.ts'
import { optionalPlaces, partAt, partsChanges } from '../../fields/parts-in-use.ts'
import { ratingsOf } from '../../fields/ratings.ts'
import { showPercent } from '../../fields/show.ts'
import { assessmentOf, wholeAssessmentOf } from '../../state/assessment.ts'
import { desk, editSupply } from '../../state/desk.ts'
import { applyChanges, type Change } from '../../state/edits.ts'
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
interface Outlook {
  readonly first: Limit | string
  /** What comes with the part; null where nothing can be done with it. */
  readonly choice: PartChoice | null
}

const choiceOf = (supply: Supply, place: Place, part: Part, drawer: Drawer | undefined): PartChoice | null =>
  place === 'core' && part.kind === 'core'
    ? coreChoice(supply, part, drawer)
    : { changes: partsChanges(supply, { [place]: part }), former: null, rewound: false }

const outlookOf = (supply: Supply, choice: PartChoice | null, judge: typeof assessmentOf): Outlook => {
  if (choice === null) return { first: words.noFormer, choice }
  const result = judge(applyChanges(supply, choice.changes))
  const first = result.ok ? result.value.givesFirst : (result.problems[0]?.message ?? words.doesNotWork)
  return { first, choice }
}

/**
 * Outlooks are worked out a few at a time, so that the sheet opens at once: first without the loop, which takes
 * longer, then with it.
 */
const useOutlooks = (
  supply: Supply,
  place: Place,
  candidates: readonly Candidate[],
  drawer: Drawer | undefined,
) => {
  const [outlooks, setOutlooks] = useState<ReadonlyMap<string, Outlook>>(new Map())
  const [done, setDone] = useState(false)
  useEffect(() => {
    let frame = 0
    const found = new Map<string, Outlook>()
    const quick = candidates.map(({ part }) => () => {
      found.set(part.id, outlookOf(supply, choiceOf(supply, place, part, drawer), assessmentOf))
    })
    const whole = candidates.map(({ part }) => () => {
      found.set(part.id, outlookOf(supply, found.get(part.id)!.choice, wholeAssessmentOf))
    })
    const tasks = [...quick, ...whole]
    const work = () => {
      const until = performance.now() + 8
      while (tasks.length > 0 && performance.now() < until) tasks.shift()!()
      setOutlooks(new Map(found))
      setDone(tasks.length === 0)
      if (tasks.length > 0) frame = requestAnimationFrame(work)
    }
    frame = requestAnimationFrame(work)
    return () => cancelAnimationFrame(frame)
  }, [supply, place, candidates, drawer])
  return { outlooks, done }
}

const marginOf = (outlook: Outlook | undefined): number =>
  outlook === undefined || typeof outlook.first === 'string' ? Number.NEGATIVE_INFINITY : outlook.first.margin

const Room = ({ outlook, now }: { outlook: Outlook | undefined; now: number }) => {
  if (outlook === undefined) return <td colSpan={2} />
  const { first } = outlook
  if (typeof first === 'string')
    return (
      <td colSpan={2} className="picker-not">
        {first}
      </td>
    )
  const state = standing(first)
  const change = first.margin - now
  return (
    <>
      <td className="picker-room" data-state={state}>
        <StandingMark state={state} label={limitStrings[state]} /> {showRoom(first)}
        <small>{Math.abs(change) < 0.0005 ? '' : `${change > 0 ? '+' : ''}${showPercent(change)}`}</small>
      </td>
      <td className="picker-first">{first.title}</td>
    </>
  )
}

/** What is changed along with a part, in one step with it. */
const Along = ({ choice }: { choice: PartChoice | null | undefined }) =>
  choice && (choice.former !== null || choice.rewound) ? (
    <small className="picker-along">
      {[choice.former && words.withFormer(choice.former.name), choice.rewound && words.rewound]
        .filter(Boolean)
        .join('; ')}
    </small>
  ) : null

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
  const { outlooks, done } = useOutlooks(supply, place, candidates, drawer)
  const nowResult = wholeAssessmentOf(supply)
  const now = nowResult.ok ? nowResult.value.givesFirst.margin : 0

  const wanted = find.toLowerCase().split(/\s+/).filter(Boolean)
  const shown = candidates.filter(({ part, ratings }) => {
    const text = `${part.name} ${ratings.join(' ')}`.toLowerCase()
    return wanted.every((word) => text.includes(word))
  })
  if (done) shown.sort((a, b) => marginOf(outlooks.get(b.part.id)) - marginOf(outlooks.get(a.part.id)))

  const put = (name: string, changes: readonly Change[]) => {
    editSupply(supply.id, { label: `${buildStrings.places[place]}: ${name}`, key: null, changes })
    close()
  }
  const use = (part: Part) => {
    const choice = outlooks.get(part.id)?.choice ?? choiceOf(supply, place, part, drawer)
    put(part.name, choice?.changes ?? partsChanges(supply, { [place]: part }))
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
          <button
            type="button"
            className="plain"
            onClick={() => put(buildStrings.empty, partsChanges(supply, { [place]: null }))}
          >
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
                      <Along choice={outlooks.get(part.id)?.choice} />
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
