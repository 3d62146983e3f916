import { expect, test } from 'vitest'
import type { Finding, Proof } from '../engine/stage/index.ts'
import { cornerById } from '../engine/stage/index.ts'
import { proofVerdict } from './prove-text.ts'

const proofWith = (codes: readonly Finding['code'][], id = 'maximum-mean-10-typical-warm'): Proof => {
  const corner = cornerById.get(id)!
  const findings = codes.map((code): Finding => ({ code, corner, sentence: '' }))
  return {
    depth: 'periodic steady state',
    corners: [{ corner, ok: false, code: 'no-cycle', message: '' }],
    findings,
    readings: { conditions: [], fixed: {} as Proof['readings']['fixed'] },
    limits: [],
  }
}

test('the verdict of a proof says what its exit code says: loads that are not held count', () => {
  expect(proofVerdict(proofWith([]))).toBe(
    '0 of 1 corners solved. All 0 limits hold (periodic steady state).',
  )
  expect(proofVerdict(proofWith(['subharmonic']))).toContain(', but 1 load is not held as asked')
  expect(proofVerdict(proofWith(['unsolved', 'cannot-hold']))).toContain(', but 2 loads are not held')
  expect(proofVerdict(proofWith(['skips', 'restless']))).not.toContain('but')
  expect(proofVerdict(proofWith(['subharmonic'], 'short-maximum'))).not.toContain('but')
})
