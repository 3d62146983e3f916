import { describe, expect, it } from 'vitest'
import { dormandPrince, newStages } from './dormand-prince.ts'

/** Error at t = 1 of dy/dt = -y + sin 3t, y(0) = 1, with even steps. */
function error(steps: number): number {
  const derivative = (t: number, y: Float64Array, out: Float64Array): void => {
    out[0] = -y[0]! + Math.sin(3 * t)
  }
  const stages = newStages(1)
  const y = Float64Array.of(1)
  const next = new Float64Array(1)
  const h = 1 / steps
  for (let k = 0; k < steps; k++) {
    derivative(k * h, y, stages.k1)
    dormandPrince(derivative, k * h, h, y, next, stages, [1])
    y.set(next)
  }
  // y = (1 + 3/10) e^-t + (sin 3t - 3 cos 3t)/10
  const exact = 1.3 * Math.exp(-1) + (Math.sin(3) - 3 * Math.cos(3)) / 10
  return Math.abs(y[0]! - exact)
}

describe('Dormand-Prince step', () => {
  it('is of order five over a factor of eight in the step (0.3 for the next order at the coarse end)', () => {
    const order = Math.log2(error(8) / error(64)) / 3
    expect(Math.abs(order - 5)).toBeLessThan(0.3)
  })
})
