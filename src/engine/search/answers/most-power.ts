import type { Limit } from '../../limits/index.ts'
import type { Drawer } from '../../parts/part.ts'
import { type Need, need as needSchema } from '../../supply/need.ts'
import { fail, type Result, succeed } from '../../supply/result.ts'
import type { Answer } from '../front.ts'
import { searchOptions } from '../space/options.ts'
import { type Space, searchSpace } from '../space/space.ts'
import { searchAll } from '../step.ts'
import { whyNot } from './why-not.ts'
import { limitText, remedyText } from './words.ts'

/** The most that one core and one chip give at the output voltage of a need. */
export interface MostPower {
  readonly output_A: number
  readonly power_W: number
  readonly space: Space
  readonly front: readonly Answer[]
  /** What stops a little more; null where the need itself ends there. */
  readonly limit: Limit | null
}

/** Steps of current between what is found and what is not. */
const ratioStep = 1.5
const enough = 1.04
const mostSteps = 16

/**
 * The greatest output current at which a core and a chip of the drawer still hold every limit, within 4 %: steps of
 * half up from a quarter of what the need asks, then halving the last step. What holds at more but not at less is not
 * looked for. Errors: a space that cannot be made, or nothing held even at the least.
 */
export function mostPower(
  need: Need,
  drawer: Drawer,
  only: { readonly core?: string; readonly switcher?: string },
): Result<MostPower> {
  const at = (output_A: number): { space: Space; front: readonly Answer[] } | null => {
    const asked = { ...need, output_A }
    if (!needSchema.safeParse(asked).success) return null
    const space = searchSpace(asked, drawer, searchOptions('usual', only))
    return space.ok ? { space: space.value, front: searchAll(space.value).front } : null
  }
  const checked = searchSpace(need, drawer, searchOptions('usual', only))
  if (!checked.ok) return checked
  if (checked.value.blocks.length === 0)
    return fail('drawer', 'the drawer does not hold this core and this switcher')
  let low_A = 0
  let best: { space: Space; front: readonly Answer[] } | null = null
  let high_A = Math.max(0.02, need.output_A / 4)
  for (let step = 0; step < mostSteps; step++) {
    const found = at(high_A)
    if (!found || found.front.length === 0) {
      if (best !== null || step > 6) break
      high_A /= ratioStep
      if (high_A < 0.02) break
      continue
    }
    best = found
    low_A = high_A
    high_A *= ratioStep
  }
  if (best === null) {
    const stops = stopsAt({ ...need, output_A: Math.max(0.02, need.output_A / 4) }, drawer, only)
    return fail(
      'need.output_A',
      `not even a quarter of ${need.output_A} A can be had from this core and switcher${stops ? `: ${limitText(stops)}; ${remedyText(stops)}` : ''}`,
    )
  }
  while (high_A / low_A > enough) {
    const middle_A = Math.sqrt(low_A * high_A)
    const found = at(middle_A)
    if (found && found.front.length > 0) {
      best = found
      low_A = middle_A
    } else high_A = middle_A
  }
  const output_A = Number(low_A.toPrecision(3))
  return succeed({
    output_A,
    power_W: output_A * need.output_V,
    space: best.space,
    front: best.front,
    limit: stopsAt({ ...need, output_A: high_A }, drawer, only),
  })
}

function stopsAt(
  need: Need,
  drawer: Drawer,
  only: { readonly core?: string; readonly switcher?: string },
): Limit | null {
  if (!needSchema.safeParse(need).success) return null
  const space = searchSpace(need, drawer, searchOptions('usual', only))
  if (!space.ok) return null
  const block = space.value.blocks[0]!
  const reasons = whyNot(space.value, {
    ...searchAll(space.value),
    cores: space.value.cores.flatMap((_, i) => (i === block.core ? [] : [i])),
    switchers: space.value.switchers.map((_, i) => i),
  })
  return reasons.find((r) => r.of === 'core' && r.limit !== null)?.limit ?? null
}
