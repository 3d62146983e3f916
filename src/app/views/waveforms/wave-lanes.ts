import type { StageTrace, StageWave } from '../../../engine/stage/index.ts'
import { show } from '../../fields/show.ts'
import { waveformStrings } from '../../strings/waveforms.ts'
import type { ReadLane } from './read-lane.ts'

/** Traces that are shown unless the person picks others, and all there are, in their order. */
export const usualTraces: readonly StageTrace[] = [
  'drain_V',
  'primary_A',
  'secondary_A',
  'clamp_V',
  'output_V',
]
export const allTraces: readonly StageTrace[] = [
  ...usualTraces,
  'first_V',
  'reverse_V',
  'bias_V',
  'magnetising_A',
]

/** Shown AC coupled, as on the bench. */
const coupled: ReadonlySet<StageTrace> = new Set(['output_V', 'first_V'])

export const unitOfTrace = (trace: StageTrace): 'V' | 'A' => (trace.endsWith('_V') ? 'V' : 'A')

const meanOf = (time: Float64Array, values: Float64Array): number => {
  let area = 0
  for (let i = 1; i < time.length; i++)
    area += ((values[i]! + values[i - 1]!) / 2) * (time[i]! - time[i - 1]!)
  const span = (time.at(-1) ?? 0) - (time[0] ?? 0)
  return span > 0 ? area / span : 0
}

/** A trace as it is shown: a ripple without its mean. */
export const shownTrace = (wave: StageWave, trace: StageTrace): Float64Array => {
  const values = wave.waveforms.columns[trace]!
  if (!coupled.has(trace)) return values
  const mean = meanOf(wave.waveforms.time_s, values)
  return values.map((v) => v - mean)
}

/** Ratings that belong into a picture. */
export interface Ratings {
  readonly drain_V: number
  readonly reverse_V: number
  readonly primary_A: number
}

const levelOf = (trace: StageTrace, ratings: Ratings): number | null =>
  trace === 'drain_V'
    ? ratings.drain_V
    : trace === 'reverse_V'
      ? ratings.reverse_V
      : trace === 'primary_A'
        ? ratings.primary_A
        : null

/** Lanes of the picture, the other build dashed behind. */
export const waveLanes = (
  wave: StageWave,
  other: StageWave | null,
  traces: readonly StageTrace[],
  ratings: Ratings,
): ReadLane[] =>
  traces.map((trace) => {
    const unit = unitOfTrace(trace)
    const level = levelOf(trace, ratings)
    return {
      id: trace,
      heading: waveformStrings.traces[trace].heading,
      fromZero: !coupled.has(trace),
      show: (value) => show(Math.abs(value) < 1e-12 ? 0 : value, unit),
      read: (value) => show(Math.abs(value) < 1e-9 ? 0 : value, unit),
      levels:
        level === null
          ? []
          : [
              {
                value: level,
                kind: 'rating',
                words: `${trace === 'primary_A' ? waveformStrings.figure.leastLimit : waveformStrings.runs.rating} ${show(level, unit)}`,
              },
            ],
      series: [
        ...(other
          ? [
              {
                x: other.waveforms.time_s,
                y: shownTrace(other, trace),
                style: 'before' as const,
              },
            ]
          : []),
        { x: wave.waveforms.time_s, y: shownTrace(wave, trace), style: 'line' as const },
      ],
    }
  })

/** All traces as a table for other programs, one row a point. */
export const waveCsv = (wave: StageWave): string => {
  const names = Object.keys(wave.waveforms.columns)
  const rows = [['time_s', ...names].join(',')]
  wave.waveforms.time_s.forEach((t, i) => {
    rows.push(
      [t, ...names.map((name) => wave.waveforms.columns[name]![i]!)].map((v) => v.toPrecision(7)).join(','),
    )
  })
  return `${rows.join('\n')}\n`
}
