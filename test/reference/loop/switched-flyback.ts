import type { FlybackStage } from '../../../src/engine/loop/index.ts'

/**
 * A flyback switched cycle by cycle in time, independent of the small-signal model: ideal switch and rectifier with
 * resistances, Runge-Kutta steps between exact edges. Perturbed by a sine at its control input, it gives gain and phase
 * by correlation.
 */
export interface Perturbation {
  /** Switching periods in one period of the sine. */
  readonly periods: number
  readonly settle: number
  readonly measure: number
}

export type Drive =
  | { readonly style: 'voltage-mode'; readonly duty: number; readonly amplitude: number }
  | {
      readonly style: 'peak-current'
      readonly peak_A: number
      readonly slope_A_per_s: number
      readonly amplitude: number
    }

/** What is wobbled: the control input, the current drawn at the load, A, or the bulk voltage, V. */
export type Wobbled = 'control' | 'load-current' | 'bulk-voltage'

/** Values of the wobble now, added to the load's current and to the bulk voltage. */
const now = { load_A: 0, bulk_V: 0 }

interface State {
  /** Magnetising current, first capacitor, choke current, second capacitor. */
  x: Float64Array
}

export interface Measured {
  readonly magnitude: number
  readonly phase_deg: number
  readonly mean_V: number
}

const loadCurrent = (stage: FlybackStage, v: number): number => now.load_A + steadyCurrent(stage, v)

const steadyCurrent = (stage: FlybackStage, v: number): number => {
  switch (stage.load.kind) {
    case 'resistor':
      return (v * stage.output_A) / stage.output_V
    case 'constant-current':
      return stage.output_A
    case 'constant-power':
      return (stage.output_V * stage.output_A) / v
    case 'battery':
      return stage.output_A + (v - stage.output_V) / stage.load.resistance_ohm
  }
}

/** Voltages at first capacitor and load for a state and a current from the rectifier. */
function volts(stage: FlybackStage, x: Float64Array, rectifier_A: number): [number, number] {
  const { filter } = stage
  if (filter.second === null) {
    let v = x[1]!
    for (let k = 0; k < 8; k++)
      v = x[1]! + filter.capacitorResistance_ohm * (rectifier_A - loadCurrent(stage, v))
    return [v, v]
  }
  const first = x[1]! + filter.capacitorResistance_ohm * (rectifier_A - x[2]!)
  let v = x[3]!
  for (let k = 0; k < 8; k++)
    v = x[3]! + filter.second.capacitorResistance_ohm * (x[2]! - loadCurrent(stage, v))
  return [first, v]
}

type Phase = 'on' | 'off' | 'idle'

function slopes(stage: FlybackStage, phase: Phase, x: Float64Array, out: Float64Array): void {
  const n = stage.turnsRatio
  const rectifier = phase === 'off' ? n * x[0]! : 0
  const [first, load] = volts(stage, x, rectifier)
  const { filter } = stage
  out[0] =
    phase === 'idle'
      ? 0
      : phase === 'on'
        ? (stage.bulk_V + now.bulk_V - stage.primaryResistance_ohm * x[0]!) / stage.primaryInductance_H
        : (-n * (first + stage.rectifierDrop_V + stage.secondaryResistance_ohm * rectifier)) /
          stage.primaryInductance_H
  const onward = filter.second === null ? loadCurrent(stage, load) : x[2]!
  out[1] = (rectifier - onward) / filter.capacitance_F
  if (filter.second === null) {
    out[2] = out[3] = 0
    return
  }
  out[2] = (first - load - filter.second.resistance_ohm * x[2]!) / filter.second.inductance_H
  out[3] = (x[2]! - loadCurrent(stage, load)) / filter.second.capacitance_F
}

const k1 = new Float64Array(4)
const k2 = new Float64Array(4)
const k3 = new Float64Array(4)
const k4 = new Float64Array(4)
const trial = new Float64Array(4)

function step(stage: FlybackStage, phase: Phase, x: Float64Array, h: number): void {
  slopes(stage, phase, x, k1)
  for (let n = 0; n < 4; n++) trial[n] = x[n]! + 0.5 * h * k1[n]!
  slopes(stage, phase, trial, k2)
  for (let n = 0; n < 4; n++) trial[n] = x[n]! + 0.5 * h * k2[n]!
  slopes(stage, phase, trial, k3)
  for (let n = 0; n < 4; n++) trial[n] = x[n]! + h * k3[n]!
  slopes(stage, phase, trial, k4)
  for (let n = 0; n < 4; n++) x[n]! += (h / 6) * (k1[n]! + 2 * k2[n]! + 2 * k3[n]! + k4[n]!)
}

