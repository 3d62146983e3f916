import type { Limit } from '../../limits/index.ts'
import type { Drawer } from '../../parts/part.ts'
import { type Need, need as needSchema } from '../../supply/need.ts'
import { fail, type Result, succeed } from '../../supply/result.ts'
import type { Answer } from '../front.ts'
import { searchOptions } from '../space/options.ts'
import { type Space, searchSpace } from '../space/space.ts'
import { searchAll } from '../step.ts'
import { type WhyNot, whyNot } from './why-not.ts'

/** The most that one core and one chip give at the output voltage of a need. */
export interface MostPower {
  readonly output_A: number
  readonly power_W: number
  readonly space: Space
  readonly front: readonly Answer[]
  /** What stops a little more; null where the need itself ends there. */
  readonly limit: Limit | null
}

/** Ratio of currents between what is found and what is not. */
const ratioStep = 1.5
const enough = 1.04
/** Steps up and down from the need within which something must hold. */
const reach = 6
const mostRises = 16
/** Currents tried until one holds, as parts of the need: the need itself, then outwards from it. */
const starts = [0, ...Array.from({ length: reach }, (_, i) => [-(i + 1), i + 1]).flat()].map(
  (exponent) => ratioStep ** exponent,
)

interface Found {
  readonly space: Space
  readonly front: readonly Answer[]
}

/**
 * The greatest output current at which a core and a chip of the drawer still hold every limit, within 4 %: from the
 * current nearest to the need that holds, steps of half upwards, then halving the last step. What holds beyond a
 * current that does not is not looked for. Errors: a space that cannot be made, or nothing held near the need at all.
 */
export function mostPower(
  need: Need,
  drawer: Drawer,
  only: { readonly core?: string; readonly switcher?: string },
): Result<MostPower> {
  const checked = searchSpace(need, drawer, searchOptions('usual', only))
  if (!checked.ok) return checked
  if (checked.value.blocks.length === 0)
    return fail('drawer', 'the drawer does not hold this core and this switcher')
  const at = (output_A: number): Found | null => {
    const asked = { ...need, output_A }
    if (!needSchema.safeParse(asked).success) return null
    const space = searchSpace(asked, drawer, searchOptions('usual', only))
    if (!space.ok) return null
    const { front } = searchAll(space.value)
    return front.length === 0 ? null : { space: space.value, front }
  }
  let low_A = 0
  let best: Found | null = null
  for (const ratio of starts) {
    low_A = need.output_A * ratio
    best = at(low_A)
    if (best) break
  }
  if (best === null) {
    const stops = stopsAt(need, drawer, only)
    const why = stops
      ? `; at ${need.output_A} A: ${stops.sentence.slice(stops.name.length + 2).replace(/\.$/, '')}`
      : ''
    return fail('need.output_A', `this core and switcher hold every limit at no current near this one${why}`)
  }
  let high_A = low_A * ratioStep
  for (let rise = 0; rise < mostRises; rise++) {
    const found = at(high_A)
    if (!found) break
    best = found
    low_A = high_A
    high_A *= ratioStep
  }
  while (high_A / low_A > enough) {
    const middle_A = Math.sqrt(low_A * high_A)
    const found = at(middle_A)
    if (found) {
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
    limit: stopsAt({ ...need, output_A: high_A }, drawer, only)?.limit ?? null,
  })
}

function stopsAt(
  need: Need,
  drawer: Drawer,
  only: { readonly core?: string; readonly switcher?: string },
): WhyNot | null {
  if (!needSchema.safeParse(need).success) return null
  const space = searchSpace(need, drawer, searchOptions('usual', only))
  if (!space.ok) return null
  const block = space.value.blocks[0]!
  const reasons = whyNot(space.value, {
    ...searchAll(space.value),
    cores: space.value.cores.flatMap((_, i) => (i === block.core ? [] : [i])),
    switchers: space.value.switchers.map((_, i) => i),
  })
  return reasons.find((r) => r.of === 'core') ?? null
}
