import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { assess, withLoopLimits } from '../../src/engine/limits/index.ts'
import type { Part } from '../../src/engine/parts/part.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import { type Answer, keyOf, mergeFronts } from '../../src/engine/search/front.ts'
import { judgeFrame, tryCopper } from '../../src/engine/search/lean/decide.ts'
import { newTally, slack } from '../../src/engine/search/lean/tally.ts'
import { asGood, type Measures, roundLoss } from '../../src/engine/search/measures.ts'
import { buildOf, copperOf, supplyFrom } from '../../src/engine/search/space/candidate.ts'
import { framesOf, groundOf } from '../../src/engine/search/space/frames.ts'
import { type Space, searchSpace } from '../../src/engine/search/space/space.ts'
import {
  alongside,
  beginSearch,
  benchOf,
  mergeStates,
  type SearchState,
  searchAll,
  searchStep,
} from '../../src/engine/search/step.ts'
import type { Need } from '../../src/engine/supply/need.ts'
import { supply as supplySchema } from '../../src/engine/supply/supply.ts'
import { bruteFront, coarsely, need, smallDrawer } from './search-drawer.ts'

const spaceOf = (asked: Need, ids: readonly string[], seed = 1): Space => {
  const space = searchSpace(asked, smallDrawer(ids), { ...coarsely, seed })
  if (!space.ok) throw new Error(space.problems[0]!.message)
  return space.value
}

const shape = (front: readonly Answer[]) =>
  front.map((a) => ({ key: keyOf(a.build), ...a.measures })).sort((a, b) => a.key.localeCompare(b.key))

/** Drawers that hold two chips, two or three cores, two wires for each side and two or three rectifiers. */
const drawers: readonly (readonly [name: string, asked: Need, ids: readonly string[]])[] = [
  [
    '12 V 2 A from 230 V',
    need,
    [
      'switcher-700v-9r-dip',
      'switcher-700v-7.5r',
      'core-rm12',
      'core-pq32-30',
      'core-e25-13-7',
      'wire-0.236mm-grade-1',
      'litz-7x0.1mm',
      'wire-0.5mm-triple',
      'wire-0.45mm-triple',
      'diode-schottky-100v-20a-dual',
      'diode-schottky-150v-10a-dual',
    ],
  ],
  [
    '5 V 3 A from 230 V',
    { ...need, output_V: 5, trimLow_V: 5, trimHigh_V: 5, output_A: 3, ripple_Vpp: 0.1 },
    [
      'switcher-700v-9r-dip',
      'core-rm10',
      'core-pq26-25',
      'wire-0.224mm-grade-1',
      'wire-0.3mm-grade-1',
      'wire-0.5mm-triple',
      'wire-0.6mm-triple',
      'diode-schottky-60v-20a-dual',
      'diode-schottky-100v-20a-dual',
    ],
  ],
  [
    '12 V 1 A from 85 V to 265 V',
    {
      ...need,
      source: { kind: 'mains', minimum_Vrms: 85, nominal_Vrms: 230, maximum_Vrms: 265, frequency_Hz: 50 },
      output_A: 1,
    },
    [
      'switcher-700v-9r-dip',
      'core-rm12',
      'core-etd39-20-13',
      'wire-0.25mm-grade-1',
      'wire-0.315mm-grade-1',
      'wire-0.45mm-triple',
      'wire-0.4mm-triple',
      'diode-schottky-150v-10a-dual',
      'diode-schottky-100v-10a-dual',
    ],
  ],
]

describe('against assessing every candidate', () => {
  test.each(drawers)('%s: the same front, exactly', (_name, asked, ids) => {
    const space = spaceOf(asked, ids)
    const found = searchAll(space)
    const brute = bruteFront(space)
    expect(brute.holding).toBeGreaterThan(0)
    expect(shape(found.front)).toEqual(shape(brute.front))
    expect(found.counts.pruned + found.counts.decided).toBe(brute.candidates)
    expect(found.counts.assessed).toBeLessThan(brute.candidates)
  })

  test.each(drawers)('%s: what is offered holds every limit when it is opened again', (_name, asked, ids) => {
    const space = spaceOf(asked, ids)
    for (const { build, measures, limit } of searchAll(space).front) {
      const opened = supplySchema.parse(JSON.parse(JSON.stringify(supplyFrom(space, build, 'Opened'))))
      const judged = assess(opened)
      if (!judged.ok) throw new Error(judged.problems[0]!.message)
      const whole = withLoopLimits(judged.value)
      expect(whole.limits.filter((l) => !l.holds)).toEqual([])
      expect(whole.givesFirst.id).toBe(limit.id)
      expect(measures.margin_percent).toBe(Math.min(25, Math.floor(100 * whole.givesFirst.margin + 1e-6)))
    }
  })
})

