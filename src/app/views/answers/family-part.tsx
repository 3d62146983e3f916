import { useEffect, useState } from 'react'
import type { Drawer } from '../../../engine/parts/part.ts'
import { type Family, familiesOf } from '../../../engine/search/index.ts'
import type { Need } from '../../../engine/supply/need.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { show } from '../../fields/show.ts'
import { desk, openSupply } from '../../state/desk.ts'
import { say } from '../../state/status.ts'
import { useStore } from '../../state/store.ts'
import { answersStrings } from '../../strings/answers.ts'
import { ask } from './answer-pool.ts'
import { openAsSupply } from './answers-body.tsx'
import type { Server } from './messages.ts'

const words = answersStrings.family
/** Supplies of the shelf whose needs are offered, and rows that are shown. */
const mostNeeds = 12
const mostShown = 8

interface Wanted {
  readonly id: string
  readonly name: string
  readonly need: Need
}

const needText = ({ output_V, output_A }: Need): string => `${show(output_V, 'V')} ${show(output_A, 'A')}`

/** Needs of the shelf, that of this supply first. */
const useNeeds = (supply: Supply): readonly Wanted[] => {
  const shelf = useStore(desk, (d) => d.shelf)
  const supplies = useStore(desk, (d) => d.supplies)
  const others = (shelf ?? []).filter((e) => e.id !== supply.id).slice(0, mostNeeds - 1)
  const ids = others.map((e) => e.id).join(' ')
  useEffect(() => {
    for (const id of ids.split(' ')) if (id !== '') void openSupply(id)
  }, [ids])
  const here = { id: supply.id, name: supply.name, need: supply.need }
  return [
    here,
    ...others.flatMap(({ id }) => {
      const other = supplies[id]?.history.value
      return other ? [{ id, name: other.name, need: other.need }] : []
    }),
  ]
}

/** What serves each need, asked of as many workers as there are; null while one of them is at work. */
const useServers = (wanted: readonly Wanted[] | null, drawer: Drawer): readonly Server[][] | null => {
  const [found, setFound] = useState<readonly (readonly Server[] | null)[]>([])
  useEffect(() => {
    if (wanted === null) return
    setFound(wanted.map(() => null))
    const asked = wanted.map(({ need }, index) => {
      const put = (servers: readonly Server[]) =>
        setFound((all) => all.map((one, i) => (i === index ? servers : one)))
      return ask<'servers'>({ kind: 'servers', need, drawer }, { done: put, failed: () => put([]) })
    })
    return () => {
      for (const one of asked) one.cancel()
    }
  }, [wanted, drawer])
  const all = found.filter((one) => one !== null)
  return wanted !== null && found.length === wanted.length && all.length === found.length
    ? all.map((one) => [...one])
    : null
}

/** Builds one need on a core and chip, and opens it. */
const build = ({ need, name }: Wanted, { core, switcher }: Family, drawer: Drawer): void => {
  say(words.building(name))
  const failed = (message: string) => say(words.notBuilt(name, message), 'wrong')
  ask<'one'>(
    { kind: 'one', need, drawer, core, switcher },
    {
      done: (value) => (value.ok ? void openAsSupply(value.value) : failed(value.problems[0]?.message ?? '')),
      failed,
    },
  )
}

const FamilyRow = ({
  family,
  wanted,
  drawer,
}: {
  family: Family
  wanted: readonly Wanted[]
  drawer: Drawer
}) => {
  const name = (id: string) => drawer.entries.find(({ part }) => part.id === id)?.part.name ?? id
  return (
    <li className="family">
      <h4>{name(family.core)}</h4>
      <p className="answers-quiet">
        {name(family.former)}; {name(family.switcher)}; {`${family.size_cm3}\u00a0cm³`}
      </p>
      <ul className="family-needs">
        {wanted.map((one, index) =>
          family.serves.includes(index) ? (
            <li key={one.id}>
              <button
                type="button"
                className="plain"
                aria-label={words.buildOf(needText(one.need), name(family.core))}
                onClick={() => build(one, family, drawer)}
              >
                {needText(one.need)}
              </button>
            </li>
          ) : (
            <li key={one.id} className="family-not">
              <s>{needText(one.need)}</s> <span className="unseen">{words.not}</span>
            </li>
          ),
        )}
      </ul>
    </li>
  )
}

/** Several needs of the shelf: which core, former and chip serves most of them. */
export const FamilyPart = ({ supply, drawer }: { supply: Supply; drawer: Drawer }) => {
  const needs = useNeeds(supply)
  const [without, setWithout] = useState<ReadonlySet<string>>(new Set())
  const [asked, setAsked] = useState<readonly Wanted[] | null>(null)
  const servers = useServers(asked, drawer)
  const wanted = needs.filter(({ id }) => !without.has(id))
  const found = servers === null ? null : familiesOf(servers)
  const most = found?.[0]?.serves.length ?? 0
  return (
    <section>
      <h3 className="unseen">{words.title}</h3>
      <p className="lead">{words.lead}</p>
      <ul className="family-asked">
        {needs.map(({ id, name, need }) => (
          <li key={id}>
            <label>
              <input
                type="checkbox"
                checked={!without.has(id)}
                onChange={(event) => {
                  const next = new Set(without)
                  if (event.target.checked) next.delete(id)
                  else next.add(id)
                  setWithout(next)
                }}
              />{' '}
              <b>{needText(need)}</b> {name}
            </label>
          </li>
        ))}
      </ul>
      <button type="button" className="act" disabled={wanted.length === 0} onClick={() => setAsked(wanted)}>
        {words.ask}
      </button>
      <div role="status">
        {asked !== null && found === null && <p className="answers-waits">{words.working(asked.length)}</p>}
        {asked !== null && found?.length === 0 && <p>{words.none}</p>}
        {asked !== null && most > 0 && <p className="answers-verdict">{words.found(most, asked.length)}</p>}
      </div>
      {asked !== null && found !== null && found.length > 0 && (
        <>
          <ol className="families">
            {found.slice(0, mostShown).map((family) => (
              <FamilyRow
                key={`${family.core} ${family.former} ${family.switcher}`}
                family={family}
                wanted={asked}
                drawer={drawer}
              />
            ))}
          </ol>
          <p className="answers-quiet">{words.coarse(found.length - Math.min(found.length, mostShown))}</p>
        </>
      )}
    </section>
  )
}
