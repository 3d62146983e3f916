import { assess, withLoopLimits } from '../../src/engine/limits/index.ts'
import type { Drawer, Part } from '../../src/engine/parts/part.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import { type Answer, withAnswer } from '../../src/engine/search/front.ts'
import { measuresOf } from '../../src/engine/search/measures.ts'
import { buildOf, copperOf, supplyFrom } from '../../src/engine/search/space/candidate.ts'
import { framesOf, groundOf } from '../../src/engine/search/space/frames.ts'
import type { Grid, SearchOptions } from '../../src/engine/search/space/options.ts'
import type { Space } from '../../src/engine/search/space/space.ts'
import type { Need } from '../../src/engine/supply/need.ts'

export const need: Need = {
  source: { kind: 'mains', minimum_Vrms: 195, nominal_Vrms: 230, maximum_Vrms: 265, frequency_Hz: 50 },
  output_V: 12,
  trimLow_V: 12,
  trimHigh_V: 12,
  output_A: 2,
  ripple_Vpp: 0.12,
  holdUp_s: 0,
  ambient_C: 40,
  cooling: 'case-vented',
  feeds: 'electronics',
  insulation: 'reinforced',
  pollutionDegree: 2,
  altitude_m: 2000,
}

/** Kinds of which a small drawer holds only what is named; everything else it has as the starter drawer. */
const named = new Set<Part['kind']>(['switcher', 'core', 'former', 'material', 'wire', 'diode'])

/** A drawer with few cores, chips, wires and rectifiers, the small parts of the starter drawer round them. */
export function smallDrawer(ids: readonly string[]): Drawer {
  const wanted = new Set(ids)
  return {
    ...starterDrawer,
    name: 'Small drawer',
    entries: starterDrawer.entries.filter(({ part }) => {
      if (part.kind === 'former') return part.fits.some((size) => wanted.has(`core-${slug(size)}`))
      if (part.kind === 'diode') return wanted.has(part.id) || always.has(part.id)
      return !named.has(part.kind) || wanted.has(part.id) || always.has(part.id)
    }),
  }
}

const slug = (size: string) => size.toLowerCase().replaceAll(/[^a-z0-9.]+/g, '-')

/** What no supply of a small drawer can do without, and what its search does not vary. */
const always = new Set([
  'ferrite-pw3b',
  'wire-0.2mm-grade-1',
  'wire-0.8mm-grade-1',
  'diode-ultrafast-1000v-1a',
  'diode-fast-200v-0.2a',
])

/** A coarse grid, so that every candidate can be assessed one by one. */
const coarse: Grid = {
  reflected_V: [80, 110],
  ripples: [0.5, 0.8],
  moreTurns: 1,
  wires: 2,
  around: 1,
  plainPrimary: true,
}
export const coarsely: SearchOptions = { grid: coarse, seed: 1 }

/** The front by assessing every candidate as a whole, loop included: what the search must find. */
export function bruteFront(space: Space): { front: readonly Answer[]; candidates: number; holding: number } {
  let front: readonly Answer[] = []
  let candidates = 0
  let holding = 0
  for (const block of space.blocks) {
    const ground = groundOf(space, block)
    if (ground === null) continue
    for (const frame of framesOf(space, ground))
      for (const c of copperOf(frame)) {
        candidates++
        const build = buildOf(space, ground, c)
        const fast = assess(supplyFrom(space, build, ''))
        if (!fast.ok || !fast.value.holds) continue
        const whole = withLoopLimits(fast.value)
        if (!whole.holds) continue
        holding++
        const { exactLoss_W, ...measures } = measuresOf(space, build, whole)!
        const { id, title, margin } = whole.givesFirst
        front = withAnswer(front, { build, measures, exactLoss_W, limit: { id, title, margin } })
      }
  }
  return { front, candidates, holding }
}
