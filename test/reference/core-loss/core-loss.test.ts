import { describe, expect, it } from 'vitest'
import {
  fitSteinmetz,
  fluxAt,
  igseConstant,
  saturationCurve,
  sineLoss,
} from '../../../src/engine/magnetics/material/index.ts'

const point = (frequency_Hz: number, fluxPeak_T: number, loss_W_per_m3: number, temperature_C = 100) => ({
  frequency_Hz,
  fluxPeak_T,
  loss_W_per_m3,
  temperature_C,
})

describe('improved generalised Steinmetz constant', () => {
  it.each([1.3, 1.5, 1.7])('shortcut at alpha %d (0.1 %)', (alpha) => {
    const beta = 2.5
    const shortcut = 1 / (2 ** (beta + 1) * Math.PI ** (alpha - 1) * (0.2761 + 1.7061 / (alpha + 1.354)))
    expect(Math.abs(shortcut / igseConstant(1, alpha, beta) - 1)).toBeLessThan(0.001)
  })

  it('equals the integral worked out by the trapezium rule', () => {
    const [alpha, beta] = [1.43, 2.6]
    const n = 200_000
    let integral = 0
    for (let i = 0; i < n; i++) integral += Math.abs(Math.cos((2 * Math.PI * i) / n)) ** alpha
    integral *= (2 * Math.PI) / n
    const ki = 1 / ((2 * Math.PI) ** (alpha - 1) * 2 ** (beta - alpha) * integral)
    expect(igseConstant(1, alpha, beta)).toBeCloseTo(ki, 8)
  })
})

describe('loss points', () => {
  it('exponent of flux between two printed limits', () => {
    const volume_m3 = 5470e-9
    const fit = fitSteinmetz([point(1e5, 0.1, 0.5 / volume_m3), point(1e5, 0.2, 3 / volume_m3)])
    expect(fit.ok).toBe(true)
    if (!fit.ok) return
    expect(Math.abs(fit.value.beta / 2.58 - 1)).toBeLessThan(0.01)
    expect(fit.value.assumed).toEqual(['alpha', 'temperature'])
  })

  it('a class PW3 table is met within 20 %', () => {
    const table = [
      point(25e3, 0.2, 57e3),
      point(100e3, 0.2, 375e3),
      point(300e3, 0.1, 390e3),
      point(500e3, 0.05, 215e3),
    ]
    const fit = fitSteinmetz(table)
    expect(fit.ok && fit.value.greatestMiss).toBeLessThan(0.2)
  })

  it('extrapolates from 100 kHz to a reading at 200 kHz with assumed exponents', () => {
    const fit = fitSteinmetz([point(100e3, 0.03, 2600)])
    if (!fit.ok) throw new Error('refused')
    expect(Math.abs(sineLoss(fit.value, 200e3, 0.023, 100) / 4000 - 1)).toBeLessThan(0.15)
  })
})

describe('saturation', () => {
  it('keeps the guarantee at 250 A/m, 100 °C', () => {
    const curve = saturationCurve({
      initialPermeability: { minimum: 1840, typical: 2300, maximum: 2760 },
      curie_C: 220,
      saturation: [
        { temperature_C: 25, field_A_per_m: 1200, flux_T: 0.47 },
        { temperature_C: 100, field_A_per_m: 1200, flux_T: 0.38 },
      ],
    })
    if (!curve.ok) throw new Error('refused')
    expect(fluxAt(curve.value, 250, 100)).toBeGreaterThan(0.33)
    expect(fluxAt(curve.value, 250, 100)).toBeLessThan(0.38)
  })
})
