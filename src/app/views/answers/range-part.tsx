import { useEffect, useMemo, useRef, useState } from 'react'
import { rangeMapDrawing } from '../../../drawing/answers/range-map.ts'
import { answersStyle } from '../../../drawing/answers/style.ts'
import type { Drawer } from '../../../engine/parts/part.ts'
import type { RangeMap } from '../../../engine/search/index.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { adoptStyle } from '../../controls/style.ts'
import { useWidth } from '../../controls/use-width.ts'
import { show } from '../../fields/show.ts'
import { answersStrings } from '../../strings/answers.ts'
import { sentence } from '../transformer/sentence.ts'
import { RangeTable } from './range-table.tsx'
import { outputTyped, RetargetPart, type TypedOutput } from './retarget-part.tsx'
import { useAsk } from './use-ask.ts'

const words = answersStrings.range
const keys = ['divider', 'parts', 'none', 'here'] as const

/** Limits that bind somewhere, numbered from the one that binds most. */
const numbersOf = ({ cells }: RangeMap): ReadonlyMap<string, number> => {
  const counts = new Map<string, number>()
  for (const { verdict, limit } of cells)
    if (verdict === 'none' && limit) counts.set(limit.title, (counts.get(limit.title) ?? 0) + 1)
  const ordered = [...counts].sort((a, b) => b[1] - a[1])
  return new Map(ordered.map(([title], i) => [title, i + 1]))
}

const Legend = ({ numbers }: { numbers: ReadonlyMap<string, number> }) => (
  <div className="range-words">
    <ul className="range-legend">
      {keys.map((key) => (
        <li key={key}>
          <span className="range-key" data-key={key} aria-hidden="true" /> {words[key]}
        </li>
      ))}
    </ul>
    {numbers.size > 0 && (
      <>
        <h4>{words.binds}</h4>
        <ol className="range-binds">
          {[...numbers.keys()].map((title) => (
            <li key={title}>{title}</li>
          ))}
        </ol>
      </>
    )}
  </div>
)

const typedFor = (output_V: number, output_A: number): TypedOutput => ({
  volts: show(output_V, 'V'),
  amps: show(output_A, 'A'),
})

/** What else the built supply can serve by divider, and by divider and parts. */
export const RangePart = ({ supply, drawer }: { supply: Supply; drawer: Drawer }) => {
  adoptStyle(answersStyle)
  const { output_V, output_A } = supply.need
  const frame = useRef<HTMLDivElement>(null)
  const width = useWidth(frame)
  const job = useMemo(() => ({ kind: 'range', supply, drawer }) as const, [supply, drawer])
  const reached = useAsk<'range'>(job)
  const [typed, setTyped] = useState(typedFor(output_V, output_A))
  useEffect(() => setTyped(typedFor(output_V, output_A)), [output_V, output_A])
  const map = reached.is === 'here' && reached.value.ok ? reached.value.value : null
  const problem =
    reached.is === 'failed'
      ? reached.message
      : reached.is === 'here' && !reached.value.ok
        ? reached.value.problems[0]?.message
        : null
  const numbers = useMemo(() => (map ? numbersOf(map) : new Map<string, number>()), [map])
  const node = useMemo(
    () =>
      map
        ? rangeMapDrawing({
            width,
            title: words.map(show(output_V, 'V'), show(output_A, 'A')),
            voltName: words.volts,
            ampName: words.amps,
            volts: map.volts,
            amps: map.amps,
            cells: map.cells.map(({ verdict, limit }) => ({ verdict, limit: limit?.title ?? null })),
            numbers,
            here: { output_V, output_A },
            asked: outputTyped(typed),
          })
        : null,
    [map, numbers, output_V, output_A, typed, width],
  )
  const pick = (spot: string) => {
    const [column, row] = spot.split(' ').map(Number)
    if (map) setTyped(typedFor(map.volts[column!]!, map.amps[row!]!))
  }
  return (
    <section>
      <h3 className="unseen">{words.title}</h3>
      <p className="lead">{words.lead}</p>
      <p role="status" className="answers-waits">
        {reached.is === 'working' ? words.working : ''}
      </p>
      {problem && <p className="answers-wrong">{sentence(problem)}</p>}
      <div className="range-main">
        <figure className="answers-map" hidden={node === null}>
          <div ref={frame}>{node && <Drawing node={node} pick={pick} />}</div>
          <figcaption>{words.mapMeans}</figcaption>
        </figure>
        {map && <Legend numbers={numbers} />}
        <RetargetPart supply={supply} drawer={drawer} typed={typed} type={setTyped} />
      </div>
      {map && (
        <details className="answers-fold">
          <summary>{words.table}</summary>
          <RangeTable map={map} />
        </details>
      )}
    </section>
  )
}
