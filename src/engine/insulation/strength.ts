import { requireBetween } from '../quantity/require.ts'
import type { Grade } from './distances.ts'
import { strengthTest_V } from './tables.ts'

/**
 * Electric strength test voltage by mains transient, V peak for 60 s; divide by 1.414 for an AC test's rms value. A
 * discharge hazard and a matter for trained people with rated equipment: here only as a figure to know.
 */
export function strengthTest(transient_V: number, grade: Grade): number {
  requireBetween('transient_V', transient_V, 1, 6000, 'V')
  const row = strengthTest_V.find(([transient]) => transient_V <= transient)!
  return grade === 'basic' ? row[1] : row[2]
}

/**
 * Tape layers between windings: reinforced two layers when each stands the whole test, three when any two of three do
 * (IEC 62368-1 thin sheet rule, memory); basic one.
 */
export function requiredTapeLayers(grade: Grade, layerStrength_V: number, test_V: number): number {
  requireBetween('layerStrength_V', layerStrength_V, 1, 1e6, 'V')
  if (grade === 'basic') return Math.max(1, Math.ceil(test_V / layerStrength_V))
  if (layerStrength_V >= test_V) return 2
  return Math.max(3, Math.ceil(test_V / layerStrength_V) + 1)
}
