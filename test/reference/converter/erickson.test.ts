import { describe, expect, test } from 'vitest'
import { boundaryAverage_A, stageCycle } from '../../../src/engine/converter/stage.ts'
import { fluxDensity_T, inductanceForRipple_H, turnsForFlux } from '../../../src/engine/converter/turns.ts'
import { trapezoidRms_A } from '../../../src/engine/converter/waveform.ts'

const within = (value: number, expected: number, relative: number) =>
  expect(Math.abs(value / expected - 1), `${value} against ${expected}`).toBeLessThan(relative)

/** Erickson and Maksimović sect. 14.3.4: 200 V to 20 V 5 A, 150 kHz, D = 0.4, n2/n1 = 0.15. Three digits: 1 %. */
describe('flyback transformer of section 14.3.4', () => {
  const cycle = stageCycle({
    on_V: 200,
    reflected_V: 20 / 0.15,
    inductance_H: 1.07e-3,
    frequency_Hz: 150e3,
    average_A: (20 * 5) / 200,
    minimumOnTime_s: 0,
  })
  test('mode and duty', () => {
    expect(cycle.mode).toBe('continuous')
    within(cycle.duty, 0.4, 0.001)
  })
  test('magnetising current', () => {
    within((cycle.peak_A + cycle.valley_A) / 2, 1.25, 0.01)
    within((cycle.peak_A - cycle.valley_A) / 2, 0.25, 0.01)
    within(cycle.peak_A, 1.5, 0.01)
  })
  test('inductance for that ripple', () =>
    within(inductanceForRipple_H(200, 20 / 0.15, 0.5, 150e3, 0.5 / 1.5), 1.07e-3, 0.01))
  test('winding currents', () => {
    within(trapezoidRms_A(cycle.peak_A, cycle.valley_A, cycle.duty), 0.796, 0.01)
    within(trapezoidRms_A(cycle.peak_A / 0.15, cycle.valley_A / 0.15, 1 - cycle.duty), 6.5, 0.01)
  })
  test('primary turns and ac flux on 1.09 cm²', () => {
    within(turnsForFlux(1.07e-3, 1.5, 0.25, 1.09e-4), 59, 0.01)
    // Two printed digits.
    within(fluxDensity_T(1.07e-3, 0.25, 59, 1.09e-4), 0.041, 0.03)
  })
})

/** The same, ch. 5: buck-boost family in discontinuous mode, M = D/sqrt(K) and Kcrit = (1 - D)², K = 2 L f/R. */
describe('discontinuous mode', () => {
  const L = 500e-6
  const f = 100e3
  test.each([0.02, 0.08, 0.15])('conversion ratio at a mean current of %f A', (average_A) => {
    const on_V = 300
    const reflected_V = 100
    const c = stageCycle({
      on_V,
      reflected_V,
      inductance_H: L,
      frequency_Hz: f,
      average_A,
      minimumOnTime_s: 0,
    })
    expect(c.mode).toBe('discontinuous')
    const R = reflected_V ** 2 / (on_V * average_A)
    within(reflected_V / on_V, c.duty / Math.sqrt((2 * L * f) / R), 1e-9)
    within(trapezoidRms_A(c.peak_A, c.valley_A, c.duty), c.peak_A * Math.sqrt(c.duty / 3), 1e-12)
  })
  test('boundary of modes', () => {
    const duty = 100 / 400
    const R = 100 ** 2 / (300 * boundaryAverage_A(300, 100, L, f))
    within((2 * L * f) / R, (1 - duty) ** 2, 1e-9)
  })
})
