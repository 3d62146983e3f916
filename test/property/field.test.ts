import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  inductanceMatrix_H,
  leakage_H,
  postGap,
  stackField,
  stackResistances,
  windowInductance_H,
} from '../../src/engine/magnetics/field/index.ts'
import {
  layerFields,
  layOut,
  leakageClosedForm,
  recommendStack,
  resistanceClosedForm,
  type StackLayout,
  wirePositions,
} from '../../src/engine/magnetics/stack/index.ts'
import { enamelled, sampleStack } from '../support/sample-stack.ts'

/** Usual small stacks: what a person would wind on an E25-like core. */
const stacks = fc
  .record({
    primary: fc.integer({ min: 25, max: 90 }),
    secondary: fc.integer({ min: 3, max: 20 }),
    bias: fc.integer({ min: 3, max: 18 }),
    splitPrimary: fc.boolean(),
    biasPlace: fc.constantFrom('between', 'after'),
    barrier: fc.integer({ min: 1, max: 4 }),
    margin_mm: fc.constantFrom(0, 1.5, 3),
    primaryWire_mm: fc.constantFrom(0.2, 0.25, 0.315),
    secondaryWire_mm: fc.constantFrom(0.4, 0.5),
    inHand: fc.integer({ min: 1, max: 3 }),
    coveredFraction: fc.constantFrom(0.45, 0.7, 1),
  })
  .map((s): StackLayout => {
    const base = sampleStack()
    const laid = layOut({
      ...base,
      stack: recommendStack({
        primary: { name: 'primary', turns: s.primary, pins: [1, 2] },
        secondary: { name: 'secondary', turns: s.secondary, pins: [10, 9] },
        bias: { name: 'bias', turns: s.bias, pins: [4, 5] },
        splitPrimary: s.splitPrimary,
        splitPin: 3,
        biasPlace: s.biasPlace as 'between' | 'after',
        barrierTapeLayers: s.barrier,
        outerTapeLayers: 2,
      }),
      wires: {
        primary: { wire: enamelled(s.primaryWire_mm), inHand: 1 },
        secondary: { wire: enamelled(s.secondaryWire_mm), inHand: s.inHand },
        bias: { wire: enamelled(0.2), inHand: 1 },
      },
      margin_m: s.margin_mm / 1000,
      core: { ...base.core, coveredFraction: s.coveredFraction },
    })
    if (!laid.ok) throw new Error(laid.errors[0]!.message)
    return laid.layout
  })
  .filter((layout) => layout.fit !== 'does-not-fit')

/** Positive definite by Cholesky, after scaling the diagonal to one. */
const positiveDefinite = (matrix: Float64Array, n: number, slack: number): boolean => {
  const l = Array.from({ length: n }, () => new Float64Array(n))
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * n + j]! / Math.sqrt(matrix[i * n + i]! * matrix[j * n + j]!)
      if (i === j) sum += slack
      for (let k = 0; k < j; k++) sum -= l[i]![k]! * l[j]![k]!
      if (i === j) {
        if (!(sum > 0)) return false
        l[i]![i] = Math.sqrt(sum)
      } else l[i]![j] = sum / l[j]![j]!
    }
  return true
}

const symmetric = (matrix: Float64Array, n: number): void => {
  for (let i = 0; i < n; i++)
    for (let j = 0; j < i; j++) expect(matrix[i * n + j]! / matrix[j * n + i]!).toBeCloseTo(1, 6)
}

const settings = { numRuns: 60, seed: 20240607 }
const gaps = postGap(0.3e-3, 0.9)

describe('any usual stack', () => {
  it('has a reciprocal and positive definite inductance matrix', () => {
    fc.assert(
      fc.property(stacks, (layout) => {
        const field = stackField(layout, gaps)
        const n = layout.windings.length
        const window = windowInductance_H(field)
        symmetric(window, n)
        expect(positiveDefinite(window, n, 0)).toBe(true)
        const whole = inductanceMatrix_H(field, 250e-9)!
        symmetric(whole, n)
        expect(positiveDefinite(whole, n, 0)).toBe(true)
        const turns = field.sections[0]!.section.model.turns
        const forth = leakage_H(field, 'primary', 'secondary')! / turns[0]! ** 2
        const at = layout.windings.indexOf('secondary')
        const back = leakage_H(field, 'secondary', 'primary')! / turns[at]! ** 2
        expect(forth / back).toBeCloseTo(1, 9)
      }),
      settings,
    )
  })

  it('has a closed-form leakage within 15 % of the field solution', () => {
    fc.assert(
      fc.property(stacks, (layout) => {
        const field = stackField(layout, gaps)
        for (const [a, b] of [
          ['primary', 'secondary'],
          ['primary', 'bias'],
        ] as const) {
          const ratio = leakageClosedForm(layout, a, b)!.leakage_H / leakage_H(field, a, b)!
          expect(Math.abs(ratio - 1)).toBeLessThan(0.15)
        }
      }),
      settings,
    )
  })

  it('has symmetric resistance matrices without negative loss, both ways', () => {
    fc.assert(
      fc.property(stacks, fc.constantFrom(5e4, 1e5, 4e5), (layout, frequency_Hz) => {
        const n = layout.windings.length
        const solved = stackResistances(stackField(layout, gaps), [frequency_Hz], 80)
        expect(solved.ok).toBe(true)
        if (!solved.ok) return
        const closed = resistanceClosedForm(
          layerFields(layout, { post: 0.9, outerLegs: 0 }),
          frequency_Hz,
          80,
        )
        for (const { resistance_ohm } of [solved.matrices[0]!, closed]) {
          symmetric(resistance_ohm, n)
          expect(positiveDefinite(resistance_ohm, n, 1e-9)).toBe(true)
        }
      }),
      { ...settings, numRuns: 30 },
    )
  })

  it('lies inside the window between its margins', () => {
    fc.assert(
      fc.property(stacks, (layout) => {
        const half = layout.availableWidth_m / 2
        for (const layer of layout.layers) {
          expect(layer.axialStart_m).toBeGreaterThanOrEqual(-half - 1e-9)
          const { wire } = layout.input.wires[layer.winding]!
          const radius = wire.construction === 'enamelled' ? wire.overall_m / 2 : 0
          const positions = wirePositions(layout, layer)
          for (let i = 1; i < positions.length; i += 2)
            expect(Math.abs(positions[i]!) + radius).toBeLessThanOrEqual(half + 1e-9)
        }
      }),
      settings,
    )
  })
})
