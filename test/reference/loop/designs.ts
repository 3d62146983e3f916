import {
  type FlybackStage,
  type Modulator,
  type PowerStage,
  powerStage,
} from '../../../src/engine/loop/index.ts'

/** Eight flyback designs over both modes of conduction and both kinds of control; figures invented for the test. */
export interface Design {
  readonly name: string
  readonly stage: FlybackStage
  readonly modulator: Modulator
}

const base: FlybackStage = {
  bulk_V: 300,
  turnsRatio: 10,
  primaryInductance_H: 800e-6,
  frequency_Hz: 100e3,
  output_V: 12,
  output_A: 7.5,
  rectifierDrop_V: 0.5,
  primaryResistance_ohm: 1.4,
  secondaryResistance_ohm: 0.02,
  filter: { capacitance_F: 470e-6, capacitorResistance_ohm: 0.02, second: null },
  load: { kind: 'resistor' },
}
const second = {
  inductance_H: 2.2e-6,
  resistance_ohm: 0.005,
  capacitance_F: 220e-6,
  capacitorResistance_ohm: 0.03,
}

export const designs: readonly Design[] = [
  { name: 'continuous, voltage mode', stage: base, modulator: { style: 'voltage-mode' } },
  {
    name: 'continuous, voltage mode, low line',
    stage: { ...base, bulk_V: 110, output_A: 4 },
    modulator: { style: 'voltage-mode' },
  },
  {
    name: 'continuous, voltage mode, second stage',
    stage: { ...base, filter: { ...base.filter, second } },
    modulator: { style: 'voltage-mode' },
  },
  {
    name: 'discontinuous, voltage mode',
    stage: { ...base, output_A: 2.5 },
    modulator: { style: 'voltage-mode' },
  },
  {
    name: 'discontinuous, voltage mode, second stage',
    stage: { ...base, output_A: 1.5, filter: { ...base.filter, second } },
    modulator: { style: 'voltage-mode' },
  },
  {
    name: 'continuous, peak current, battery',
    stage: { ...base, load: { kind: 'battery', resistance_ohm: 0.4 } },
    modulator: { style: 'peak-current', slope_A_per_s: 0 },
  },
  {
    name: 'continuous, peak current above half duty with slope compensation',
    stage: { ...base, bulk_V: 100, output_A: 4 },
    modulator: { style: 'peak-current', slope_A_per_s: 90e3 },
  },
  {
    name: 'discontinuous, peak current, constant current',
    stage: { ...base, output_A: 2.5, load: { kind: 'constant-current' } },
    modulator: { style: 'peak-current', slope_A_per_s: 40e3 },
  },
]

export function small(d: Design): PowerStage {
  const s = powerStage(d.stage, d.modulator)
  if (!s.ok) throw new Error(s.message)
  return s
}
