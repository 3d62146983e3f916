import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type DcElement, readMeter } from './dc-network.ts'

const meter = { red: 'a', black: 'b', open_V: 3, series_ohm: 3000 }
const r = (a: string, b: string, ohm: number): DcElement => ({ kind: 'resistor', a, b, ohm })
const d = (anode: string, cathode: string, drop_V: number): DcElement => ({
  kind: 'diode',
  anode,
  cathode,
  drop_V,
  slope_ohm: 20,
})
const across = (elements: readonly DcElement[]): number => {
  const reading = readMeter(elements, meter)
  if (!reading.ok) throw new Error(reading.message)
  return reading.across_V
}

describe('against hand calculation', () => {
  test('divider: 3 V over 3 kohm into 2 kohm is 1.2 V', () => {
    expect(across([r('a', 'b', 2000)])).toBeCloseTo(1.2, 6)
  })
  test('nothing connected shows the open voltage', () => {
    expect(across([])).toBeCloseTo(3, 5)
  })
  test('diode forward: drop and slope, (3 - 0.5)/3020 times 20 ohm above 0.5 V', () => {
    expect(across([d('a', 'b', 0.5)])).toBeCloseTo(0.5 + (20 * 2.5) / 3020, 6)
  })
  test('diode backwards is open', () => {
    expect(across([d('b', 'a', 0.5)])).toBeCloseTo(3, 5)
  })
  test('a bridge measured across its output shows two drops', () => {
    const bridge = [d('n1', 'a', 0.6), d('n2', 'a', 0.6), d('b', 'n1', 0.6), d('b', 'n2', 0.6)]
    const reading = readMeter(bridge, { ...meter, red: 'b', black: 'a' })
    expect(reading.ok && reading.across_V).toBeCloseTo(1.2, 1)
  })
  test('a resistor across an LED keeps it dark: 2.2 kohm holds 3 V over 3 kohm at 1.27 V', () => {
    expect(across([r('a', 'b', 2200), d('a', 'b', 1.5)])).toBeCloseTo((3 * 2200) / 5200, 4)
  })
})

test('a ladder of resistors is the parallel and series sum', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 10, max: 1e6 }), { minLength: 1, maxLength: 8 }), (values) => {
      const parallel = values.map((ohm) => r('a', 'b', ohm))
      const sum = 1 / values.reduce((g, ohm) => g + 1 / ohm, 0)
      // The tie that holds floating nodes, 0.1 nS a node, is below 1e-4 of a megohm.
      expect(across(parallel) / ((3 * sum) / (sum + 3000))).toBeCloseTo(1, 3)
    }),
  )
})
