import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { powerStage, responseAt } from '../../../src/engine/loop/index.ts'
import { averagedFrequencies, stageOf } from './averaged-stage.ts'
import { measure } from './switched-flyback.ts'

interface Case {
  parameters: Record<string, number>
  results: Record<string, number>
}
const cases = JSON.parse(readFileSync(new URL('simulator.json', import.meta.url), 'utf8')) as Record<
  string,
  Case
>

describe('averaged flyback of a general-purpose simulator', () => {
  const c = cases.O9_avg_ac!
  const small = powerStage(stageOf(c, c.results['v(out)']!), { style: 'voltage-mode' })
  if (!small.ok) throw new Error(small.message)
  it('has the same duty and magnetising current', () => {
    expect(small.point.duty).toBeCloseTo(c.parameters.D!, 6)
    expect(small.point.magnetising_Aaverage).toBeCloseTo(c.results['i(vil)']!, 6)
  })

  // 0.01 dB and 0.05 degrees: the simulator's figures are interpolated between 100 points a decade near a peak of Q 1.9.
  it.each(averagedFrequencies)('has the same gain and phase at %s Hz', (tag, f) => {
    const r = responseAt({ num: small.toLoad, den: small.den }, f)
    expect(Math.abs(r.gain_dB - c.results[`mag_${tag}`]!)).toBeLessThan(0.01)
    expect(Math.abs(r.phase_deg - c.results[`ph_${tag}`]!)).toBeLessThan(0.05)
  })

  it('names the zeros and the double pole', () => {
    const f = small.features
    expect(f.rightHalfPlaneZero_Hz / c.results.rhp_zero_hz!).toBeCloseTo(1, 4)
    expect(f.esrZero_Hz / c.results.esr_zero_hz!).toBeCloseTo(1, 4)
    expect(f.doublePole_Hz! / c.results.double_pole_hz!).toBeCloseTo(1, 3)
    expect(f.doublePoleQ! / c.results.double_pole_q!).toBeCloseTo(1, 3)
  })
})

describe('switched flyback of a general-purpose simulator, duty perturbed at 5 kHz', () => {
  const c = cases.O9_switched_5k!
  const stage = stageOf(c, c.results.vout!)
  const small = powerStage(stage, { style: 'voltage-mode' })
  if (!small.ok) throw new Error(small.message)

  // Averaging is worth about 0.01 dB here (5 kHz is a twentieth of the switching frequency).
  it('lies on the computed curve', () => {
    const r = responseAt({ num: small.toLoad, den: small.den }, 5e3)
    expect(Math.abs(r.gain_dB - c.results.mag_db!)).toBeLessThan(0.02)
    expect(Math.abs(r.phase_deg - c.results.phase_deg!)).toBeLessThan(0.1)
  })

  it('agrees with the cycle-by-cycle flyback that the other tests use', () => {
    const p = small.point
    const start = Float64Array.of(p.primary_Apeak - (p.upSlope_A_per_s * p.duty) / 1e5, 12.8, 8, 12.8)
    const drive = { style: 'voltage-mode' as const, duty: c.parameters.D!, amplitude: c.parameters.Am! }
    const m = measure(stage, drive, start, { periods: 20, settle: 80, measure: 20 })
    expect(Math.abs(20 * Math.log10(m.magnitude) - c.results.mag_db!)).toBeLessThan(0.02)
    expect(Math.abs(m.phase_deg - c.results.phase_deg!)).toBeLessThan(0.1)
  })
})
