import { describe, expect, it } from 'vitest'
import { findEntry, type Material, partsOfKind, starterDrawer } from '../../../src/engine/parts/index.ts'
import { seriesBetween, seriesNumbers } from '../../../src/engine/quantity/index.ts'
import published from './published.json' with { type: 'json' }

const materials = partsOfKind(starterDrawer, 'material')

describe('ferrites against the data sheet of an ETD29 pair', () => {
  const { field_A_per_m, temperature_C, mainGradesLeast_mT, highFrequencyGradeLeast_mT } =
    published.saturation

  it.each(materials)('$class holds at least the guaranteed flux at 250 A/m and 100 °C', (material) => {
    const point = material.saturation.find(
      (p) => p.field_A_per_m === field_A_per_m && p.temperature_C === temperature_C,
    )!
    const least_mT = material.class === 'PW4b' ? highFrequencyGradeLeast_mT : mainGradesLeast_mT
    expect(point.flux_T * 1e3).toBeGreaterThanOrEqual(least_mT)
  })

  it.each(published.coreLoss.limits)('$material stays below the loss limit at $kHz kHz, $mT mT', (limit) => {
    const material = findEntry(starterDrawer, limit.material)!.part as Material
    const point = material.lossPoints.find(
      (p) =>
        p.frequency_Hz === limit.kHz * 1e3 &&
        p.fluxPeak_T === limit.mT / 1e3 &&
        p.temperature_C === published.coreLoss.temperature_C,
    )!
    const loss_W = point.loss_W_per_m3 * published.coreLoss.volume_mm3 * 1e-9
    expect(loss_W).toBeLessThan(limit.W)
    // common practice, no source: typical losses are half of the guaranteed ones or more
    expect(loss_W).toBeGreaterThan(0.5 * limit.W)
  })

  it('saturates: each curve rises, ever less, and less when hot', () => {
    for (const material of materials)
      for (const temperature_C of [25, 100]) {
        const curve = material.saturation.filter((p) => p.temperature_C === temperature_C)
        const slopes = curve.map((p, i) => {
          const before = curve[i - 1] ?? { flux_T: 0, field_A_per_m: 0 }
          return (p.flux_T - before.flux_T) / (p.field_A_per_m - before.field_A_per_m)
        })
        expect(Math.min(...slopes), material.id).toBeGreaterThan(0)
        const knee = slopes.slice(1)
        expect(
          knee.every((slope, i) => i === 0 || slope < knee[i - 1]!),
          material.id,
        ).toBe(true)
      }
  })

  it('loses more with frequency and flux, between the powers known for power ferrites', () => {
    // Steinmetz exponents of power ferrites lie within 1.1 to 2 (frequency) and 2 to 3 (flux): Snelling, Soft Ferrites
    for (const material of materials)
      for (const a of material.lossPoints)
        for (const b of material.lossPoints) {
          if (a.temperature_C !== b.temperature_C) continue
          const rise = Math.log(b.loss_W_per_m3 / a.loss_W_per_m3)
          if (a.frequency_Hz === b.frequency_Hz && a.fluxPeak_T < b.fluxPeak_T) {
            const beta = rise / Math.log(b.fluxPeak_T / a.fluxPeak_T)
            expect(beta, material.id).toBeGreaterThan(2)
            expect(beta, material.id).toBeLessThan(3)
          }
          if (a.fluxPeak_T === b.fluxPeak_T && a.frequency_Hz < b.frequency_Hz) {
            const alpha = rise / Math.log(b.frequency_Hz / a.frequency_Hz)
            expect(alpha, material.id).toBeGreaterThan(1.1)
            expect(alpha, material.id).toBeLessThan(2.1)
          }
        }
  })
})

describe('powder rings', () => {
  const toroids = partsOfKind(starterDrawer, 'toroid')
  const near = (a: number, b: number) => Math.abs(a / b - 1) < 1e-6

  it.each(published.toroids)(
    '$outer_mm mm, permeability $permeability has the printed inductance factor',
    (row) => {
      const ring = toroids.find(
        (t) => near(t.outer_m * 1e3, row.outer_mm) && t.permeability === row.permeability,
      )!
      expect([ring.inner_m * 1e3, ring.height_m * 1e3].map((x) => Number(x.toFixed(3)))).toEqual([
        row.inner_mm,
        row.height_mm,
      ])
      expect(ring.inductanceFactor_H * 1e9).toBeCloseTo(row.factor_nH, 9)
    },
  )

  // 16 %: rounded corners and the tolerance of permeability
  it.each(toroids)('$name has about the factor of its section, mu0 mu h ln(outer/inner) / 2 pi', (ring) => {
    const { outer_m, inner_m, height_m, permeability } = ring
    const factor_H = 2e-7 * permeability * height_m * Math.log(outer_m / inner_m)
    expect(Math.abs(ring.inductanceFactor_H / factor_H - 1)).toBeLessThan(0.16)
  })

  it('gives way to a DC field, never rising, less for lower permeability', () => {
    for (const { biasCurve, id } of toroids) {
      expect(biasCurve[0], id).toEqual({ field_A_per_m: 0, fraction: 1 })
      for (const [i, point] of biasCurve.entries())
        if (i > 0) {
          expect(point.fraction, id).toBeLessThan(biasCurve[i - 1]!.fraction)
          expect(point.field_A_per_m, id).toBeGreaterThan(biasCurve[i - 1]!.field_A_per_m)
        }
    }
  })
})

describe('preferred numbers of IEC 60063', () => {
  const { E24, E48first, E96last, E192near920 } = published.eSeries
  it('has E24 as listed, and E12 and E6 as every second and fourth of it', () => {
    expect(seriesNumbers('E24')).toEqual(E24)
    expect(seriesNumbers('E12')).toEqual(E24.filter((_, i) => i % 2 === 0))
    expect(seriesNumbers('E6')).toEqual(E24.filter((_, i) => i % 4 === 0))
  })
  it('has the members of E48, E96 and E192, with 9.20 where the rule gives 9.19', () => {
    expect(seriesNumbers('E48').slice(0, 12)).toEqual(E48first)
    expect(seriesNumbers('E96').slice(-9)).toEqual(E96last)
    expect(seriesBetween(9.05, 9.35, 'E192')).toEqual(expect.arrayContaining(E192near920))
    expect(seriesNumbers('E192')).not.toContain(9.19)
    for (const [name, count] of [
      ['E48', 48],
      ['E96', 96],
      ['E192', 192],
    ] as const)
      expect(new Set(seriesNumbers(name)).size).toBe(count)
  })
  it('holds E48 in E96 in E192', () => {
    expect(seriesNumbers('E96')).toEqual(expect.arrayContaining([...seriesNumbers('E48')]))
    expect(seriesNumbers('E192')).toEqual(expect.arrayContaining([...seriesNumbers('E96')]))
  })
})
