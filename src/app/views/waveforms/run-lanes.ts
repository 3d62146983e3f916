import type { Waveforms } from '../../../engine/circuit/index.ts'
import type { TimeRunOutcome } from '../../../engine/stage/index.ts'
import type { Design } from '../../../engine/supply/design.ts'
import { show } from '../../fields/show.ts'
import { waveformStrings } from '../../strings/waveforms.ts'
import { plainLine, type ReadLane } from './read-lane.ts'

const words = waveformStrings.runs

const laneOf = (
  id: string,
  heading: string,
  unit: string,
  series: ReadLane['series'],
  levels: ReadLane['levels'] = [],
): ReadLane => ({
  id,
  heading,
  series,
  levels,
  fromZero: true,
  show: (value) => show(Math.abs(value) < 1e-12 ? 0 : value, unit),
  read: (value) => show(Math.abs(value) < 1e-9 ? 0 : value, unit),
})

/** The whole run: output as a band, the highest of drain and current in each cycle, the slow voltages. */
export const courseLanes = (run: TimeRunOutcome, d: Design): ReadLane[] => {
  const { trace: t, lampTrace: l } = run
  if (l)
    return [
      laneOf('bulk', words.lanes.bulk, 'V', [plainLine(l.time_s, l.bulk_V)]),
      laneOf('line', words.lanes.line, 'A', [plainLine(l.time_s, l.line_A)]),
      laneOf('filament', words.lanes.filament, 'K', [plainLine(l.time_s, l.filament_K)]),
    ]
  if (!t) return []
  const { switcher, outputCapacitor } = d.parts
  const rating = (value: number, unit: string) => ({
    value,
    kind: 'rating' as const,
    words: `${words.rating} ${show(value, unit)}`,
  })
  return [
    laneOf(
      'output',
      words.lanes.output,
      'V',
      [{ x: t.time_s, y: t.outputMost_V, low: t.outputLeast_V, style: 'band' }],
      [
        { value: d.need.output_V, kind: 'wanted', words: `${words.wanted} ${show(d.need.output_V, 'V')}` },
        rating(outputCapacitor.voltage_V, 'V'),
      ],
    ),
    laneOf(
      'drain',
      words.lanes.drain,
      'V',
      [plainLine(t.time_s, t.drainMost_V)],
      [rating(switcher.drainVoltage_V, 'V')],
    ),
    laneOf('current', words.lanes.current, 'A', [plainLine(t.time_s, t.currentMost_A)]),
    laneOf('bias', words.lanes.bias, 'V', [plainLine(t.time_s, t.bias_V)]),
    laneOf('control', words.lanes.control, 'A', [plainLine(t.time_s, t.control_A)]),
  ]
}

const detailTraces = [
  ['drain_V', 'V'],
  ['primary_A', 'A'],
  ['secondary_A', 'A'],
  ['clamp_V', 'V'],
  ['output_V', 'V'],
] as const

/** A few cycles of a run. */
export const detailLanes = ({ time_s, columns }: Waveforms): ReadLane[] =>
  detailTraces.map(([trace, unit]) =>
    laneOf(trace, trace === 'output_V' ? words.lanes.output : waveformStrings.traces[trace].heading, unit, [
      plainLine(time_s, columns[trace]!),
    ]),
  )
