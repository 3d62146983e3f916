import { expect, test } from 'vitest'
import { powerCeiling } from '../../converter/ceiling.ts'
import { dropOutBulk_V } from './drop-out.ts'

test.each([
  [99, 910e-6, 1.02, 0.67, 29, 0],
  [99, 910e-6, 1.5, 0.67, 29, 0],
  [120, 450e-6, 3, 0.64, 110, 0],
  // slope compensation that takes a fifth of the limit over the period
  [99, 910e-6, 1.3, 0.67, 29, 26e3],
  [120, 450e-6, 4, 0.64, 110, 80e3],
])(
  'at the drop-out voltage the ceiling is the power: Vor %f, L %f, limit %f, duty %f, power %f, slope %f',
  (vor, L, limit, duty, power, slope) => {
    const volts = dropOutBulk_V(vor, L, 1e5, limit, duty, power, slope)
    const above = powerCeiling(volts * 1.001, vor, L, 1e5, limit, duty, slope).average_A * volts * 1.001
    expect(above).toBeGreaterThanOrEqual(power * 0.999)
    const below = powerCeiling(volts * 0.98, vor, L, 1e5, limit, duty, slope)
    expect(below.average_A * volts * 0.98 < power || below.stoppedBy === 'duty').toBe(true)
  },
)