describe('the lean evaluation', () => {
  test('lets nothing go that holds, and reads loss and the weakest limit as the whole evaluation does', () => {
    for (const [name, asked, ids] of drawers) {
      const space = spaceOf(asked, ids)
      const bench = benchOf(space)
      let seen = 0
      for (const block of space.blocks) {
        const ground = groundOf(space, block)!
        let turn = 0
        for (const frame of framesOf(space, ground))
          for (const c of copperOf(frame)) {
            if (turn++ % 3 !== 0) continue
            const whole = assess(supplyFrom(space, buildOf(space, ground, c), ''))
            if (!whole.ok || !whole.value.holds) continue
            const t = newTally()
            const framed = judgeFrame(bench, ground, frame, t)
            const lean =
              framed &&
              tryCopper(bench, ground, framed.stand, c, framed.gap, t, { all: false, outdone: () => false })
            expect(lean?.is, `${name}: ${t.id} ${t.margin}`).toBe('holds')
            if (lean?.is !== 'holds') continue
            seen++
            const low = whole.value.evaluation.conditions.find((k) => k.condition.id === 'minimum-100')!
            // The bulk voltage is interpolated here, and solved to a thousandth of the power there.
            if (low.runs) expect(Math.abs(lean.loss_W / low.readings.loss_W - 1)).toBeLessThan(0.01)
            expect(lean.margin).toBeGreaterThanOrEqual(whole.value.givesFirst.margin - slack)
          }
      }
      expect(seen, name).toBeGreaterThan(0)
    }
  })
})

describe('steps', () => {
  test('any order, any budget, any number of workers and a pause give the same answer', () => {
    const [, asked, ids] = drawers[0]!
    const expected = shape(searchAll(spaceOf(asked, ids)).front)
    const other = spaceOf(asked, ids, 77)
    expect(shape(searchAll(other).front)).toEqual(expected)
    // A space of its own each time, as in another process: nothing that is remembered between blocks may matter.
    let paused: SearchState = beginSearch(spaceOf(asked, ids))
    while (!paused.done) paused = JSON.parse(JSON.stringify(searchStep(spaceOf(asked, ids), paused, 1)))
    expect(shape(paused.front)).toEqual(expected)
    const shares = [0, 1, 2].map((share) => {
      const space = spaceOf(asked, ids)
      let state = beginSearch(space, share, 3)
      while (!state.done) state = searchStep(space, state, 500)
      return state
    })
    const merged = mergeStates(shares)
    expect(shape(merged.front)).toEqual(expected)
    expect(merged.done).toBe(true)
    // Two that tell each other what they have found.
    const spaces = [0, 1].map(() => spaceOf(asked, ids))
    const pair = spaces.map((space, share) => beginSearch(space, share, 2))
    while (pair.some((state) => !state.done))
      spaces.forEach((space, i) => {
        if (!pair[i]!.done) pair[i] = searchStep(space, alongside(pair[i]!, pair[1 - i]!.front), 500)
      })
    expect(shape(mergeStates(pair).front)).toEqual(expected)
    const assessed = (states: readonly SearchState[]) => mergeStates(states).counts.assessed
    expect(assessed(pair)).toBeLessThanOrEqual(assessed(shares))
  })
})

/** Every old answer is matched by one at least as good in everything. */
const noWorse = (before: readonly Answer[], after: readonly Answer[]): Measures[] =>
  before.filter((a) => !after.some((b) => asGood(b.measures, a.measures))).map((a) => a.measures)

describe('more parts and lesser needs', () => {
  const [, asked, ids] = drawers[0]!
  const front = searchAll(spaceOf(asked, ids)).front

  test.each([
    'core-pq26-25',
    'core-etd39-20-13',
    'switcher-700v-5r',
    'switcher-700v-15r',
    'wire-0.4mm-triple',
  ])('one more part, %s, makes no answer worse', (id) => {
    const more = searchAll(spaceOf(asked, [...ids, id])).front
    expect(noWorse(front, more)).toEqual([])
  })

  test.each<[string, Partial<Need>]>([
    ['more ripple is allowed', { ripple_Vpp: 0.3 }],
    ['it is cooler', { ambient_C: 25 }],
    ['it feeds a heater', { feeds: 'resistive' }],
    ['it lies lower', { altitude_m: 0 }],
  ])('when %s, what held before still holds', (_name, change) => {
    const space = spaceOf(asked, ids)
    for (const { build } of front) {
      const judged = assess({ ...supplyFrom(space, build, ''), need: { ...asked, ...change } })
      expect(judged.ok && withLoopLimits(judged.value).limits.filter((l) => !l.holds)).toEqual([])
    }
  })
})

