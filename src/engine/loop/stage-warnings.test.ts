import { describe, expect, it } from 'vitest'
import type { FlybackStage } from './operating-point.ts'
import { type Modulator, powerStage } from './power-stage.ts'
import { stageWarnings } from './stage-warnings.ts'

const stage: FlybackStage = {
  bulk_V: 100,
  turnsRatio: 10,
  primaryInductance_H: 800e-6,
  frequency_Hz: 100e3,
  output_V: 12,
  output_A: 4,
  rectifierDrop_V: 0.5,
  primaryResistance_ohm: 1.4,
  secondaryResistance_ohm: 0.02,
  filter: { capacitance_F: 470e-6, capacitorResistance_ohm: 0.03, second: null },
  load: { kind: 'resistor' },
}
const codes = (s: FlybackStage, m: Modulator): string[] => {
  const small = powerStage(s, m)
  if (!small.ok) throw new Error(small.message)
  return stageWarnings(small).map((w) => w.code)
}

describe('stage warnings', () => {
  it('tells subharmonic oscillation above half duty without slope compensation, and its cure', () => {
    expect(codes(stage, { style: 'peak-current', slope_A_per_s: 0 })).toContain('subharmonic')
    // half of the down slope is enough at any duty: n (Vo + Vf)/L/2
    const half = (10 * 12.5) / 800e-6 / 2
    expect(codes(stage, { style: 'peak-current', slope_A_per_s: half })).not.toContain('subharmonic')
    expect(codes({ ...stage, bulk_V: 300 }, { style: 'peak-current', slope_A_per_s: 0 })).not.toContain(
      'subharmonic',
    )
  })

  it('tells a constant-power load that the stage alone cannot hold', () => {
    const s: FlybackStage = { ...stage, bulk_V: 300, output_A: 1, load: { kind: 'constant-power' } }
    expect(codes(s, { style: 'voltage-mode' })).toContain('unstable-alone')
    expect(codes({ ...s, load: { kind: 'resistor' } }, { style: 'voltage-mode' })).toEqual([])
  })

  it('tells a low right-half-plane zero', () => {
    expect(codes({ ...stage, primaryInductance_H: 3e-3 }, { style: 'voltage-mode' })).toContain(
      'right-half-plane-zero',
    )
  })
})
