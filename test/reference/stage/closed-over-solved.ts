import { type CycleFigures, cornerById, proveGroup } from '../../../src/engine/stage/index.ts'
import { resolve } from '../../../src/engine/supply/evaluate.ts'
import type { Supply } from '../../../src/engine/supply/supply.ts'

/** Closed form over solved circuit at a corner, figure by figure. */
export function closedOverSolved(supply: Supply, corner: string): (id: keyof CycleFigures) => number {
  const design = resolve(supply)
  if (!design.ok) throw new Error(design.problems[0]!.message)
  const [solved] = proveGroup(design.value, [cornerById.get(corner)!])
  if (!solved!.ok) throw new Error(solved!.message)
  const { comparisons } = solved!
  return (id) => {
    const found = comparisons.find((c) => c.id === id)!
    return found.closed / found.solved
  }
}
