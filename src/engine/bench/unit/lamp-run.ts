import { type BulkReading, solveBulk } from '../../mains/bulk.ts'
import { type LampModel, lampGlow, lampResistance } from '../../mains/lamp.ts'
import { solveMainsInTime } from '../../mains/solve-in-time.ts'
import type { MainsTrace } from '../../mains/time-run.ts'
import type { Design } from '../../supply/design.ts'
import { bulkSource } from '../../supply/evaluate/bulk-source.ts'
import type { Course } from './course.ts'

/** Line and contacts; common practice, no source. */
const line_ohm = 0.4
/** Pulls the bulk node down where it is shorted. */
const short_ohm = 0.3

/** How the lamp behaves: never lit, a flash that dies, a steady glow, pulses, or steadily bright. */
export type LampLook = 'dark' | 'flash' | 'glows' | 'pulses' | 'bright'

export interface LampRun {
  readonly look: LampLook
  readonly trace: MainsTrace
  readonly flash_K: number
  readonly flash_s: number
  readonly end_K: number
  readonly bulk_V: number
  readonly bulkLow_V: number
}

const fixedSeries_ohm = (d: Design): number =>
  line_ohm + (d.parts.fuse?.resistance_ohm ?? 0) + (d.parts.commonModeChoke?.resistance_ohm ?? 0)

/** Power that the converter takes from the bulk over time, for a course. `regulated_W` is its steady draw. */
function powerOf(
  course: Course,
  d: Design,
  regulated_W: number,
  duration_s: number,
): readonly { time_s: number; power_W: number }[] {
  const quiet_W = d.parts.switcher.supplyCurrent_A * 0.5 * d.parts.switcher.biasVoltage_V.minimum
  if (course.kind === 'dead' || course.kind === 'shorted' || course.kind === 'silent')
    return [{ time_s: 0, power_W: quiet_W }]
  if (course.kind === 'regulates')
    return [
      { time_s: 0, power_W: quiet_W },
      { time_s: 0.15, power_W: quiet_W },
      { time_s: 0.16, power_W: Math.max(quiet_W, regulated_W) },
    ]
  const { restartTry_s, restartPause_s } = d.parts.switcher
  const points = [{ time_s: 0, power_W: quiet_W }]
  for (let t = 0.15; t < duration_s; t += restartTry_s + restartPause_s)
    points.push(
      { time_s: t, power_W: quiet_W },
      { time_s: t + 1e-3, power_W: course.try_W },
      { time_s: t + restartTry_s, power_W: course.try_W },
      { time_s: t + restartTry_s + 1e-3, power_W: quiet_W },
    )
  return points.slice(0, 900)
}

/**
 * Runs the mains side of a unit in time through a lamp (or a bare line), from an empty bulk capacitor. Null when the
 * solver gives up.
 */
export function runThroughLamp(
  d: Design,
  course: Course,
  regulated_W: number,
  lamp: LampModel | null,
  wanted_s: number | null = null,
): LampRun | null {
  const { restartTry_s, restartPause_s, minimumStartVoltage_V } = d.parts.switcher
  const duration_s =
    wanted_s ??
    (course.kind === 'hiccup' || course.kind === 'runaway'
      ? Math.min(6, Math.max(1.5, 0.2 + 2.5 * (restartTry_s + restartPause_s)))
      : 2.5)
  const source = bulkSource(d.need, 'nominal')
  const open = course.kind === 'dead'
  const trace = solveMainsInTime({
    source: source.kind === 'mains' ? { ...source, phase_rad: Math.PI / 2 } : source,
    fixedResistance_ohm: open ? 9e4 : fixedSeries_ohm(d),
    bridgeDrop_V: d.parts.bridge?.drop_V ?? 0,
    bridgeSlope_ohm: d.parts.bridge?.slope_ohm ?? 0,
    capacitance_F: d.bulkCapacitance_F.typical,
    startVoltage_V: 0,
    lamp,
    thermistor: open ? null : d.parts.ntc,
    ambient_C: d.need.ambient_C,
    load: {
      power: powerOf(course, d, regulated_W, duration_s),
      knee_V: 30,
      shunt_ohm: course.kind === 'shorted' ? short_ohm : open ? 1e4 : null,
      gate:
        course.kind === 'shorted' || open
          ? null
          : { start_V: minimumStartVoltage_V, stop_V: 0.6 * minimumStartVoltage_V, pause_s: restartPause_s },
    },
    duration_s,
    sample_s: 1e-3,
  })
  if (!trace.ok) return null
  return readRun(trace, open)
}