export function measure(
  stage: FlybackStage,
  drive: Drive,
  start: Float64Array,
  p: Perturbation,
  wobbled: Wobbled = 'control',
): Measured {
  const T = 1 / stage.frequency_Hz
  const omega = (2 * Math.PI) / (p.periods * T)
  const state: State = { x: Float64Array.from(start) }
  let re = 0
  let im = 0
  let mean = 0
  let span = 0
  let first_V = 0
  const total = p.periods * (p.settle + p.measure)
  const firstMeasured = p.periods * p.settle

  const add = (t: number, h: number, v: number, weight: number): void => {
    re += v * Math.sin(omega * t) * h * weight
    im += v * Math.cos(omega * t) * h * weight
    mean += v * h * weight
  }
  const run = (phase: Phase, t0: number, length: number, measuring: boolean, pieces: number): void => {
    if (length <= 0) return
    const h = length / pieces
    for (let k = 0; k < pieces; k++) {
      const t = t0 + k * h
      const wobble = wobbled === 'control' ? 0 : drive.amplitude * Math.sin(omega * (t + h / 2))
      now.load_A = wobbled === 'load-current' ? wobble : 0
      now.bulk_V = wobbled === 'bulk-voltage' ? wobble : 0
      if (measuring) {
        const before = volts(stage, state.x, phase === 'off' ? stage.turnsRatio * state.x[0]! : 0)[1]
        add(t, h, before, 0.5)
        step(stage, phase, state.x, h)
        const after = volts(stage, state.x, phase === 'off' ? stage.turnsRatio * state.x[0]! : 0)[1]
        add(t + h, h, after, 0.5)
      } else step(stage, phase, state.x, h)
    }
  }

  for (let cycle = 0; cycle < total; cycle++) {
    const t0 = cycle * T
    const measuring = cycle >= firstMeasured
    if (measuring) span += T
    if (cycle === firstMeasured) first_V = state.x[1]!
    const on = onTime(stage, drive, state.x[0]!, t0, omega, wobbled)
    run('on', t0, on, measuring, 24)
    const fall = offTime(stage, state.x, T - on)
    run('off', t0 + on, fall, measuring, 24)
    if (fall < T - on - 1e-15) {
      state.x[0] = 0
      run('idle', t0 + on + fall, T - on - fall, measuring, 12)
    }
  }
  // a straight drift of the output, left from settling, correlates with the sine alone: take it out
  re += (state.x[1]! - first_V) / omega
  return {
    magnitude: (2 * Math.hypot(re, im)) / span / drive.amplitude,
    phase_deg: (Math.atan2(im, re) * 180) / Math.PI,
    mean_V: mean / span,
  }
}

function onTime(
  stage: FlybackStage,
  drive: Drive,
  i0: number,
  t0: number,
  omega: number,
  wobbled: Wobbled,
): number {
  const T = 1 / stage.frequency_Hz
  const L = stage.primaryInductance_H
  const R = Math.max(stage.primaryResistance_ohm, 1e-9)
  const wave = (t: number, of: Wobbled): number =>
    of === wobbled ? drive.amplitude * Math.sin(omega * t) : 0
  let on = drive.style === 'voltage-mode' ? drive.duty * T : 0.3 * T
  for (let k = 0; k < 40; k++) {
    const command = wave(t0 + on, 'control')
    let next: number
    if (drive.style === 'voltage-mode') next = (drive.duty + command) * T
    else {
      const bulk_V = stage.bulk_V + wave(t0 + on / 2, 'bulk-voltage')
      const final = bulk_V / R
      const current = final + (i0 - final) * Math.exp((-R * on) / L)
      const slope = (bulk_V - R * current) / L
      next =
        on + (drive.peak_A + command - drive.slope_A_per_s * on - current) / (slope + drive.slope_A_per_s)
    }
    if (Math.abs(next - on) < 1e-16) break
    on = Math.min(0.95 * T, Math.max(0, next))
  }
  return on
}

/** Time until the rectifier's current is zero, or `room` if it does not get there: trial steps on a copy. */
function offTime(stage: FlybackStage, x: Float64Array, room: number): number {
  const probe = Float64Array.from(x)
  const h = room / 24
  for (let k = 0; k < 24; k++) {
    const before = probe[0]!
    step(stage, 'off', probe, h)
    if (probe[0]! < 0) {
      let length = k * h + (h * before) / (before - probe[0]!)
      for (let m = 0; m < 3; m++) {
        const again = Float64Array.from(x)
        for (let s = 0; s < 24; s++) step(stage, 'off', again, length / 24)
        slopes(stage, 'off', again, k1)
        length -= again[0]! / k1[0]!
      }
      return length
    }
  }
  return room
}
