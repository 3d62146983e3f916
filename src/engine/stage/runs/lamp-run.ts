import { lampGlow, lampModel } from '../../mains/lamp.ts'
import { solveMainsInTime } from '../../mains/solve-in-time.ts'
import { formatQuantity } from '../../quantity/index.ts'
import type { Design } from '../../supply/design.ts'
import { bulkSource } from '../../supply/evaluate/bulk-source.ts'
import type { Point } from '../point.ts'
import type { Telling } from './tell.ts'

/** Line and contacts; common practice, no source. */
const line_ohm = 0.4
/** Time after the mains at which the converter begins to draw. */
const wake_s = 0.15
const span_s = 2.5

/** Mains side of a power-up through a lamp, one row every 2 ms. */
export interface LampTrace {
  readonly time_s: Float64Array
  readonly bulk_V: Float64Array
  readonly line_A: Float64Array
  readonly filament_K: Float64Array
}

export interface LampOutcome {
  readonly ok: true
  readonly trace: LampTrace
  readonly telling: Telling
}

/**
 * Power-up through a lamp at nominal input: bulk voltage and filament in time, the stage as the power that it draws at
 * full load, gated by the chip's start voltage. A cycle of the stage lasts ten microseconds and the filament a second:
 * the stage enters by its power, which is what the lamp sees of it.
 */
export function runBehindLamp(
  d: Design,
  point: Point,
  lamp: { readonly power_W: number; readonly voltage_V: number },
): LampOutcome | { readonly ok: false; readonly code: 'step-budget' | 'diverged'; readonly message: string } {
  const { parts } = d
  const { switcher } = parts
  const model = lampModel(lamp.power_W, lamp.voltage_V)
  const quiet_W = switcher.supplyCurrent_A * 0.5 * switcher.biasVoltage_V.minimum
  const stage_W = point.operation.stage_W
  const source = bulkSource(d.need, 'nominal')
  const trace = solveMainsInTime({
    source: source.kind === 'mains' ? { ...source, phase_rad: Math.PI / 2 } : source,
    fixedResistance_ohm:
      line_ohm + (parts.fuse?.resistance_ohm ?? 0) + (parts.commonModeChoke?.resistance_ohm ?? 0),
    bridgeDrop_V: parts.bridge?.drop_V ?? 0,
    bridgeSlope_ohm: parts.bridge?.slope_ohm ?? 0,
    capacitance_F: d.bulkCapacitance_F.typical,
    startVoltage_V: 0,
    lamp: model,
    thermistor: parts.ntc,
    ambient_C: d.need.ambient_C,
    load: {
      power: [
        { time_s: 0, power_W: quiet_W },
        { time_s: wake_s, power_W: quiet_W },
        { time_s: wake_s + 0.02, power_W: stage_W },
      ],
      knee_V: 30,
      shunt_ohm: null,
      gate: {
        start_V: switcher.minimumStartVoltage_V,
        stop_V: 0.6 * switcher.minimumStartVoltage_V,
        pause_s: switcher.restartPause_s,
      },
    },
    duration_s: span_s,
    sample_s: 2e-3,
  })
  if (!trace.ok) return trace
  const late = trace.cycles.slice(-10)
  const mean = (pick: (c: (typeof late)[number]) => number) =>
    late.reduce((sum, c) => sum + pick(c), 0) / Math.max(1, late.length)
  const bulk_V = mean((c) => c.bus_Vaverage)
  const kelvin = mean((c) => c.filament_K)
  const lamp_W = mean((c) => c.lamp_W)
  const open_V = source.kind === 'mains' ? source.voltage_Vrms * Math.SQRT2 : source.voltage_V
  const glow = lampGlow(kelvin)
  const volts = formatQuantity(bulk_V, 'V')
  const stalled = bulk_V < 0.5 * open_V
  return {
    ok: true,
    trace: {
      time_s: trace.time_s,
      bulk_V: trace.bus_V,
      line_A: trace.line_A,
      filament_K: trace.filament_K,
    },
    telling: {
      happens: stalled
        ? `The lamp takes over: at ${formatQuantity(stage_W, 'W')} drawn the bulk sags to ${volts}${trace.stops_s.length > 0 ? ` and the chip stops ${trace.stops_s.length} times` : ''}, and the lamp burns ${formatQuantity(lamp_W, 'W')}. Start with a tenth of the load, or a larger lamp.`
        : `The lamp lets it run: the bulk settles at ${volts}, the filament at ${formatQuantity(kelvin, 'K')} with ${formatQuantity(lamp_W, 'W')} in the lamp.`,
      bench: `A flash as the bulk charges, then ${glow === 'dark' ? 'a dark lamp' : `a lamp that glows ${glow}`}${stalled ? ' and no steady output' : ''}. Steadily bright from the first moment means a short; switch off, unplug, discharge the bulk and measure before touching.`,
    },
  }
}
