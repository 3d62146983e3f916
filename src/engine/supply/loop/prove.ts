import { buildCircuit, type Circuit, type SteadyRun, steadyState, transient } from '../../circuit/index.ts'
import { loadVoltage, type SwitchedLoop, takenAway } from './switched/loop.ts'
import type { Tone } from './switched/modulator.ts'
import { switchedNetlist } from './switched/netlist.ts'

/** Gain and phase of the loop, measured on the switched circuit at one frequency. */
export interface ProofPoint {
  readonly frequency_Hz: number
  readonly gain_dB: number
  /** -180 to 180 degrees. */
  readonly phase_deg: number
}

export interface Proof {
  readonly ok: true
  readonly points: readonly ProofPoint[]
  readonly cycles: number
}

export interface ProofFailure {
  readonly ok: false
  readonly message: string
}

/**
 * Loop gain of the switched circuit by perturbation. All tones are added to duty (or peak current) at once, so small
 * that they do not disturb each other; what feedback takes away is averaged over every cycle and correlated with each
 * tone over whole periods of the lowest one. With x = test - taken, T = taken/x.
 *
 * `from_Hz` to `to_Hz` in `count` steps of equal ratio, each moved to a multiple of the lowest. Averages over a cycle
 * of all signals lose the same factor at each frequency, which cancels. Middlebrook, Int. J. Electronics 38 (1975) 485.
 */
export function proveLoop(
  loop: SwitchedLoop,
  from_Hz: number,
  to_Hz: number,
  count = 20,
  settlePeriods = 1,
): Proof | ProofFailure {
  const period_s = 1 / loop.stage.frequency_Hz
  const cyclesEach = Math.max(20, Math.round(loop.stage.frequency_Hz / from_Hz))
  const base_Hz = loop.stage.frequency_Hz / cyclesEach
  const tones = spacedTones(
    base_Hz,
    from_Hz,
    to_Hz,
    count,
    loop.modulator.style === 'voltage-mode' ? 1 : loop.point.primary_Apeak / loop.point.duty,
  )
  const built = buildCircuit(switchedNetlist(loop, tones))
  if (!built.ok) return notACircuit(built.problems)
  const rest = atRest(built.circuit, period_s)
  if (!rest.ok) return rest
  const part_s = period_s / partsOfCycle
  const run = (test: number) =>
    transient(built.circuit, {
      start: rest.state,
      span_s: (settlePeriods + 1) * cyclesEach * period_s,
      knobs: { test },
      probes: { taken: takenAway(loop) },
      cycles: { period_s: part_s },
    })
  const [quiet, stirred] = [run(0), run(1)]
  if (!quiet.ok) return { ok: false, message: quiet.message }
  if (!stirred.ok) return { ok: false, message: stirred.message }
  const still = quiet.cycles.taken!.average
  const taken = stirred.cycles.taken!.average.map((v, k) => v - still[k]!)
  const first = settlePeriods * cyclesEach * partsOfCycle
  const start_s = rest.state.time_s
  const points = tones.map((tone): ProofPoint => {
    const w = 2 * Math.PI * tone.frequency_Hz * part_s
    let re = 0
    let im = 0
    for (let k = first; k < taken.length; k++) {
      const angle = w * (k + 0.5) + 2 * Math.PI * tone.frequency_Hz * start_s + tone.phase_rad
      re += taken[k]! * Math.sin(angle)
      im += taken[k]! * Math.cos(angle)
    }
    const shrink = Math.sin(w / 2) / (w / 2)
    const scale = 2 / ((taken.length - first) * tone.amplitude * shrink)
    return { frequency_Hz: tone.frequency_Hz, ...quotient(re * scale, im * scale) }
  })
  return { ok: true, points, cycles: rest.cycles + 2 * (settlePeriods + 1) * cyclesEach }
}

/** Averages taken of every switching cycle, so that its sidebands stay apart from the tones. */
const partsOfCycle = 4

