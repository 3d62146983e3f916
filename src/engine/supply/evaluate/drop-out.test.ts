import { expect, test } from 'vitest'
import { powerCeiling } from '../../converter/ceiling.ts'
import { dropOutBulk_V } from './drop-out.ts'

test.each([
  [99, 910e-6, 1.02, 0.67, 29],
  [99, 910e-6, 1.5, 0.67, 29],
  [120, 450e-6, 3, 0.64, 110],
])(
  'at the drop-out voltage the ceiling is the power: Vor %f, L %f, limit %f',
  (vor, L, limit, duty, power) => {
    const volts = dropOutBulk_V(vor, L, 1e5, limit, duty, power)
    const above = powerCeiling(volts * 1.001, vor, L, 1e5, limit, duty).average_A * volts * 1.001
    expect(above).toBeGreaterThanOrEqual(power * 0.999)
    const below = powerCeiling(volts * 0.98, vor, L, 1e5, limit, duty)
    expect(below.average_A * volts * 0.98 < power || below.stoppedBy === 'duty').toBe(true)
  },
)
