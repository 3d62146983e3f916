import { memo, useMemo, useState } from 'react'
import type { Limit } from '../../../engine/limits/limit.ts'
import { type ConditionId, conditionById, conditions } from '../../../engine/supply/condition.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { at, modeInWords } from '../../../engine/supply/evaluation.ts'
import {
  type FixedReadingKey,
  fixedReadingKeys,
  infoOf,
  type ReadingKey,
  readingKeys,
} from '../../../engine/supply/reading.ts'
import { mainsReadings } from '../../../engine/supply/readings/mains.ts'
import { stageReadings } from '../../../engine/supply/readings/stage.ts'
import { transformerReadings } from '../../../engine/supply/readings/transformer.ts'
import { reference } from '../../../engine/supply/refs.ts'
import { Explain } from '../../controls/explain.tsx'
import { show } from '../../fields/show.ts'
import { useStore } from '../../state/store.ts'
import { benchStrings } from '../../strings/bench.ts'
import { spotLabel } from '../../strings/spots.ts'
import { ConditionPlate, conditionStore, reasonAt } from './condition-plate.tsx'

const words = benchStrings.readings

type Group = keyof typeof words.groups
const groupOf = (key: ReadingKey): Group =>
  key in mainsReadings
    ? 'mains'
    : key in stageReadings
      ? 'stage'
      : key in transformerReadings
        ? 'transformer'
        : 'output'

const keysOf = (group: Group) => readingKeys.filter((key) => key !== 'mode' && groupOf(key) === group)

const valueAt = (evaluation: Evaluation, condition: ConditionId, key: ReadingKey): string => {
  const there = at(evaluation, condition)
  return there === null ? benchStrings.notRunning : show(there.readings[key], infoOf(key).unit)
}

