import type { Waveform } from './netlist.ts'

/** Highest power of time kept in a Taylor expansion. */
export const maxDegree = 12

const tiny = 1e-15

/**
 * Taylor coefficients of a waveform just after `time_s`, into out[at .. at + maxDegree + 1].
 * Returns the degree actually present (0 constant, 1 ramp, maxDegree sine).
 */
export function expandWaveform(
  wave: Waveform,
  knobs: Readonly<Record<string, number>>,
  time_s: number,
  out: Float64Array,
  at: number,
): number {
  out.fill(0, at, at + maxDegree + 2)
  if (wave.kind === 'dc') {
    out[at] = wave.value
    return 0
  }
  if (wave.kind === 'knob') {
    out[at] = knobs[wave.knob]!
    return 0
  }
  if (wave.kind === 'sine') {
    const w = 2 * Math.PI * wave.frequency_Hz
    // reduce whole periods first, so that late times keep their phase
    const turns = wave.frequency_Hz * time_s
    const angle = 2 * Math.PI * (turns - Math.floor(turns)) + wave.phase_rad
    const sin = wave.amplitude * Math.sin(angle)
    const cos = wave.amplitude * Math.cos(angle)
    const cycle = [sin, cos, -sin, -cos]
    let factor = 1
    for (let j = 0; j <= maxDegree + 1; j++) {
      out[at + j] = cycle[j % 4]! * factor
      factor *= w / (j + 1)
    }
    out[at]! += wave.offset
    return maxDegree
  }
  const { start, value, slope } =
    wave.kind === 'piecewise' ? lineAt(wave.points, time_s) : pulseAt(wave, time_s)
  out[at] = value + slope * (time_s - start)
  out[at + 1] = slope
  return slope === 0 ? 0 : 1
}

interface Line {
  readonly start: number
  readonly value: number
  readonly slope: number
}

function lineAt(points: readonly (readonly [number, number])[], time_s: number): Line {
  const reach = time_s + tiny
  if (reach < points[0]![0]) return { start: time_s, value: points[0]![1], slope: 0 }
  let low = 0
  let high = points.length
  while (high - low > 1) {
    const mid = (low + high) >> 1
    if (points[mid]![0] <= reach) low = mid
    else high = mid
  }
  const from = points[low]!
  const to = points[low + 1]
  return {
    start: from[0],
    value: from[1],
    slope: to === undefined ? 0 : (to[1] - from[1]) / (to[0] - from[0]),
  }
}

type Pulse = Extract<Waveform, { kind: 'pulse' }>

/** Start of the period which holds `time_s`, tolerant of rounding. */
function pulseStart(wave: Pulse, time_s: number): number {
  return wave.delay_s + Math.floor((time_s - wave.delay_s) / wave.period_s + 1e-9) * wave.period_s
}

function pulseAt(wave: Pulse, time_s: number): Line {
  if (time_s + tiny < wave.delay_s) return { start: time_s, value: wave.low, slope: 0 }
  const start = pulseStart(wave, time_s)
  const phase = time_s - start + wave.period_s * 1e-12 + tiny
  const top = wave.rise_s + wave.width_s
  const swing = wave.high - wave.low
  if (phase < wave.rise_s) return { start, value: wave.low, slope: swing / wave.rise_s }
  if (phase < top) return { start, value: wave.high, slope: 0 }
  if (phase < top + wave.fall_s) return { start: start + top, value: wave.high, slope: -swing / wave.fall_s }
  return { start, value: wave.low, slope: 0 }
}

/** First corner of a waveform after `time_s`, or Infinity. */
export function nextCorner(wave: Waveform, time_s: number): number {
  if (wave.kind === 'piecewise') {
    const reach = time_s + tiny
    let low = -1
    let high = wave.points.length
    while (high - low > 1) {
      const mid = (low + high) >> 1
      if (wave.points[mid]![0] <= reach) low = mid
      else high = mid
    }
    return wave.points[high]?.[0] ?? Number.POSITIVE_INFINITY
  }
  if (wave.kind !== 'pulse') return Number.POSITIVE_INFINITY
  if (time_s + tiny < wave.delay_s) return wave.delay_s
  const start = pulseStart(wave, time_s)
  const reach = time_s + wave.period_s * 1e-12 + tiny
  const top = start + wave.rise_s + wave.width_s
  for (const corner of [start + wave.rise_s, top, top + wave.fall_s, start + wave.period_s])
    if (corner > reach) return corner
  return start + 2 * wave.period_s
}
