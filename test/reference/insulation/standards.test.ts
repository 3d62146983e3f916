import { describe, expect, it } from 'vitest'
import {
  type InsulationBasis,
  ratedImpulse,
  requiredDistances,
  solidLayer_m,
  spacingOuterUncoated,
  spacingPowerConversion,
  strengthTest,
  trackWidth,
} from '../../../src/engine/insulation/index.ts'

const basis: InsulationBasis = {
  mains_Vrms: 240,
  overvoltage: 'II',
  pollutionDegree: 2,
  materialGroup: 'III',
  altitude_m: 0,
  grade: 'basic',
  working_Vrms: 250,
  working_Vpeak: 420,
}

describe('IEC 62368-1 as recorded in a test report', () => {
  it('clearance at 240 V mains: 2500 V impulse, 1.5 mm basic, 3.0 mm reinforced', () => {
    expect(ratedImpulse(240, 'II')).toBe(2500)
    expect(requiredDistances(basis).clearance_m).toBeCloseTo(1.5e-3, 9)
    expect(requiredDistances({ ...basis, grade: 'reinforced' }).clearance_m).toBeCloseTo(3.0e-3, 9)
  })

  it('reinforced creepage 5.0 mm at the 250 V row', () => {
    expect(requiredDistances({ ...basis, grade: 'reinforced' }).creepage_m).toBeCloseTo(5.0e-3, 9)
  })

  it('strength 2500 and 4000 V peak, one solid layer 0.4 mm (from memory)', () => {
    expect(strengthTest(2500, 'basic')).toBe(2500)
    expect(strengthTest(2500, 'reinforced')).toBe(4000)
    expect(solidLayer_m).toBe(0.4e-3)
  })
})

describe('IEC 60664-1 basic creepage, pollution degree 2, group III (from memory)', () => {
  it.each([
    [200, 2.0],
    [250, 2.5],
    [320, 3.2],
    [400, 4.0],
    [500, 5.0],
    [630, 6.3],
    [800, 8.0],
    [1000, 10.0],
  ])('%d V: %d mm', (working_Vrms, mm) => {
    expect(requiredDistances({ ...basis, working_Vrms }).creepage_m).toBeCloseTo(mm * 1e-3, 9)
  })

  it('interpolates between rows, and takes 1.29 times the clearance at 4000 m', () => {
    expect(requiredDistances({ ...basis, working_Vrms: 285 }).creepage_m).toBeCloseTo(2.85e-3, 9)
    expect(requiredDistances({ ...basis, altitude_m: 4000 }).clearance_m).toBeCloseTo(1.29 * 1.5e-3, 9)
  })
})

describe('boards', () => {
  it('track of 1 A, 10 K, one ounce: 11.8 mil outside, 30.8 mil inside (1 % of the fit)', () => {
    const mil = 25.4e-6
    expect(Math.abs(trackWidth(1, 10, 1.378 * mil, 'external') / mil / 11.8 - 1)).toBeLessThan(0.01)
    expect(Math.abs(trackWidth(1, 10, 1.378 * mil, 'internal') / mil / 30.8 - 1)).toBeLessThan(0.01)
  })

  it('IPC-9592 spacing: 1.1 mm at 100 V, 2.6 mm at 400 V', () => {
    expect(spacingPowerConversion(100)).toBeCloseTo(1.1e-3, 12)
    expect(spacingPowerConversion(400)).toBeCloseTo(2.6e-3, 12)
  })

  it.each([
    [15, 0.1],
    [30, 0.1],
    [50, 0.6],
    [100, 0.6],
    [150, 0.6],
    [170, 1.25],
    [250, 1.25],
    [300, 1.25],
    [500, 2.5],
    [600, 3.0],
  ])('IPC-2221 B2 at %d V: %d mm', (volts, mm) => {
    expect(spacingOuterUncoated(volts)).toBeCloseTo(mm * 1e-3, 12)
  })
})