function readRun(trace: MainsTrace, open: boolean): LampRun {
  const { filament_K, cycles } = trace
  let flash_K = 0
  let flash_s = 0
  for (let k = 0; k < filament_K.length; k++) {
    flash_K = Math.max(flash_K, filament_K[k]!)
    if (filament_K[k]! > 900) flash_s += 1e-3
  }
  const half = cycles.slice(Math.floor(0.6 * cycles.length))
  const high_K = Math.max(...half.map((c) => c.filamentHigh_K))
  const low_K = Math.min(...half.map((c) => c.filamentLow_K))
  const last = cycles[cycles.length - 1]!
  const mean_V = half.reduce((sum, c) => sum + c.bus_Vaverage, 0) / half.length
  return {
    look: open ? 'dark' : lookOf(high_K, low_K, flash_K),
    trace,
    flash_K,
    flash_s,
    end_K: last.filament_K,
    bulk_V: mean_V,
    bulkLow_V: Math.min(...half.map((c) => c.busLow_V)),
  }
}

function lookOf(high_K: number, low_K: number, flash_K: number): LampLook {
  if (low_K > 1700) return 'bright'
  if (high_K > 900 && high_K - low_K > 250) return 'pulses'
  if (lampGlow(high_K) !== 'dark') return 'glows'
  return flash_K > 900 ? 'flash' : 'dark'
}

/** Lamp and bulk in balance at a steady power. */
export interface LampBalance {
  readonly filament_K: number
  readonly bulk: BulkReading
}

/**
 * Balance of filament and bulk at a steady power, from the cold side: the lowest temperature at which the filament
 * radiates what the charging current makes in it, Irms² R(T) = P (T⁴ - T0⁴)/(Thot⁴ - T0⁴). Null where there is none: the
 * lamp takes over and the bulk sags away.
 */
export function lampBalance(d: Design, lamp: LampModel, power_W: number): LampBalance | null {
  const source = bulkSource(d.need, 'nominal')
  const room4 = lamp.room_K ** 4
  const at = (kelvin: number): { excess_W: number; bulk: BulkReading } | null => {
    const lamp_ohm = lampResistance(lamp, kelvin)
    const bulk = solveBulk({
      source,
      seriesResistance_ohm:
        fixedSeries_ohm(d) + 2 * (d.parts.bridge?.slope_ohm ?? 0) + lamp_ohm + (d.parts.ntc?.hot_ohm ?? 0),
      bridgeDrop_V: d.parts.bridge?.drop_V ?? 0,
      capacitance_F: d.bulkCapacitance_F.typical,
      power_W,
    })
    if (!bulk.ok) return null
    const radiated = (lamp.power_W * (kelvin ** 4 - room4)) / (lamp.hot_K ** 4 - room4)
    return { excess_W: bulk.input_Arms ** 2 * lamp_ohm - radiated, bulk }
  }
  let low = lamp.room_K
  for (let kelvin = lamp.room_K; kelvin < 2900; kelvin += 50) {
    const here = at(kelvin)
    if (here === null) return null
    if (here.excess_W <= 0) {
      let high = kelvin
      for (let k = 0; k < 12; k++) {
        const middle = 0.5 * (low + high)
        const m = at(middle)
        if (m !== null && m.excess_W > 0) low = middle
        else high = middle
      }
      return { filament_K: high, bulk: (at(high) ?? here).bulk }
    }
    low = kelvin
  }
  return null
}
