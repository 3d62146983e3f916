import { describe, expect, test } from 'vitest'
import { demoSupplies } from '../../demo/index.ts'
import { assess, assessWhole, type Limit } from '../../limits/index.ts'
import type { Drawer } from '../../parts/part.ts'
import { starterDrawer } from '../../parts/starter/index.ts'
import type { Places } from '../../supply/build.ts'
import { placeKind, type Supply } from '../../supply/supply.ts'
import { changeList } from './change-list.ts'
import { cheapestChanges } from './changes.ts'

const built = demoSupplies()[0]!

/** The supply with other parts of the starter drawer in some places. */
const withPlaces = (supply: Supply, places: Partial<Places>): Supply => {
  const build = { ...supply.build, places: { ...supply.build.places, ...places } }
  const ids = new Set(Object.values(build.places))
  const parts = new Map(starterDrawer.entries.map(({ part }) => [part.id, part]))
  for (const part of supply.parts) parts.set(part.id, part)
  return { ...supply, build, parts: [...parts.values()].filter(({ id }) => ids.has(id)) }
}

const at = (supply: Supply, output_A: number): Supply => ({ ...supply, need: { ...supply.need, output_A } })

const brokenOf = (supply: Supply) => {
  const judged = assessWhole(supply)
  if (!judged.ok) throw new Error(judged.problems[0]!.message)
  return judged.value.limits.filter((limit) => !limit.holds)
}

/** Parts of the built supply, and those that are named. */
const drawerWith = (...ids: string[]): Drawer => ({
  ...starterDrawer,
  entries: starterDrawer.entries.filter(
    ({ part }) => ids.includes(part.id) || built.parts.some((p) => p.id === part.id),
  ),
})

describe('three faults of three places', () => {
  const fault = {
    switcherHeatsink: null,
    fuse: 'fuse-0.5a-slow',
    commonModeChoke: 'common-mode-choke-47mh-0.4a',
  }
  const broken = withPlaces(built, fault)

  test('are mended by three changes, no fewer, and hold as a whole', () => {
    expect(brokenOf(built)).toEqual([])
    expect(new Set(brokenOf(broken).map(({ spot }) => spot))).toEqual(
      new Set(['switcher', 'fuse', 'commonModeChoke']),
    )
    const { answers, nearest } = cheapestChanges(broken, starterDrawer)
    expect(nearest).toBeNull()
    expect(answers.length).toBeGreaterThan(0)
    for (const { changes, supply } of answers) {
      expect(changes.map((c) => c.at).sort()).toEqual(Object.keys(fault).sort())
      expect(brokenOf(supply)).toEqual([])
    }
  })

  test('where the drawer has a part for two of them, those two come closest, and the third is named', () => {
    const { answers, nearest } = cheapestChanges(
      broken,
      drawerWith(fault.fuse, fault.commonModeChoke, built.build.places.switcherHeatsink!),
    )
    expect(answers.length).toBeGreaterThan(0)
    expect(nearest).toBeNull()
    const without = drawerWith(fault.fuse, fault.commonModeChoke)
    const few: Drawer = {
      ...without,
      entries: without.entries.filter(({ part }) => part.id !== built.build.places.fuse),
    }
    const miss = cheapestChanges(broken, few).nearest!
    expect(miss.changes.map((c) => c.at)).toContain('commonModeChoke')
    expect(miss.changes.map((c) => c.at)).toContain('switcherHeatsink')
    expect(miss.broken.every((limit) => limit.spot === 'fuse')).toBe(true)
    expect(miss.sentence).toMatch(/^It would still break .*fuse.* \d+ % over/)
  })
})

describe('what nothing mends', () => {
  const heavy = at(built, 2 * built.need.output_A)
  const few = drawerWith(
    ...starterDrawer.entries
      .filter(({ part }) => /^(heatsink|switcher|fuse|common-mode-choke)$/.test(part.kind))
      .map(({ part }) => part.id),
  )
  const { answers, nearest } = cheapestChanges(heavy, few)

  test('names what comes closest, with the figures that the supply has then', () => {
    expect(answers).toEqual([])
    const again = assess(nearest!.supply)
    if (!again.ok) throw new Error(again.problems[0]!.message)
    expect(nearest!.broken).toEqual(again.value.limits.filter((limit) => !limit.holds))
    const [worst, ...others] = nearest!.broken
    const by =
      worst!.unit === '°C' ? worst!.reading - worst!.rating : 100 * (worst!.reading / worst!.rating - 1)
    const told = / (\d+) (%|K) (over|short)/.exec(nearest!.sentence)!
    expect(Math.abs(Number(told[1]) - Math.abs(by))).toBeLessThanOrEqual(1)
    expect(nearest!.sentence).toContain(worst!.title.slice(1))
    for (const { title } of others) expect(nearest!.sentence).toContain(title.slice(1))
  })

  test('comes at least as close as every single change of a part, tried one by one', () => {
    const shortfall = (limits: readonly Limit[]) =>
      limits.reduce((sum, { margin }) => sum + (margin < 0 ? -margin / (1 - margin) : 0), 0)
    const nearestShort = shortfall(nearest!.assessment.limits)
    for (const place of [
      'switcher',
      'fuse',
      'commonModeChoke',
      'switcherHeatsink',
      'rectifierHeatsink',
    ] as const)
      for (const { part } of few.entries) {
        if (part.kind !== placeKind[place]) continue
        const one = assess(withPlaces(heavy, { [place]: part.id }))
        if (!one.ok || one.value.limits.some(({ id }) => id === 'supply.runs')) continue
        expect(shortfall(one.value.limits)).toBeGreaterThan(nearestShort - 0.002)
      }
  })

  test('is given again the same', () => {
    expect(cheapestChanges(heavy, few).nearest!.sentence).toBe(nearest!.sentence)
  })
})

test('a core comes with a former that fits it', () => {
  const cores = drawerWith(
    ...starterDrawer.entries
      .filter(({ part }) => part.kind === 'core' || part.kind === 'former')
      .map(({ part }) => part.id),
  )
  const hard = at(built, 1.2 * built.need.output_A)
  const { answers, nearest } = cheapestChanges(hard, cores)
  for (const { supply } of [...answers, ...(nearest ? [nearest] : [])]) expect(assess(supply).ok).toBe(true)
  const all = [...answers, ...(nearest ? [nearest] : [])].flatMap(({ changes }) => changes)
  expect(all.some(({ at: place, words }) => place === 'core' && words.includes(', on '))).toBe(true)
})

test('a count, a gap and turns are said with what they are now', () => {
  const now = assess(built)
  if (!now.ok) throw new Error(now.problems[0]!.message)
  const { transformer: t } = now.value.evaluation.design
  const words = changeList(built, starterDrawer, now.value).map(({ change }) => change.words)
  const { bulkCount } = built.build
  expect(words).toContain(`${bulkCount + 1} bulk capacitors, not ${bulkCount}`)
  expect(words).toContain(`${t.secondaryTurns + 1} secondary turns, not ${t.secondaryTurns}`)
  expect(words.some((said) => /^gap of [\d.]+ mm, not [\d.]+ mm$/.test(said))).toBe(true)
})
