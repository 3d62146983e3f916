import { describe, expect, it } from 'vitest'
import {
  DisturbanceResponse,
  type FeedbackPath,
  loopGain,
  margins,
  responseAt,
  suggestNetwork,
  withNetwork,
} from '../../../src/engine/loop/index.ts'
import { type Design, designs, small } from './designs.ts'
import { type Drive, type Measured, measure, type Wobbled } from './switched-flyback.ts'

function perturb(d: Design, periods: number, wobbled: Wobbled = 'control', amplitude?: number): Measured {
  const { point } = small(d)
  const T = 1 / d.stage.frequency_Hz
  const valley =
    point.mode === 'discontinuous' ? 0 : point.primary_Apeak - point.upSlope_A_per_s * point.duty * T
  const start = Float64Array.of(valley, point.firstCapacitor_V, d.stage.output_A, d.stage.output_V)
  const drive: Drive =
    d.modulator.style === 'voltage-mode'
      ? { style: 'voltage-mode', duty: point.duty, amplitude: amplitude ?? 0.002 }
      : {
          style: 'peak-current',
          peak_A: point.primary_Apeak + d.modulator.slope_A_per_s * point.duty * T,
          slope_A_per_s: d.modulator.slope_A_per_s,
          amplitude: amplitude ?? 0.004,
        }
  const plan = {
    periods,
    // a constant-current load leaves only a slow pole to settle by
    settle: Math.ceil((d.stage.load.kind === 'constant-current' ? 4000 : 1000) / periods),
    measure: Math.max(2, Math.ceil(200 / periods)),
  }
  return measure(d.stage, drive, start, plan, wobbled)
}

const wrapped = (degrees: number): number => ((degrees + 540) % 360) - 180

describe.each(designs)('$name', (d) => {
  // Goal of the design notes: 3 % and 3 degrees up to a tenth of the switching frequency.
  it.each([100, 40, 10])('lies on the computed curve at fs/%i', (periods) => {
    const s = small(d)
    const m = perturb(d, periods)
    const r = responseAt({ num: s.toLoad, den: s.den }, d.stage.frequency_Hz / periods)
    expect(Math.abs(m.magnitude / r.magnitude - 1)).toBeLessThan(0.03)
    expect(Math.abs(wrapped(m.phase_deg - r.phase_deg))).toBeLessThan(3)
  })
})

describe.each(designs)('disturbed: $name', (d) => {
  // Output impedance and the bulk voltage's way to the output with the control input held; 4 % and 4 degrees to a
  // fortieth of the switching frequency (averaging leaves out what the switching edges sample).
  it.each([
    ['load-current', 0.05],
    ['bulk-voltage', 2],
  ] as const)('%s lies on the computed curve', (kind, amplitude) => {
    const s = small(d)
    const out = new Float64Array(2)
    // discontinuous peak-current control cancels nine tenths of the bulk's way, so the rest carries ten times the error
    const cancels =
      kind === 'bulk-voltage' && d.modulator.style === 'peak-current' && s.point.mode === 'discontinuous'
    for (const periods of [100, 40]) {
      const seen = perturb(d, periods, kind, amplitude)
      const w = (2 * Math.PI * d.stage.frequency_Hz) / periods
      new DisturbanceResponse(s, d.stage.filter, null, kind).at(0, w, out)
      const phase = (Math.atan2(out[1]!, out[0]!) * 180) / Math.PI
      expect(Math.abs(seen.magnitude / Math.hypot(out[0]!, out[1]!) - 1)).toBeLessThan(0.04)
      expect(Math.abs(wrapped(seen.phase_deg - phase))).toBeLessThan(cancels ? 8 : 4)
    }
  })
})

const path: FeedbackPath = {
  dividerTop_ohm: 38e3,
  dividerBottom_ohm: 10e3,
  compensationResistor_ohm: 39e3,
  compensationCapacitor_F: 27e-9,
  highFrequencyCapacitor_F: 390e-12,
  ledResistor_ohm: 1500,
  biasResistor_ohm: 1000,
  softFinishCapacitor_F: 0,
  senseTap: 'first',
  ledTap: 'fixed',
  referenceGain: 1000,
  referenceGainBandwidth_Hz: 1e6,
  transferRatio: 1,
  led_A: 3e-3,
  optocouplerPole_Hz: 20e3,
  controlGain: 100,
  controlPole_Hz: 20e3,
}

describe.each(designs)('loop of: $name', (d) => {
  it('crosses over where the switched circuit says, with its phase margin', () => {
    const s = small(d)
    const controlGain = d.modulator.style === 'voltage-mode' ? 100 : 300
    const own = { ...path, controlGain }
    const answer = suggestNetwork({
      corners: [{ name: 'only', stage: s, path: own }],
      crossover_Hz: 2000,
      phaseMargin_deg: 60,
      ledResistorMinimum_ohm: 220,
      ledResistorMaximum_ohm: 10e3,
    })
    if (!answer.ok) throw new Error(answer.message)
    const T = loopGain(s, withNetwork(own, answer.network))
    const m = margins(T, 1, 50e3)
    if (!m.ok) throw new Error(m.message)
    const periods = Math.min(400, Math.max(10, Math.round(d.stage.frequency_Hz / m.crossover_Hz)))
    const f = d.stage.frequency_Hz / periods
    const seen = perturb(d, periods)
    const model = responseAt({ num: s.toLoad, den: s.den }, f)
    const steep = Math.log(responseAt(T, f * 1.02).magnitude / responseAt(T, f).magnitude) / Math.log(1.02)
    const crossoverError = Math.log(seen.magnitude / model.magnitude) / -steep
    expect(Math.abs(crossoverError)).toBeLessThan(0.03)
    expect(Math.abs(wrapped(seen.phase_deg - model.phase_deg))).toBeLessThan(3)
  })
})