/** Every input and load as a small table: the whole behaviour of one reading at a glance. */
const Everywhere = ({ evaluation, reading }: { evaluation: Evaluation; reading: ReadingKey }) => {
  const { label } = infoOf(reading)
  const inputs = ['minimum', 'nominal', 'maximum'] as const
  const loads = [0, 10, 50, 100] as const
  const corners = conditions.filter((c) => c.kind !== 'steady' || c.corner !== 'typical')
  return (
    <div className="everywhere">
      <table>
        <caption className="unseen">{words.everywhere(label)}</caption>
        <thead>
          <tr>
            <td />
            {loads.map((load) => (
              <th scope="col" key={load}>{`${load} %`}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {inputs.map((input) => (
            <tr key={input}>
              <th scope="row">{benchStrings.condition.inputs[input]}</th>
              {loads.map((load) => (
                <td key={load}>{valueAt(evaluation, `${input}-${load}`, reading)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <dl>
        {corners.map((corner) => (
          <div key={corner.id}>
            <dt>{benchStrings.condition.corner[corner.id as keyof typeof benchStrings.condition.corner]}</dt>
            <dd>{valueAt(evaluation, corner.id, reading)}</dd>
          </div>
        ))}
      </dl>
    </div>
  )
}

const rangeOf = (evaluation: Evaluation, key: ReadingKey): string => {
  const { unit } = infoOf(key)
  const values = evaluation.conditions.flatMap((c) =>
    c.runs && c.condition.kind === 'steady' ? [c.readings[key]] : [],
  )
  if (values.length === 0) return ''
  const low = Math.min(...values)
  const high = Math.max(...values)
  const shownLow = show(low, unit)
  const shownHigh = show(high, unit)
  return shownLow === shownHigh ? shownLow : `${shownLow} … ${shownHigh}`
}

const ReadingRow = memo(
  ({
    id,
    value,
    range,
    evaluation,
    limits,
    open,
    toggle,
  }: {
    id: ReadingKey | FixedReadingKey
    value: number
    range: string | null
    evaluation: Evaluation
    limits: readonly Limit[]
    open: boolean
    toggle: (id: string) => void
  }) => {
    const info = infoOf(id)
    return (
      <>
        <tr data-open={open || undefined}>
          <th scope="row">
            <button type="button" className="reading-name" aria-expanded={open} onClick={() => toggle(id)}>
              {info.label}
            </button>
          </th>
          <td className="reading-value">{show(value, info.unit)}</td>
          <td className="reading-range">{range}</td>
        </tr>
        {open && (
          <tr className="reading-more">
            <td colSpan={3}>
              <Explain of={info.explain}>
                {range !== null && <Everywhere evaluation={evaluation} reading={id as ReadingKey} />}
                <p className="explain-spot">
                  {reference[info.spot]} {spotLabel(info.spot)}
                  {limits
                    .filter((l) => l.spot === info.spot)
                    .slice(0, 3)
                    .map((l) => (
                      <span key={l.id}>
                        {l.title}: {show(l.reading, l.unit)} / {show(l.rating, l.unit)}
                      </span>
                    ))}
                </p>
              </Explain>
            </td>
          </tr>
        )}
      </>
    )
  },
)

/** Every reading at one condition, with its range over all of them; each opens to what it is and how it is found. */
export const ReadingsView = memo(
  ({ evaluation, limits }: { evaluation: Evaluation; limits: readonly Limit[] }) => {
    const condition = useStore(conditionStore, (c) => c)
    const [open, setOpen] = useState<string | null>(null)
    const [find, setFind] = useState('')
    const here = at(evaluation, condition)
    const toggle = useMemo(() => (id: string) => setOpen((o) => (o === id ? null : id)), [])
    const wanted = find.toLowerCase().split(/\s+/).filter(Boolean)
    const matches = (key: ReadingKey | FixedReadingKey) => {
      const { label, spot } = infoOf(key)
      const text = `${label} ${reference[spot]} ${spotLabel(spot)}`.toLowerCase()
      return wanted.every((word) => text.includes(word))
    }
    const row = (key: ReadingKey | FixedReadingKey, value: number, range: string | null) => (
      <ReadingRow
        key={key}
        id={key}
        value={value}
        range={range}
        evaluation={evaluation}
        limits={limits}
        open={open === key}
        toggle={toggle}
      />
    )
    const fixedKeys = fixedReadingKeys.filter(matches)
    const groups = (Object.keys(words.groups) as Group[]).map((group) => ({
      group,
      keys: keysOf(group).filter(matches),
    }))
    const nothing = fixedKeys.length === 0 && groups.every((g) => g.keys.length === 0)
    return (
      <div className="readings">
        <div className="readings-tools">
          <ConditionPlate />
          <p className="readings-here">
            <b>{conditionById.get(condition)?.label}</b>
            <span>{here === null ? reasonAt(evaluation, condition) : modeInWords(here)}</span>
          </p>
          <input
            type="search"
            className="search"
            placeholder={words.find}
            aria-label={words.find}
            value={find}
            onChange={(event) => setFind(event.target.value)}
          />
        </div>
        {nothing && <p className="empty">{words.none}</p>}
        {groups.map(({ group, keys }) =>
          keys.length === 0 ? null : (
            <table className="reading-table" key={group}>
              <caption>{words.groups[group]}</caption>
              <thead>
                <tr>
                  <th scope="col">{words.quantity}</th>
                  <th scope="col">{words.value}</th>
                  <th scope="col">{words.range}</th>
                </tr>
              </thead>
              <tbody>
                {keys.map((key) => row(key, here?.readings[key] ?? Number.NaN, rangeOf(evaluation, key)))}
              </tbody>
            </table>
          ),
        )}
        {fixedKeys.length > 0 && (
          <table className="reading-table">
            <caption>{words.fixed}</caption>
            <thead className="unseen">
              <tr>
                <th scope="col">{words.quantity}</th>
                <th scope="col">{words.value}</th>
                <td />
              </tr>
            </thead>
            <tbody>{fixedKeys.map((key) => row(key, evaluation.fixed[key], null))}</tbody>
          </table>
        )}
      </div>
    )
  },
)
