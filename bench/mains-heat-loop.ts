// Speed of the closed forms and of the mains side in time; deterministic, figures printed beside the times.
import { thermalResponse } from '../src/engine/heat/index.ts'
import {
  closedLoopPoles,
  cornerMargins,
  type FeedbackPath,
  loopGain,
  powerStage,
  suggestNetwork,
} from '../src/engine/loop/index.ts'
import { lampModel, solveBulk, solveMainsInTime } from '../src/engine/mains/index.ts'

function time(name: string, runs: number, work: (k: number) => unknown): void {
  for (let k = 0; k < Math.min(runs, 50); k++) work(k)
  const from = performance.now()
  let last: unknown
  for (let k = 0; k < runs; k++) last = work(k)
  const each_s = (performance.now() - from) / runs / 1e3
  const shown = each_s < 1e-3 ? `${(each_s * 1e6).toFixed(2)} us` : `${(each_s * 1e3).toFixed(2)} ms`
  console.log(`${name.padEnd(46)} ${shown.padStart(10)}   ${String(last)}`)
}

const bulk = {
  source: { kind: 'mains' as const, voltage_Vrms: 230, frequency_Hz: 50 },
  seriesResistance_ohm: 3.1,
  bridgeDrop_V: 0.8,
  capacitance_F: 150e-6,
}
time('bulk capacitor, closed form', 200_000, (k) => {
  const r = solveBulk({ ...bulk, power_W: 50 + (k % 100) })
  return r.ok ? r.minimum_V.toFixed(2) : r.code
})
const charge = {
  ...bulk,
  source: { ...bulk.source, phase_rad: 0 },
  fixedResistance_ohm: 3,
  bridgeSlope_ohm: 0.05,
  startVoltage_V: 0,
  thermistor: null,
  ambient_C: 25,
  sample_s: 0.02,
}
time('lamp start-up, 5 s, 20 W from 0.8 s', 5, () => {
  const r = solveMainsInTime({
    ...charge,
    lamp: lampModel(60, 230),
    load: {
      power: [
        { time_s: 0.8, power_W: 0 },
        { time_s: 0.801, power_W: 20 },
      ],
      knee_V: 80,
      shunt_ohm: null,
      gate: null,
    },
    duration_s: 5,
  })
  return r.ok ? `${r.bus_V[r.bus_V.length - 1]!.toFixed(1)} V, ${r.steps} steps` : r.message
})

const stage = {
  bulk_V: 300,
  turnsRatio: 10,
  primaryInductance_H: 800e-6,
  frequency_Hz: 100e3,
  output_V: 12,
  output_A: 2.5,
  rectifierDrop_V: 0.5,
  primaryResistance_ohm: 1.4,
  secondaryResistance_ohm: 0.02,
  filter: {
    capacitance_F: 470e-6,
    capacitorResistance_ohm: 0.03,
    second: {
      inductance_H: 3e-6,
      resistance_ohm: 0.01,
      capacitance_F: 220e-6,
      capacitorResistance_ohm: 0.05,
    },
  },
  load: { kind: 'resistor' as const },
}
const path: FeedbackPath = {
  dividerTop_ohm: 38e3,
  dividerBottom_ohm: 10e3,
  compensationResistor_ohm: 39e3,
  compensationCapacitor_F: 27e-9,
  highFrequencyCapacitor_F: 390e-12,
  ledResistor_ohm: 1500,
  biasResistor_ohm: 1000,
  softFinishCapacitor_F: 0,
  senseTap: 'load',
  ledTap: 'first',
  referenceGain: 1000,
  referenceGainBandwidth_Hz: 1e6,
  transferRatio: 1,
  led_A: 3e-3,
  optocouplerPole_Hz: 20e3,
  controlGain: 175,
  controlPole_Hz: 7e3,
}
const corners = Array.from({ length: 96 }, (_, k) => {
  const small = powerStage(
    { ...stage, output_A: 0.3 + (k % 12) * 0.2, bulk_V: 120 + 20 * (k % 8) },
    { style: 'voltage-mode' },
  )
  if (!small.ok) throw new Error(small.message)
  return { name: `corner ${k}`, stage: small, path }
})
time('power stage', 20_000, (k) => {
  const r = powerStage({ ...stage, output_A: 0.3 + (k % 12) * 0.2 }, { style: 'voltage-mode' })
  return r.ok ? r.point.duty.toFixed(4) : r.message
})
time('margins of 96 corners', 50, () => cornerMargins(corners).leastPhase?.phaseMargin_deg.toFixed(2))
time('closed-loop poles', 2000, () => {
  const r = closedLoopPoles(loopGain(corners[0]!.stage, path))
  return r.ok ? r.poles.length : r.message
})
time('suggested network, 5 corners', 20, () => {
  const r = suggestNetwork({
    corners: corners.slice(0, 5),
    crossover_Hz: 2000,
    phaseMargin_deg: 60,
    ledResistorMinimum_ohm: 300,
    ledResistorMaximum_ohm: 3000,
  })
  return r.ok ? JSON.stringify(r.network) : r.message
})
const nodes = Array.from({ length: 12 }, (_, k) => ({ name: `n${k}`, capacity_J_per_K: 1 + k }))
const links = nodes.map((n, k) => ({
  from: n.name,
  to: k === 0 ? 'room' : `n${k - 1}`,
  conductance_W_per_K: 0.1 + 0.01 * k,
}))
time('thermal response, 12 nodes', 500, () => {
  const r = thermalResponse({ nodes, links, fixed: [{ name: 'room', temperature_C: 25 }] }, { n11: 2, n4: 1 })
  return r.ok ? r.settle(1).toFixed(1) : r.message
})
