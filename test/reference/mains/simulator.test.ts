import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { lampModel, type MainsCycle, solveBulk, solveMainsInTime } from '../../../src/engine/mains/index.ts'

interface Case {
  parameters: Record<string, number>
  results: Record<string, number>
}
const cases = JSON.parse(readFileSync(new URL('simulator.json', import.meta.url), 'utf8')) as Record<
  string,
  Case
>

function run(c: Case, lamp: boolean, duration_s: number) {
  const p = c.parameters
  const power = lamp
    ? [
        { time_s: 0.8, power_W: 0 },
        { time_s: 0.801, power_W: p.P! },
      ]
    : [{ time_s: 0, power_W: p.P! }]
  const trace = solveMainsInTime({
    source: { kind: 'mains', voltage_Vrms: p.Vrms!, frequency_Hz: p.fl!, phase_rad: 0 },
    fixedResistance_ohm: p.Rs!,
    bridgeDrop_V: 0.8,
    bridgeSlope_ohm: 0.05,
    capacitance_F: p.Cb!,
    startVoltage_V: 0,
    lamp: lamp ? lampModel(60, 230) : null,
    thermistor: null,
    ambient_C: 25,
    load: { power, knee_V: p.Vq!, shunt_ohm: null, gate: null },
    duration_s,
    sample_s: 0.02,
  })
  if (!trace.ok) throw new Error(trace.message)
  return trace
}

const window = (cycles: readonly MainsCycle[], from: number, to: number): MainsCycle[] =>
  cycles.filter((c) => c.start_s > from - 1e-6 && c.start_s < to - 1e-6)
const mean = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0) / list.length
const rms = (list: readonly number[]): number => Math.sqrt(mean(list.map((x) => x * x)))

/**
 * Voltages: the simulator's diode drop moves +-4 mV about the quoted 0.80 V and twice that stands in series: 1e-5 to
 * 3e-5 of the bus; 5e-5 allowed. Currents: the same 8 mV over 3.1 ohm is up to 1e-3 of the peak; 3e-4 found, 5e-4 allowed.
 */
const relative = (a: number, b: number): number => Math.abs(a / b - 1)

describe.each(['O7_230V_150uF', 'O7_110V_60Hz_150uF'])('%s', (id) => {
  const c = cases[id]!
  const f = c.parameters.fl!
  const trace = run(c, false, 0.6)
  const last = window(trace.cycles, 0.6 - 5 / f, 0.6)

  it('has the simulator voltages', () => {
    expect(relative(Math.min(...last.map((x) => x.busLow_V)), c.results.vbus_min!)).toBeLessThan(5e-5)
    expect(relative(Math.max(...last.map((x) => x.busHigh_V)), c.results.vbus_max!)).toBeLessThan(5e-5)
    expect(relative(mean(last.map((x) => x.bus_Vaverage)), c.results.vbus_avg!)).toBeLessThan(5e-5)
  })

  it('has the simulator currents, power and inrush', () => {
    expect(relative(Math.max(...last.map((x) => x.line_Apeak)), c.results.iac_peak!)).toBeLessThan(5e-4)
    expect(relative(rms(last.map((x) => x.line_Arms)), c.results.iac_rms!)).toBeLessThan(5e-4)
    expect(relative(mean(last.map((x) => x.input_W)), c.results.pin!)).toBeLessThan(3e-4)
    const inrush = Math.max(...window(trace.cycles, 0, 0.04).map((x) => x.line_Apeak))
    expect(relative(inrush, c.results.inrush_peak!)).toBeLessThan(1e-4)
  })

  it('is met by the closed form', () => {
    const r = solveBulk({
      source: { kind: 'mains', voltage_Vrms: c.parameters.Vrms!, frequency_Hz: f },
      seriesResistance_ohm: 3.1,
      bridgeDrop_V: 0.8,
      capacitance_F: 150e-6,
      power_W: 100,
    })
    if (!r.ok) throw new Error(r.message)
    // linearised load: 0.05 % of voltages, 0.3 % of currents and power
    expect(relative(r.minimum_V, c.results.vbus_min!)).toBeLessThan(5e-4)
    expect(relative(r.maximum_V, c.results.vbus_max!)).toBeLessThan(5e-4)
    expect(relative(r.average_V, c.results.vbus_avg!)).toBeLessThan(5e-4)
    expect(relative(r.input_Apeak, c.results.iac_peak!)).toBeLessThan(3e-3)
    expect(relative(r.input_Arms, c.results.iac_rms!)).toBeLessThan(3e-3)
    expect(relative(r.input_W, c.results.pin!)).toBeLessThan(3e-3)
    expect(relative(r.powerFactor, c.results.pf!)).toBeLessThan(3e-3)
  })
})

describe.each(['O8_lamp_0W', 'O8_lamp_20W'])('%s', (id) => {
  const c = cases[id]!
  const trace = run(c, true, 1.6)
  const tags = Object.keys(c.results)
    .filter((k) => k.startsWith('vb_'))
    .map((k) => k.slice(3))

  it('follows the simulator period by period', () => {
    expect(tags.length).toBeGreaterThan(50)
    for (const tag of tags) {
      const cycle = trace.cycles.find((x) => Math.abs(x.start_s - Number(tag) / 1000) < 1e-6)!
      // Lamp power is a small difference at the end of charging: mains crest less bus, 1.4 V at 320 V, in which the
      // simulator's diode makes 4 mV, squared: 0.6 %; 0.8 % allowed below 10 mW, 3e-4 above 1 W.
      const lamp = c.results[`pl_${tag}`]!
      expect(relative(cycle.busHigh_V, c.results[`vb_${tag}`]!)).toBeLessThan(3e-4)
      expect(relative(cycle.filamentHigh_K, c.results[`tf_${tag}`]!)).toBeLessThan(5e-4)
      expect(relative(cycle.lamp_W, lamp)).toBeLessThan(lamp > 1 ? 1e-3 : 8e-3)
    }
  })

  it('ends where the simulator ends', () => {
    const last = window(trace.cycles, 1.5, 1.6)
    expect(relative(Math.min(...last.map((x) => x.busLow_V)), c.results.vbus_min!)).toBeLessThan(3e-4)
    expect(relative(Math.max(...last.map((x) => x.busHigh_V)), c.results.vbus_max!)).toBeLessThan(3e-4)
    expect(relative(mean(last.map((x) => x.filament_K)), c.results.tfil!)).toBeLessThan(5e-4)
    expect(relative(Math.max(...trace.cycles.map((x) => x.line_Apeak)), c.results.inrush_peak!)).toBeLessThan(
      1e-4,
    )
  })
})
