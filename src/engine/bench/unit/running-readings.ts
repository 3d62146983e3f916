import { type LampModel, lampModel } from '../../mains/lamp.ts'
import { touchCurrent } from '../../mains/touch-current.ts'
import type { AtLoad, Bench } from './at-load.ts'
import { type Course, courseOf } from './course.ts'
import { type LampRun, lampBalance, runThroughLamp } from './lamp-run.ts'
import type { Readings } from './readings.ts'
import type { Unit } from './unit.ts'
import { warmUp } from './warm-up.ts'

/** Time after which first temperatures are read at full load. */
export const firstTemperatures_s = 300
/** Share of the bulk ripple that the loop lets through to the output while it regulates. Typical, no source. */
const lineRejection = 0.0015
/** Load steps of the line stages, percent. */
export const loadSteps = [0, 10, 50, 90, 100] as const

/** Solved runs of the mains side by what the converter draws, so that faults which draw alike share one run. */
export type RunCache = Map<string, LampRun | null>

/** What instruments read on a unit with mains on, through the lamp and on the full line at the nominal input. */
export function runningReadings(unit: Unit, bench: Bench, lamp: LampModel, cache: RunCache): Readings {
  return { ...lampReadings(unit, bench, lamp, cache), ...lineReadings(unit, bench) }
}

const lampVolts = (lamp: LampModel): number => Math.sqrt(lamp.hot_ohm * lamp.power_W)

const motion = (c: Course): string =>
  c.kind === 'dead' || c.kind === 'shorted'
    ? 'none'
    : (c.kind === 'hiccup' && c.biasMotion === 'sawtooth') || c.kind === 'runaway'
      ? 'sawtooth'
      : 'steady'

const clicks = (c: Course): string => (c.kind === 'hiccup' || c.kind === 'runaway' ? 'fast' : 'none')

function lampReadings(unit: Unit, bench: Bench, lamp: LampModel, cache: RunCache): Readings {
  const { design: d } = unit
  const course = courseOf(unit, bench, 0)
  const idle = bench.at('nominal', 0)
  const idle_W = idle?.operation.stage_W ?? 1
  const through = unit.weakSource_W === null ? lamp : lampModel(unit.weakSource_W, lampVolts(lamp))
  const run = solved(unit, course, idle_W, through, cache)
  const bulkOpen = unit.parts.bulk === 'open'
  const output_V = outputOf(course)
  const clamp_V =
    unit.parts.clamp !== 'good'
      ? 0
      : course.kind === 'regulates'
        ? (idle?.readings.clamp_V ?? 0)
        : course.kind === 'hiccup'
          ? course.clamp_V
          : course.kind === 'runaway'
            ? d.clamp.voltage_V * bench.plant.restartShare
            : 0
  const loaded = courseOf(unit, bench, 0.1)
  const some = bench.at('nominal', 0.1)
  const source = some && lampBalance(d, through, some.operation.stage_W)
  const holds = loaded.kind === 'regulates' && source !== null
  return {
    'lamp.glow': run?.look ?? null,
    'lamp.bulk': run ? (bulkOpen ? 0.6 * run.bulk_V : run.bulk_V) : null,
    'lamp.output': output_V,
    'lamp.bias': biasOf(unit, course),
    'lamp.bias-motion': motion(course),
    'lamp.clicks': clicks(course),
    'lamp.clamp': clamp_V,
    'lamp.inject':
      course.kind === 'hiccup'
        ? course.biasMotion === 'sawtooth'
          ? 'cures'
          : 'same'
        : course.kind === 'regulates'
          ? 'runs'
          : 'same',
    'lamp-load.output': holds ? outputOf(loaded) : 0.4 * outputOf(loaded),
    'lamp-load.bulk': source
      ? source.bulk.average_V
      : loaded.kind === 'regulates'
        ? 0.4 * (run?.bulk_V ?? 0)
        : null,
    'lamp.bypass': unit.weakSource_W !== null ? 'cures' : course.kind === 'regulates' ? 'runs' : 'same',
  }
}

const outputOf = (c: Course): number =>
  c.kind === 'hiccup' || c.kind === 'runaway' || c.kind === 'regulates' ? c.output_V : 0

function biasOf(unit: Unit, c: Course): number {
  const { design: d } = unit
  if (c.kind === 'dead' || c.kind === 'shorted') return 0
  if (c.kind === 'regulates') return (d.biasVoltage_V * c.output_V) / d.need.output_V
  if (c.kind === 'runaway') return d.parts.switcher.biasVoltage_V.maximum
  const own_V = d.parts.switcher.biasVoltage_V.minimum
  return unit.parts.biasDiode === 'short' ? 0.1 * own_V : own_V
}

function solved(
  unit: Unit,
  course: Course,
  idle_W: number,
  lamp: LampModel,
  cache: RunCache,
): LampRun | null {
  const draws =
    course.kind === 'hiccup' || course.kind === 'runaway'
      ? course.try_W
      : course.kind === 'regulates'
        ? idle_W
        : 0
  const d = unit.design
  const key = [
    course.kind,
    draws.toPrecision(2),
    d.bulkCapacitance_F.typical.toPrecision(3),
    d.parts.ntc?.cold_ohm ?? 0,
    lamp.power_W,
    lamp.hot_ohm.toPrecision(3),
  ].join('/')
  const known = cache.get(key)
  if (known !== undefined) return known
  const run = runThroughLamp(d, course, Number(draws.toPrecision(2)), lamp)
  cache.set(key, run)
  return run
}

