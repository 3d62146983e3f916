import { coldChecks } from './cold-checks.ts'
import { lampChecks } from './lamp-checks.ts'
import { lineChecks } from './line-checks.ts'
import { lowEnergyChecks } from './low-energy-checks.ts'
import type { CheckSpec } from './spec.ts'
import { transformerChecks } from './transformer-checks.ts'

/** Every check that a plan or the fault finder knows, in the order of the bench. */
export const checkSpecs: readonly CheckSpec[] = [
  ...coldChecks,
  ...transformerChecks,
  ...lowEnergyChecks,
  ...lampChecks,
  ...lineChecks,
]

export const specById: ReadonlyMap<string, CheckSpec> = new Map(checkSpecs.map((spec) => [spec.id, spec]))
