import { assess, type Limit } from '../../limits/index.ts'
import type { Design } from '../../supply/design.ts'
import { at } from '../../supply/evaluate.ts'
import type { Readings } from '../../supply/reading.ts'
import type { Supply } from '../../supply/supply.ts'
import { frozen } from './frozen.ts'

/** What a build reads with its secondary wound of other whole turns, all else as it is. */
export interface TurnStep {
  readonly secondaryTurns: number
  /** At highest input and full load: where drain and rectifier stand most. */
  readonly high: Readings
  /** At lowest input and full load: where duty and currents are largest. */
  readonly low: Readings
  readonly givesFirst: Limit
}

/** A build with another secondary; primary, bias, gap, clamp and board stay. The order of layers is chosen anew. */
function withSecondary(design: Design, secondaryTurns: number): Supply {
  const built = frozen(design)
  const transformer = { ...built.build.transformer, secondaryTurns, stack: null }
  return { ...built, build: { ...built.build, transformer } }
}

/**
 * The reflected voltage in steps of one turn of the secondary: what each takes from the drain, the rectifier, duty and
 * clamp. Turns with which it does not run at full load are left out.
 */
export function turnSteps(design: Design, span = 2): TurnStep[] {
  const { secondaryTurns } = design.transformer
  const turns = Array.from({ length: 2 * span + 1 }, (_, k) => secondaryTurns - span + k)
  return turns.flatMap((n): TurnStep[] => {
    if (n < 1) return []
    const judged = assess(withSecondary(design, n))
    if (!judged.ok) return []
    const { evaluation, givesFirst } = judged.value
    const high = at(evaluation, 'maximum-100')
    const low = at(evaluation, 'minimum-100')
    return high && low ? [{ secondaryTurns: n, high: high.readings, low: low.readings, givesFirst }] : []
  })
}
