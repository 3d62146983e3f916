import { expect, test } from 'vitest'
import { bulkDischarge, dischargeResistor } from './bulk-discharge.ts'

const r1Bulk = { bulkCapacitance_F: { minimum: 54e-6, typical: 68e-6, maximum: 82e-6 } }

// R1 by hand: 4.8 J at 375 V; and the exponential in small steps.
test('energy and time of R1', () => {
  const { energy_J, time_s } = bulkDischarge(r1Bulk, 375)
  expect(energy_J).toBeCloseTo(4.78, 2)
  let v = 375
  let t = 0
  for (const dt = 1e-5; v > dischargeResistor.to_V; t += dt)
    v -= (v / dischargeResistor.resistance_ohm / r1Bulk.bulkCapacitance_F.maximum) * dt
  expect(time_s).toBeCloseTo(t, 2)
})

// Makers of wirewound resistors give five times the power for five seconds (common practice, no source).
test('the resistor stands the highest bulk that a supply may have', () => {
  const { resistance_ohm, power_W, voltage_V } = dischargeResistor
  expect(voltage_V).toBeGreaterThan(420)
  expect(420 ** 2 / resistance_ohm).toBeLessThan(5 * power_W)
})
