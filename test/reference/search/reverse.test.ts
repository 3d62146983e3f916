import { describe, expect, test } from 'vitest'
import { demoSupplies } from '../../../src/engine/demo/index.ts'
import { assess } from '../../../src/engine/limits/index.ts'
import { starterDrawer } from '../../../src/engine/parts/starter/index.ts'
import {
  answersText,
  cheapestChanges,
  chooseFew,
  families,
  mostPower,
  offersOf,
  searchAll,
  searchOptions,
  searchSpace,
  substitutes,
  supplyOfOffer,
  whyNot,
} from '../../../src/engine/search/index.ts'
import { withSpares } from '../../../src/engine/search/spares.ts'
import { need, smallDrawer } from '../../property/search-drawer.ts'

const ids = [
  'switcher-700v-9r-dip',
  'switcher-700v-18r-dip',
  'core-rm12',
  'core-pq32-30',
  'core-ee16',
  'wire-0.236mm-grade-1',
  'litz-7x0.1mm',
  'wire-0.5mm-triple',
  'diode-schottky-100v-20a-dual',
  'diode-schottky-150v-10a-dual',
]
const drawer = smallDrawer(ids)
const made = searchSpace(need, drawer, searchOptions('quick'))
if (!made.ok) throw new Error(made.problems[0]!.message)
const space = made.value
const state = searchAll(space)

describe('why not', () => {
  const reasons = whyNot(space, state)
  test('every core and chip has an answer or a reason, never both', () => {
    const without = new Set(reasons.map((r) => r.id))
    const held = withSpares(space, state)
    space.cores.forEach(({ core }, i) => {
      expect(held.cores.includes(i)).toBe(!without.has(core.id))
    })
    space.switchers.forEach((switcher, i) => {
      expect(held.switchers.includes(i)).toBe(!without.has(switcher.id))
    })
  })
  test('a reason names part, limit, both figures and what would do', () => {
    const small = reasons.find((r) => r.id === 'core-ee16')!
    expect(small.sentence).toMatch(/^EE16 core set: .+, at (most|least) .+; .+\.$/)
    expect(small.limit!.holds).toBe(false)
    // A chip whose least limit is below the peak that 24 W take: P/V + P/Vor from 210 V and 100 V is 0.35 A at the least.
    expect(reasons.find((r) => r.id === 'switcher-700v-18r-dip')?.limit?.holds).toBe(false)
  })
})

describe('offers', () => {
  const few = chooseFew(state.front, 3)
  test('the few that are shown hold the best of each measure, and each says what makes it different', () => {
    expect(few.length).toBeGreaterThan(0)
    const all = offersOf(space, chooseFew(state.front, 99))
    expect(new Set(all.map((o) => o.difference)).size).toBeGreaterThan(1)
    for (const offer of all) expect(offer.difference).toMatch(/\.$/)
    const least = Math.min(...state.front.map((a) => a.measures.loss_W))
    expect(few.some((a) => a.measures.loss_W === least)).toBe(true)
  })
  test('an offer opens as a supply that holds', () => {
    for (const offer of offersOf(space, few)) {
      const judged = assess(supplyOfOffer(space, offer))
      expect(judged.ok && judged.value.holds).toBe(true)
    }
  })
  test('as text, for a terminal', () => {
    const text = answersText(space, state, whyNot(space, state))
    expect(text).toContain('12\u202fV 2\u202fA from the drawer')
    expect(text).toContain('Why not')
    expect(text).toContain('ruled out together by bounds')
  })
  test('parts that the drawer lacks are counted as to buy, and parts at hand go before them', () => {
    const without = {
      ...drawer,
      entries: drawer.entries.filter(({ part }) => part.id !== 'core-rm12' && part.id !== 'former-rm12'),
    }
    const shop = searchSpace(need, without, searchOptions('quick'), drawer)
    if (!shop.ok) throw new Error(shop.problems[0]!.message)
    const { front } = searchAll(shop.value)
    for (const { build, measures } of front)
      expect(measures.buy).toBe(build.places.core === 'core-rm12' ? 2 : 0)
    expect(front.some(({ measures }) => measures.buy === 0)).toBe(true)
  })
})

describe('reverse questions', () => {
  test('the most power from a core and chip: it holds there, and a limit stops a little more', () => {
    const found = mostPower(need, drawer, { core: 'core-rm12', switcher: 'switcher-700v-9r-dip' })
    if (!found.ok) throw new Error(found.problems[0]!.message)
    expect(found.value.front.length).toBeGreaterThan(0)
    expect(found.value.output_A).toBeGreaterThanOrEqual(2)
    expect(found.value.output_A).toBeLessThan(4)
    expect(found.value.limit === null || !found.value.limit.holds).toBe(true)
  })
  test('a chip too large for a quarter of the load still has a most', () => {
    const supply = demoSupplies()[0]!
    const found = mostPower(supply.need, starterDrawer, supply.build.places)
    if (!found.ok) throw new Error(found.problems[0]!.message)
    expect(found.value.output_A).toBeGreaterThanOrEqual(supply.need.output_A)
  })
  test('a core too small for a chip says why', () => {
    const found = mostPower(need, drawer, { core: 'core-ee16', switcher: 'switcher-700v-9r-dip' })
    expect(found.ok ? '' : found.problems[0]!.message).toMatch(
      /^this core and switcher hold .+ no current .+ A: .+, at (most|least) .+;/,
    )
  })
  test('the cheapest change mends one broken limit, by the least work, and is real', () => {
    const supply = demoSupplies()[0]!
    const hot = {
      ...supply,
      build: { ...supply.build, places: { ...supply.build.places, switcherHeatsink: null } },
    }
    const before = assess(hot)
    expect(before.ok && before.value.holds).toBe(false)
    const { answers, nearest } = cheapestChanges(hot, starterDrawer)
    expect(answers.length).toBeGreaterThan(0)
    expect(answers[0]!.changes.map((c) => c.at)).toEqual(['switcherHeatsink'])
    for (const { supply: mended } of answers) {
      const judged = assess(mended)
      expect(judged.ok && judged.value.holds).toBe(true)
    }
    expect(nearest).toBeNull()
    expect(cheapestChanges(supply, starterDrawer)).toEqual({ answers: [], nearest: null })
  })
  test('substitutes come by the margin that they leave, those that hold first', () => {
    const supply = demoSupplies()[0]!
    const found = substitutes(supply, 'rectifier', starterDrawer)
    const holding = found.filter((s) => s.holds)
    expect(holding.length).toBeGreaterThan(0)
    expect(found.slice(0, holding.length)).toEqual(holding)
    for (let i = 1; i < holding.length; i++)
      expect(holding[i]!.limit.margin).toBeLessThanOrEqual(holding[i - 1]!.limit.margin)
    const weak = found.find((s) => s.part.id === 'diode-schottky-45v-3a')!
    expect(weak.holds).toBe(false)
  })
  test('a family: the core and chip that serve most of several needs', () => {
    const needs = [need, { ...need, output_A: 1.3 }]
    const found = families(needs, drawer)
    expect(found[0]!.serves).toEqual([0, 1])
    for (let i = 1; i < found.length; i++)
      expect(found[i]!.serves.length).toBeLessThanOrEqual(found[i - 1]!.serves.length)
  })
})
