import { type Gate, transformerGate } from '../engine/bench/index.ts'
import { asPlanned } from '../engine/supply/as-planned.ts'
import type { Supply } from '../engine/supply/supply.ts'
import { assessed } from './supply-file.ts'

/** What the readings of the finished transformer say of it against its plan; null where none were kept. */
export function transformerAsBuilt(supply: Supply): Gate | null {
  const { bulkCapacitance_F: _, ...transformer } = supply.bench.asBuilt
  if (Object.values(transformer).every((measured) => measured == null)) return null
  return transformerGate(assessed(asPlanned(supply)).evaluation, supply.bench.asBuilt)
}

/** Verdict, what each reading says, and what to do, least work first. */
export function asBuiltText({ verdict, reasons, findings, fixes }: Gate): string {
  const said = [...new Set([...reasons, ...findings.map(({ message }) => message)])]
  return [
    `Transformer as built: ${verdict}.`,
    ...said.map((sentence) => `  - ${sentence}`),
    ...fixes.map(({ effort, what }) => `  To do (${effort}): ${what}`),
  ].join('\n')
}

/** The same for programs. */
export const asBuiltForPrograms = ({ verdict, reasons, findings, fixes }: Gate) => ({
  verdict,
  reasons,
  findings: findings.map(({ field, level, message }) => ({ field, level, message })),
  fixes,
})