describe('fronts', () => {
  const measures: fc.Arbitrary<Measures> = fc.record({
    loss_W: fc.integer({ min: 1, max: 6 }),
    size_cm3: fc.integer({ min: 1, max: 6 }),
    buy: fc.integer({ min: 0, max: 2 }),
    margin_percent: fc.integer({ min: 0, max: 6 }),
    effort: fc.integer({ min: 1, max: 6 }),
  })
  const { build } = searchAll(spaceOf(drawers[1]![1], drawers[1]![2])).front[0]!
  const answers: fc.Arbitrary<Answer[]> = fc
    .array(fc.tuple(measures, fc.double({ min: 0, max: 0.4, noNaN: true })), { maxLength: 40 })
    .map((all) =>
      all.map(([m, more], i) => ({
        build: { ...build, bulkCount: 1 + i },
        measures: m,
        exactLoss_W: m.loss_W + more,
        limit: { id: 'x', title: 'x', margin: 0 },
      })),
    )
  const frontOf = (all: readonly Answer[]): readonly Answer[] => mergeFronts(all)
  test('no answer of a front outdoes another, and none left out is better than all', () => {
    fc.assert(
      fc.property(answers, (all) => {
        const front = frontOf(all)
        for (const a of front)
          for (const b of front) if (a !== b) expect(asGood(a.measures, b.measures)).toBe(false)
        for (const a of all) expect(front.some((b) => asGood(b.measures, a.measures))).toBe(true)
        const half = all.length >> 1
        const apart = mergeFronts(frontOf(all.slice(half)), frontOf(all.slice(0, half)))
        const values = (list: readonly Answer[]) => list.map((a) => JSON.stringify(a.measures)).sort()
        expect(values(apart)).toEqual(values(front))
      }),
      { seed: 5, numRuns: 200 },
    )
  })
  test('losses are weighed in half per cent of the output', () => {
    const space = spaceOf(drawers[0]![1], drawers[0]![2])
    expect(roundLoss(space, 5.03)).toBeCloseTo(5.04, 9)
    expect(roundLoss(space, 5.11)).toBeCloseTo(5.16, 9)
  })
})

describe('what cannot be answered says what to add', () => {
  test('an empty drawer', () => {
    const result = searchSpace(need, { ...starterDrawer, entries: [] }, coarsely)
    expect(result.ok ? [] : result.problems.map((p) => p.message)).toContain(
      'the drawer holds no ferrite core: add one',
    )
  })
  test('no rectifier that is large enough', () => {
    const [, asked, ids] = drawers[0]!
    const result = searchSpace(
      asked,
      smallDrawer(ids.filter((id) => !id.startsWith('diode-schottky'))),
      coarsely,
    )
    expect(result.ok ? [] : result.problems.map((p) => p.message)).toEqual([
      'the drawer holds no fast rectifier of 6 A, three times the output current: add one',
    ])
  })
  test.each([
    ['bridge', () => true, 'the drawer holds no bridge rectifier: add one'],
    [
      'fuse',
      (part: Part) => part.kind === 'fuse' && part.speed === 'slow',
      'the drawer holds no slow fuse: add one',
    ],
    [
      'capacitor',
      (part: Part) => part.kind === 'capacitor' && part.voltage_V > 100 && !part.safetyClass,
      'the drawer holds no bulk capacitor, an electrolytic of 1 µF or more for at least 375 V: add one',
    ],
  ] as const)('no %s for the mains: nothing is offered without', (kind, goes, message) => {
    const drawer = smallDrawer(drawers[0]![2])
    const entries = drawer.entries.filter(({ part }) => part.kind !== kind || !goes(part))
    const problems = (asked: Need) => {
      const result = searchSpace(asked, { ...drawer, entries }, coarsely)
      return result.ok ? [] : result.problems.map((p) => p.message)
    }
    expect(problems(need)).toEqual([message])
    const dc: Need['source'] = { kind: 'dc', minimum_V: 250, nominal_V: 320, maximum_V: 375 }
    expect(problems({ ...need, source: dc })).toEqual(kind === 'bridge' ? [] : [message])
  })
  test('a part that is used up is as good as none', () => {
    const drawer = smallDrawer(drawers[0]![2])
    const used = drawer.entries.map((e) => (e.part.kind === 'switcher' ? { ...e, quantity: 0 } : e))
    const result = searchSpace(need, { ...drawer, entries: used }, coarsely)
    expect(result.ok ? [] : result.problems.map((p) => p.message)).toEqual([
      'the drawer holds no switcher chip: add one',
    ])
  })
})