/** The repeating cycle, exactly or as near as its slowest pole lets it come. */
function atRest(circuit: Circuit, period_s: number): SteadyRun | ProofFailure {
  for (const tolerance of [1e-8, 1e-6, 1e-5]) {
    const rest = steadyState(circuit, { period_s, settle: 60, tolerance })
    if (rest.ok) return rest
    if (rest.code !== 'no-cycle') return { ok: false, message: rest.message }
  }
  return { ok: false, message: 'the switched circuit does not come to rest' }
}

/** taken/(1 - taken) for the taken part per unit of test signal. */
function quotient(re: number, im: number): { gain_dB: number; phase_deg: number } {
  const xr = 1 - re
  const xi = -im
  const size = xr * xr + xi * xi
  const tr = (re * xr + im * xi) / size
  const ti = (im * xr - re * xi) / size
  return { gain_dB: 10 * Math.log10(tr * tr + ti * ti), phase_deg: (Math.atan2(ti, tr) * 180) / Math.PI }
}

/** Amplitude of one tone, as a part of full duty: far below what bends the circuit, far above its rounding. */
const smallness = 2e-5

/** Tones at multiples of the lowest, with Schroeder phases so that their sum stays low. */
function spacedTones(base_Hz: number, from_Hz: number, to_Hz: number, count: number, unit: number): Tone[] {
  const multiples = new Set<number>()
  for (let k = 0; k < count; k++)
    multiples.add(Math.max(1, Math.round((from_Hz / base_Hz) * (to_Hz / from_Hz) ** (k / (count - 1)))))
  const list = [...multiples].sort((a, b) => a - b)
  return list.map((m, k) => ({
    frequency_Hz: m * base_Hz,
    amplitude: smallness * unit,
    phase_rad: (-Math.PI * k * (k + 1)) / list.length,
  }))
}

/** Voltage at the load in time, averaged over every switching cycle. */
export interface SwitchedStep {
  readonly ok: true
  readonly time_s: Float64Array
  readonly load_V: Float64Array
}

/**
 * The switched loop through a step, with its duty limited as the chip limits it. `loop` carries the load or bulk step
 * in straight lines from time zero; before them it rests.
 */
export function switchedStep(loop: SwitchedLoop, duration_s: number): SwitchedStep | ProofFailure {
  const period_s = 1 / loop.stage.frequency_Hz
  const resting = buildCircuit(switchedNetlist(stepped(loop, 0, true), []))
  if (!resting.ok) return notACircuit(resting.problems)
  const rest = atRest(resting.circuit, period_s)
  if (!rest.ok) return rest
  const start_s = rest.state.time_s
  const built = buildCircuit(switchedNetlist(stepped(loop, start_s, false), []))
  if (!built.ok) return notACircuit(built.problems)
  const run = transient(built.circuit, {
    start: rest.state,
    span_s: duration_s,
    probes: { load: loadVoltage(loop) },
    cycles: { period_s },
  })
  if (!run.ok) return { ok: false, message: run.message }
  const load_V = run.cycles.load!.average
  return { ok: true, load_V, time_s: load_V.map((_, k) => (k + 0.5) * period_s) }
}

/** The loop with its steps counted from `start_s` on, or held where they begin. */
function stepped(loop: SwitchedLoop, start_s: number, held: boolean): SwitchedLoop {
  const moved = (points: Steps): Steps =>
    (held ? points.slice(0, 1) : points).map(([time_s, value]) => [time_s + start_s, value])
  return {
    ...loop,
    ...(loop.loadStep && { loadStep: moved(loop.loadStep) }),
    ...(loop.bulkSteps && { bulkSteps: moved(loop.bulkSteps) }),
  }
}

type Steps = NonNullable<SwitchedLoop['loadStep']>

const notACircuit = (problems: readonly { readonly message: string }[]): ProofFailure => ({
  ok: false,
  message: problems.map((p) => p.message).join('; '),
})