function lineReadings(unit: Unit, bench: Bench): Readings {
  const { design: d } = unit
  const full = courseOf(unit, bench, 1)
  const idle = courseOf(unit, bench, 0)
  const out: Record<string, number | string | null> = {
    'line.restart': clicks(full),
    'line.fuse':
      d.parts.ntc === null && unit.design.supply.build.places.ntc !== null ? 'opens cold' : 'holds',
    'line.load-type': unit.stubbornLoad ? 'resistor works' : 'same',
    'line.touch': touch(unit),
  }
  if (idle.kind !== 'regulates') return { ...out, ...folded(idle) }
  for (const step of loadSteps) {
    const course = courseOf(unit, bench, step / 100)
    const r = bench.at('nominal', step / 100)
    if (r === null || course.kind !== 'regulates') {
      out[`line-${step}.output`] = outputOf(course)
      continue
    }
    out[`line-${step}.output`] = course.output_V
    out[`line-${step}.input`] = r.readings.input_W + coreExtra_W(unit, r)
    out[`line-${step}.bias`] = biasOf(unit, course)
    out[`line-${step}.clamp`] = unit.parts.clamp === 'good' ? r.readings.clamp_V : 0
  }
  const atFull = bench.at('nominal', 1)
  const atIdle = bench.at('nominal', 0)
  if (atFull) out['line.ceiling'] = atFull.readings.powerCeiling_W / Math.max(1, outputOf(idle))
  if (atIdle) {
    const warm = warmUp(d, atIdle)
    out['line-0.switcher-C'] = warm?.steady_C.switcher ?? null
    out['line-0.transformer-C'] = warm === null ? null : warm.steady_C.transformer + coreRise_K(unit, atIdle)
    out['line-0.burst'] = atIdle.readings.mode === 0 ? 'groups' : 'even'
  }
  if (atFull && full.kind === 'regulates') Object.assign(out, fullLoad(unit, bench, atFull))
  return out
}

const folded = (c: Course): Readings => ({ 'line-0.output': outputOf(c), 'line-100.output': outputOf(c) })

/** Loss that a core of another kind has beyond its material, and the rise that it makes. */
const coreExtra_W = (unit: Unit, r: AtLoad): number =>
  (unit.coreLossFactor - 1) * Math.max(0.02, r.readings.core_W)
const coreRise_K = (unit: Unit, r: AtLoad): number => {
  const { transformer_W, transformer_C } = r.readings
  const rise = Math.max(0.1, transformer_C - r.operation.inside_C)
  return rise * ((1 + coreExtra_W(unit, r) / Math.max(0.01, transformer_W)) ** 0.833 - 1)
}

function touch(unit: Unit): number {
  const { source } = unit.design.need
  if (source.kind !== 'mains') return 0
  return 0.5 * touchCurrent(unit.yCapacitance_F + 60e-12, source.nominal_Vrms, source.frequency_Hz)
}

function fullLoad(unit: Unit, bench: Bench, r: AtLoad): Readings {
  const { design: d } = unit
  const { readings } = r
  const saturates = readings.fluxPeak_T > 0.98 * readings.saturation_T
  const warm = warmUp(d, r)
  const core_K = coreRise_K(unit, r)
  const spike_V = unit.parts.clamp === 'open' ? unclamped_V(unit, bench, r) : readings.drainPeak_V
  const shutdown_C = d.parts.switcher.thermalShutdown_C.typical
  const lowest = bench.at('minimum', 1)
  const short = lowest === null || lowest.readings.powerCeiling_W < lowest.readings.output_W
  const early = 1 - Math.exp(-firstTemperatures_s / 600)
  return {
    'line-100.reflected': readings.reflectedVoltage_V,
    'line-100.spike': spike_V,
    'line-100.peak': readings.primaryPeak_A,
    'line-100.ramp': saturates ? 'curls up' : unit.capacitanceFactor > 2 ? 'starts with a spike' : 'straight',
    'line-100.ripple': readings.outputRipple_Vpp,
    'line-100.ripple-line': readings.bulkRipple_Vpp * lineRejection,
    'line-100.bulk-ripple': readings.bulkRipple_Vpp,
    'line-100.switcher-C': warm?.at('switcher', firstTemperatures_s) ?? null,
    'line-100.transformer-C':
      warm === null ? null : warm.at('transformer', firstTemperatures_s) + early * core_K,
    'line.low-line': short ? 'drops' : 'same',
    'soak.switcher-C': warm?.steady_C.switcher ?? null,
    'soak.rectifier-C': warm?.steady_C.rectifier ?? null,
    'soak.transformer-C': warm === null ? null : warm.steady_C.transformer + core_K,
    'soak.clamp-C': unit.parts.clamp === 'good' ? (warm?.steady_C.clamp ?? null) : d.need.ambient_C,
    'soak.output': d.need.output_V,
    'soak.cycle': readings.switchJunction_C > shutdown_C ? 'slow' : 'none',
  }
}

/** Without a clamp the leakage rings with the drain node: Vbulk + Vor + I sqrt(Llk/C), held by the chip's own breakdown. */
function unclamped_V(unit: Unit, bench: Bench, { readings }: AtLoad): number {
  const { plant } = bench
  const ring_V = readings.primaryPeak_A * Math.sqrt(plant.leakage_H.typical / plant.drainCapacitance_F)
  return Math.min(readings.drainPlateau_V + ring_V, 1.1 * unit.design.parts.switcher.drainVoltage_V)
}
