import { describe, expect, it } from 'vitest'
import { surfaceResistance, surfaceRise } from '../../../src/engine/heat/index.ts'

describe('ETD34 with bobbin (Dixon, Magnetics Design Handbook sect. 5)', () => {
  // The block of core and winding, 34 x 34 x 25 mm, less the face on the board. 20 % is the formula's own uncertainty.
  const surface = (34 * 34 * 2 + 34 * 25 * 4 - 34 * 34) * 1e-6

  it('has 19 K/W at 2.1 W', () => {
    expect(Math.abs(surfaceResistance(2.1, surface) / 19 - 1)).toBeLessThan(0.2)
  })

  it('stays below the 40 K limit at the example loss of 1.71 W', () => {
    expect(surfaceRise(1.71, surface)).toBeLessThan(40)
  })
})
