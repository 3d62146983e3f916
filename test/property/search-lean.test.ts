import { describe, expect, test } from 'vitest'
import { type Assessment, assess } from '../../src/engine/limits/index.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import type { LeanAnswer, LeanMeasures } from '../../src/engine/search/lean/answer.ts'
import { judgeFrame, tryCopper } from '../../src/engine/search/lean/decide.ts'
import { lossSlack, newTally, slack, type Tally } from '../../src/engine/search/lean/tally.ts'
import { buildOf, type Candidate, copperOf, supplyFrom } from '../../src/engine/search/space/candidate.ts'
import { framesOf, type Ground, groundOf } from '../../src/engine/search/space/frames.ts'
import { searchOptions } from '../../src/engine/search/space/options.ts'
import { shuffled } from '../../src/engine/search/space/shuffle.ts'
import { type Space, searchSpace } from '../../src/engine/search/space/space.ts'
import { benchOf } from '../../src/engine/search/step.ts'
import { randomNeed } from '../reference/search/proof/random-need.ts'

/** Needs, blocks of each, and candidates of each block: those near the edge, and any. */
const drawn = { needs: 30, blocks: 6, near: 20, any: 3 }
/** Lean margins from here on are near the edge. */
const nearEdge = -0.03

/** Of most needs drawn at random hardly a candidate holds: every second one is asked for less. */
const easier = { ambient_C: 25, cooling: 'case-vented', feeds: 'charging', holdUp_s: 0 } as const

interface Try {
  readonly c: Candidate
  readonly lean: LeanAnswer
  readonly tally: Tally
  /** What was taken for it on the way, to see whether it is outdone. */
  readonly told: readonly LeanMeasures[]
}
interface Seen extends Try {
  readonly name: string
  readonly whole: Assessment
}

/** What the lean and the whole evaluation say of candidates from all over the starter drawer. */
function look(): Seen[] {
  const seen: Seen[] = []
  for (let n = 0; n < drawn.needs; n++) {
    const need = randomNeed(7, n)
    const asked = n % 2 === 0 ? need : { ...need, ...easier, output_A: Math.min(3, need.output_A) }
    const space = searchSpace(asked, starterDrawer, searchOptions('usual'))
    if (!space.ok) continue
    const likely = space.value.blocks.slice(0, 10)
    for (const block of shuffled(likely, n + 1).slice(0, drawn.blocks)) {
      const ground = groundOf(space.value, block)
      if (ground === null) continue
      const tries = shuffled(triesOf(space.value, ground), n)
      const near = tries.filter(({ tally }) => tally.margin > nearEdge)
      for (const one of [...near.slice(0, drawn.near), ...tries.slice(0, drawn.any)]) {
        const whole = assess(supplyFrom(space.value, buildOf(space.value, ground, one.c), ''))
        if (whole.ok) seen.push({ ...one, name: `need ${n}`, whole: whole.value })
      }
    }
  }
  return seen
}

function triesOf(space: Space, ground: Ground): Try[] {
  const bench = benchOf(space)
  return [...framesOf(space, ground)].flatMap((frame) =>
    [...copperOf(frame)].flatMap((c): Try[] => {
      const tally = newTally()
      const told: LeanMeasures[] = []
      const outdone = (m: LeanMeasures) => {
        told.push(m)
        return false
      }
      const stand = bench.stand(ground, frame)
      if (stand === null || typeof stand === 'string') return []
      const framed = judgeFrame(bench, ground, frame, tally)
      const lean: LeanAnswer = framed
        ? tryCopper(bench, ground, stand, c, framed.gap, tally, { all: false, outdone })
        : { is: 'breaks' }
      tally.margin = Math.min(tally.margin, stand.fixed.margin)
      return [{ c, lean, tally, told }]
    }),
  )
}

/** Limits that break so rarely alone that only the whole evaluation looks at them. */
const leftToTheWhole = 0.08

describe('the lean evaluation beside the whole, all over the starter drawer', () => {
  const all = look()
  const holding = all.filter(({ whole }) => whole.holds)

  test('enough of both kinds are seen', () => {
    expect(all.length).toBeGreaterThan(600)
    expect(holding.length).toBeGreaterThan(50)
  })
  test('nothing that holds every limit is let go', () => {
    expect(
      holding.filter(({ lean }) => lean.is !== 'holds').map(({ name, tally }) => ({ name, ...tally })),
    ).toEqual([])
  })
  test('where a limit is broken in earnest, it is broken in the whole evaluation too', () => {
    for (const { name, whole, lean, tally } of all) {
      if (lean.is !== 'breaks') continue
      expect(whole.holds, `${name}: ${tally.id} ${tally.margin}`).toBe(false)
    }
  })
  test('its margin is never less than the weakest of all limits, and its loss never more than the whole', () => {
    let close = 0
    let held = 0
    for (const { name, whole, lean, tally } of all) {
      if (lean.is !== 'holds') continue
      const first = whole.givesFirst
      expect(lean.margin, `${name}: ${first.id} against ${tally.id}`).toBeGreaterThanOrEqual(
        first.margin - slack,
      )
      const low = whole.evaluation.conditions.find((k) => k.condition.id === 'minimum-100')!
      if (!low.runs) continue
      const more = lean.loss_W / low.readings.loss_W - 1
      expect(more, name).toBeLessThan(lossSlack)
      held++
      if (more > -0.01) close++
    }
    // Less only where the evaluation settles on the dearer side of the boundary of modes.
    expect(close / held).toBeGreaterThan(0.95)
  })
  test('on the way too it is never taken for worse than it is', () => {
    let seen = 0
    for (const { name, whole, told } of holding) {
      const low = whole.evaluation.conditions.find((k) => k.condition.id === 'minimum-100')!
      for (const { loss_W, margin } of told) {
        if (low.runs) expect(loss_W / low.readings.loss_W - 1, name).toBeLessThan(lossSlack)
        expect(margin, name).toBeGreaterThanOrEqual(whole.givesFirst.margin - slack)
        seen++
      }
    }
    expect(seen).toBeGreaterThan(2 * holding.length)
  })
  test('it sees nearly every limit that decides', () => {
    const held = all.filter(({ lean }) => lean.is === 'holds')
    const broken = held.filter(({ whole }) => !whole.holds && whole.givesFirst.margin < -2 * slack)
    const by = new Map<string, number>()
    for (const { whole } of broken) by.set(whole.givesFirst.id, (by.get(whole.givesFirst.id) ?? 0) + 1)
    expect(broken.length / held.length, JSON.stringify([...by])).toBeLessThan(leftToTheWhole)
  })
})
