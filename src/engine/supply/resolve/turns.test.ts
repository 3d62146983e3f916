import { describe, expect, test } from 'vitest'
import { demoSupplies } from '../../demo/index.ts'
import { assess } from '../../limits/index.ts'
import { starterDrawer } from '../../parts/starter/index.ts'
import type { Supply } from '../supply.ts'

const open = {
  primaryTurns: null,
  secondaryTurns: null,
  reflectedVoltage_V: null,
  rippleRatio: null,
  gap_m: null,
}

/** A supply with every choice of turns left to the tool, and another core of the drawer where it is named. */
function chosen(supply: Supply, size?: string) {
  const changed = structuredClone(supply)
  Object.assign(changed.build.transformer, open)
  if (size) {
    const entries = starterDrawer.entries.map((e) => e.part)
    const core = entries.find((p) => p.kind === 'core' && p.size === size)!
    const former = entries.find((p) => p.kind === 'former' && p.fits.includes(size))!
    changed.parts.push(core, former)
    Object.assign(changed.build.places, { core: core.id, former: former.id })
  }
  const judged = assess(changed)
  if (!judged.ok) throw new Error(judged.problems[0]!.message)
  return judged.value
}

const sizes = ['ETD29/16/10', 'ETD34/17/11', 'ETD39/20/13', 'PQ32/30', 'RM12'].filter((size) =>
  starterDrawer.entries.some(({ part }) => part.kind === 'core' && part.size === size),
)

// B = L I/(N A) at the greatest limit, and at what a short climbs to, stays below the hot curve of the ferrite: the limit
// is worked out by the evaluation from the readings, the turns by the plan before there are any.
describe.each(demoSupplies())('turns left open: $name', (supply) => {
  test.each(sizes)('flux holds on %s, or no more turns would make it', (size) => {
    const { limits, evaluation } = chosen(supply, size)
    const flux = limits.find((l) => l.id === 'core.saturation')!
    if (flux.holds) return
    // only a core far too small is left to saturate: it cannot be wound with more
    expect(evaluation.fixed.windowFill).toBeGreaterThan(1)
  })
  test('the chip gets its supply at the lowest output, and no more than it stands in overload', () => {
    const { limits } = chosen(supply)
    for (const id of ['switcher.bias-low', 'switcher.bias-high'])
      expect(limits.find((l) => l.id === id)!.margin, id).toBeGreaterThan(0)
  })
})
