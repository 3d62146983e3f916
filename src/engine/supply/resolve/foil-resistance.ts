import { postGap, stackField, stackResistances } from '../../magnetics/field/index.ts'
import type { StackLayout } from '../../magnetics/stack/index.ts'

/** Stacks whose field is kept: editing, and a search for changes, go back and forth between them. */
const kept = 256
const known = new Map<string, readonly Float64Array[] | null>()

/** Length of the gap as the field of a foil sees it; a few tenths of a millimetre either way hardly matter, m. */
const gapLength_m = 0.3e-3

/** More turns of foil than a hand winds; the time of a solution grows with their square. */
const mostFoils = 24

/** True of a coil with foil that can be wound: it fits, and its foils are few. */
export const hasFewFoils = ({ input, layers, fill }: StackLayout): boolean => {
  const foils = layers.reduce(
    (sum, { winding, turns }) => sum + (input.wires[winding]?.wire.construction === 'foil' ? turns : 0),
    0,
  )
  return foils > 0 && foils <= mostFoils && fill <= 1
}

/**
 * Resistance matrices of a stack with foil at a few frequencies, from the field solution: the current of a foil moves
 * to its edges and away from the gap, which no closed form of ours describes. Some 20 ms for a stack that is not known
 * yet. Null where the field has no solution.
 */
export function foilResistances(
  layout: StackLayout,
  gap: { readonly post: number; readonly outerLegs: number },
  frequencies_Hz: readonly number[],
  temperature_C: number,
): readonly Float64Array[] | null {
  const key = JSON.stringify([layout.input, gap, frequencies_Hz, temperature_C])
  const before = known.get(key)
  if (before !== undefined) return before
  const outer = { wall: 'outer' as const, z_m: 0, length_m: gapLength_m, share: gap.outerLegs }
  const gaps = [...postGap(gapLength_m, gap.post), ...(gap.outerLegs > 0 ? [outer] : [])]
  const solved = stackResistances(stackField(layout, gaps), frequencies_Hz, temperature_C)
  const answer = solved.ok ? solved.matrices.map((matrix) => matrix.resistance_ohm) : null
  known.set(key, answer)
  if (known.size > kept) known.delete(known.keys().next().value!)
  return answer
}
