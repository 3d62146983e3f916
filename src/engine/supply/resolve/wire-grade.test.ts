import { describe, expect, test } from 'vitest'
import type { Wire } from '../../parts/part.ts'
import type { Design } from '../design.ts'
import { wireGrade } from './wire-grade.ts'

const enamelled = { construction: 'enamelled' } as Wire
const insulated = (insulation: 'basic' | 'reinforced') =>
  ({ construction: 'triple-insulated', insulation }) as Wire
const grade = (secondaryWire: Wire, primaryWire: Wire, biasWire: Wire) =>
  wireGrade({ parts: { secondaryWire, primaryWire, biasWire } as Design['parts'] })

// What lies against what is geometry: every pair of a secondary and a primary-side winding must hold insulation.
describe('wireGrade', () => {
  test('an insulated secondary is enough', () =>
    expect(grade(insulated('reinforced'), enamelled, enamelled)).toBe('reinforced'))
  test('an insulated primary alone leaves the bias winding bare against the secondary', () =>
    expect(grade(enamelled, insulated('reinforced'), enamelled)).toBeNull())
  test('the weaker of primary and bias counts', () => {
    expect(grade(enamelled, insulated('reinforced'), insulated('basic'))).toBe('basic')
    expect(grade(insulated('basic'), insulated('reinforced'), insulated('reinforced'))).toBe('reinforced')
  })
})
