import { useId, useMemo, useState } from 'react'
import { rangeMapDrawing } from '../../../drawing/answers/range-map.ts'
import { answersStyle } from '../../../drawing/answers/style.ts'
import type { Drawer } from '../../../engine/parts/part.ts'
import type { RangeMap } from '../../../engine/search/index.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { adoptStyle } from '../../controls/style.ts'
import { readValue } from '../../fields/parse.ts'
import { show } from '../../fields/show.ts'
import { answersStrings } from '../../strings/answers.ts'
import { buildStrings } from '../../strings/build.ts'
import { openAsSupply } from './answers-body.tsx'
import { useAsk } from './use-ask.ts'

const words = answersStrings.range

/** Limits that bind somewhere, numbered from the one that binds most. */
const numbersOf = ({ cells }: RangeMap): ReadonlyMap<string, number> => {
  const counts = new Map<string, number>()
  for (const { verdict, limit } of cells)
    if (verdict === 'none' && limit) counts.set(limit.title, (counts.get(limit.title) ?? 0) + 1)
  const ordered = [...counts].sort((a, b) => b[1] - a[1])
  return new Map(ordered.map(([title], i) => [title, i + 1]))
}

/** The map in words: for each voltage, how far up, and what stops it then. */
const RangeTable = ({ map }: { map: RangeMap }) => {
  const columns = map.volts.length
  const at = (column: number, row: number) => map.cells[row * columns + column]!
  const greatest = (column: number, verdicts: readonly string[]): number | null => {
    let found: number | null = null
    map.amps.forEach((amps, row) => {
      if (verdicts.includes(at(column, row).verdict)) found = amps
    })
    return found
  }
  const stops = (column: number): string => {
    for (let row = 0; row < map.amps.length; row++) {
      const cell = at(column, row)
      if (cell.verdict === 'none') return cell.limit?.title ?? words.nothing
    }
    return words.nothing
  }
  return (
    <div className="sheet-scroll">
      <table className="answers-table">
        <thead>
          <tr>
            <th scope="col">{words.at}</th>
            <th scope="col">{words.most}</th>
            <th scope="col">{words.mostParts}</th>
            <th scope="col">{words.stopped}</th>
          </tr>
        </thead>
        <tbody>
          {map.volts.map((volts, column) => {
            const [alone, parts] = [greatest(column, ['divider']), greatest(column, ['divider', 'parts'])]
            return (
              <tr key={volts}>
                <th scope="row">{show(volts, 'V')}</th>
                <td>{alone === null ? words.nothing : show(alone, 'A')}</td>
                <td>{parts === null ? words.nothing : show(parts, 'A')}</td>
                <td>{stops(column)}</td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </div>
  )
}

/** Asks about one other output: what it takes to get there. */
const Retargeting = ({
  supply,
  drawer,
  asked,
  ask,
}: {
  supply: Supply
  drawer: Drawer
  asked: { readonly output_V: number; readonly output_A: number } | null
  ask: (volts: string, amps: string) => void
}) => {
  const id = useId()
  const [volts, setVolts] = useState(show(supply.need.output_V, 'V'))
  const [amps, setAmps] = useState(show(supply.need.output_A, 'A'))
  const job = useMemo(
    () => (asked ? ({ kind: 'retarget', supply, drawer, ...asked } as const) : null),
    [supply, drawer, asked],
  )
  const reached = useAsk<'retarget'>(job)
  const answer = reached.is === 'here' ? reached.value : null
  const target = answer?.ok ? answer.value : null
  const feedback = target?.judged?.supply.build.feedback
  return (
    <section className="retarget">
      <h3>{words.asked}</h3>
      <div className="answers-fields">
        <div className="form-field">
          <label htmlFor={`${id}-v`}>{answersStrings.need.output}</label>
          <input
            id={`${id}-v`}
            className="value"
            autoComplete="off"
            value={volts}
            onChange={(event) => {
              setVolts(event.target.value)
              ask(event.target.value, amps)
            }}
          />
        </div>
        <div className="form-field">
          <label htmlFor={`${id}-a`}>{answersStrings.need.current}</label>
          <input
            id={`${id}-a`}
            className="value"
            autoComplete="off"
            value={amps}
            onChange={(event) => {
              setAmps(event.target.value)
              ask(volts, event.target.value)
            }}
          />
        </div>
      </div>
      <div role="status">
        {answer && !answer.ok && <p className="problem">{answer.problems[0]?.message}</p>}
        {target && (
          <>
            <p className="retarget-verdict" data-verdict={target.verdict}>
              {words.verdicts[target.verdict]}
            </p>
            {target.verdict !== 'none' && feedback?.dividerTop_ohm && feedback.dividerBottom_ohm && (
              <p>
                {words.dividerIs(show(feedback.dividerTop_ohm, 'Ω'), show(feedback.dividerBottom_ohm, 'Ω'))}
              </p>
            )}
            {target.verdict !== 'none' && target.changed.length > 0 && (
              <>
                <p>{words.changes}:</p>
                <ul className="why-list">
                  {target.changed.map((place) => (
                    <li key={place}>
                      <b>{buildStrings.places[place]}:</b>{' '}
                      {target.judged?.supply.parts.find(
                        (p) => p.id === target.judged?.supply.build.places[place],
                      )?.name ?? words.nothing}
                    </li>
                  ))}
                </ul>
              </>
            )}
            {target.broken.length > 0 && (
              <>
                <p>{words.brokenAlone}:</p>
                <ul className="why-list">
                  {target.broken.slice(0, 4).map((limit) => (
                    <li key={limit.id}>
                      <b>{limit.title}:</b> {show(limit.reading, limit.unit)} /{' '}
                      {show(limit.rating, limit.unit)}
                    </li>
                  ))}
                </ul>
              </>
            )}
            {target.moved && (
              <p className="answers-quiet">
                {words.moved(
                  show(target.moved.reflectedVoltage_V, 'V'),
                  show(target.moved.drainPlateau_V, 'V'),
                  show(target.moved.rectifierReverse_V, 'V'),
                  show(target.moved.bias_V, 'V'),
                )}
              </p>
            )}
            {target.verdict !== 'none' && target.judged && (
              <button
                type="button"
                className="plain"
                onClick={() =>
                  void openAsSupply({
                    ...target.judged!.supply,
                    name: words.name(supply.name, show(asked!.output_V, 'V')).slice(0, 120),
                  })
                }
              >
                {words.open}
              </button>
            )}
          </>
        )}
      </div>
    </section>
  )
}

/** What else the built supply can serve by divider, and by divider and parts. */
export const RangePart = ({ supply, drawer }: { supply: Supply; drawer: Drawer }) => {
  adoptStyle(answersStyle)
  const job = useMemo(() => ({ kind: 'range', supply, drawer }) as const, [supply, drawer])
  const reached = useAsk<'range'>(job)
  const [asked, setAsked] = useState<{ output_V: number; output_A: number } | null>(null)
  const ask = (volts: string, amps: string) => {
    const [output_V, output_A] = [readValue(volts, 'V'), readValue(amps, 'A')]
    if (output_V !== null && output_A !== null) setAsked({ output_V, output_A })
  }
  const map = reached.is === 'here' && reached.value.ok ? reached.value.value : null
  const numbers = useMemo(() => (map ? numbersOf(map) : new Map<string, number>()), [map])
  const { output_V, output_A } = supply.need
  const node = useMemo(
    () =>
      map
        ? rangeMapDrawing({
            title: words.map(show(output_V, 'V'), show(output_A, 'A')),
            voltName: words.volts,
            ampName: words.amps,
            volts: map.volts,
            amps: map.amps,
            cells: map.cells.map(({ verdict, limit }) => ({ verdict, limit: limit?.title ?? null })),
            numbers,
            here: { output_V, output_A },
            asked,
          })
        : null,
    [map, numbers, output_V, output_A, asked],
  )
  return (
    <section>
      <h3 className="unseen">{words.title}</h3>
      <p className="lead">{words.lead}</p>
      {reached.is === 'working' && <p className="answers-waits">{words.working}</p>}
      {reached.is === 'failed' && <p className="problem">{reached.message}</p>}
      {map && node && (
        <div className="range-main">
          <figure className="answers-map">
            <Drawing node={node} />
          </figure>
          <div>
            <ul className="range-legend">
              <li>
                <span className="range-key" data-key="divider" aria-hidden="true" /> {words.divider}
              </li>
              <li>
                <span className="range-key" data-key="parts" aria-hidden="true" /> {words.parts}
              </li>
              <li>
                <span className="range-key" data-key="none" aria-hidden="true" /> {words.none}
              </li>
              <li>
                <span className="range-key" data-key="here" aria-hidden="true" /> {words.here}
              </li>
            </ul>
            <h4>{words.binds}</h4>
            <ol className="range-binds">
              {[...numbers].slice(0, 8).map(([title]) => (
                <li key={title}>{title}</li>
              ))}
            </ol>
          </div>
        </div>
      )}
      <Retargeting supply={supply} drawer={drawer} asked={asked} ask={ask} />
      {map && (
        <details className="why-not">
          <summary>{words.table}</summary>
          <RangeTable map={map} />
        </details>
      )}
    </section>
  )
}
