import { expect, test } from 'vitest'
import { r1 } from '../../../test/reference/r1/r1.ts'
import { cornerMargins } from '../loop/index.ts'
import type { Build } from './build.ts'
import { evaluate, resolve } from './evaluate.ts'
import { loopCorners, suggestCompensation } from './loop-corners.ts'

const evaluated = (feedback: Partial<Build['feedback']> = {}) => {
  const design = resolve(r1({ build: { feedback } }))
  if (!design.ok) throw new Error(design.problems[0]!.message)
  return evaluate(design.value)
}

test('R1 has corners at both ends of input, load and transfer ratio, and crosses over at each', () => {
  const corners = loopCorners(evaluated())
  expect(corners).toHaveLength(8)
  for (const { margins } of cornerMargins(corners).corners) expect(margins.ok).toBe(true)
})

test('a suggested network leaves more phase at the worst corner than the unsuited one', () => {
  const plain = evaluated()
  const answer = suggestCompensation(plain)
  if (!answer.ok) throw new Error(answer.message)
  const suited = cornerMargins(loopCorners(evaluated(answer.network))).leastPhase!.phaseMargin_deg
  expect(suited).toBeGreaterThan(cornerMargins(loopCorners(plain)).leastPhase!.phaseMargin_deg)
  expect(suited).toBeCloseTo(answer.margins.leastPhase!.phaseMargin_deg, 6)
})
