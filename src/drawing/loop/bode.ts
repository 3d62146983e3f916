import { el, group, type SvgNode } from '../svg/node.ts'
import { area, curve, type Frame, grid, logScale, type Scale, straightScale, within } from './axes.ts'

export interface BodeCurve {
  readonly gain_dB: ArrayLike<number>
  readonly phase_deg: ArrayLike<number>
}

export interface BodeModel {
  readonly title: string
  readonly frequency_Hz: ArrayLike<number>
  /** The condition looked at; null where the loop does not run there. */
  readonly line: BodeCurve | null
  /** The same before the last change, to see what moved. */
  readonly before: BodeCurve | null
  /** Least and greatest over all corners. */
  readonly band: {
    readonly gainLow_dB: ArrayLike<number>
    readonly gainHigh_dB: ArrayLike<number>
    readonly phaseLow_deg: ArrayLike<number>
    readonly phaseHigh_deg: ArrayLike<number>
  } | null
  /** Crossover and margins of the line. */
  readonly marks: {
    readonly crossover_Hz: number
    readonly phaseMargin_deg: number
    /** Where the phase passes -180 degrees, and the gain there; null if nowhere. */
    readonly turn: { readonly frequency_Hz: number; readonly gain_dB: number } | null
  } | null
  /** Measured on the switched circuit. */
  readonly points: readonly {
    readonly frequency_Hz: number
    readonly gain_dB: number
    readonly phase_deg: number
  }[]
  readonly words: {
    readonly gain: string
    readonly phase: string
    readonly margin: string
    readonly gainMargin: string
  }
  readonly showFrequency: (frequency_Hz: number) => string
}

const width = 720
const gainFrame: Frame = { left: 48, right: width - 10, top: 8, bottom: 208 }
const phaseFrame: Frame = { left: 48, right: width - 10, top: 222, bottom: 392 }
const height = 416
const gainEnds = { low: -60, high: 80 }
const phaseEnds = { low: -300, high: 0 }

/** Gain and phase of a loop over frequency, one above the other. */
export function bode(m: BodeModel): SvgNode {
  const f = m.frequency_Hz
  const x = logScale(f[0]!, f[f.length - 1]!, gainFrame.left, gainFrame.right, m.showFrequency)
  const gain = straightScale(gainEnds.low, gainEnds.high, 20, gainFrame.bottom, gainFrame.top, (v) =>
    `${v}`.replace('-', '−'),
  )
  const phase = straightScale(phaseEnds.low, phaseEnds.high, 60, phaseFrame.bottom, phaseFrame.top, (v) =>
    `${v}°`.replace('-', '−'),
  )
  const both = (name: string, c: BodeCurve): SvgNode[] => [
    curve(`${name} of-gain`, f, c.gain_dB, x, gain, gainFrame),
    curve(`${name} of-phase`, f, c.phase_deg, x, phase, phaseFrame),
  ]
  return el(
    'svg',
    { class: 'plot bode', viewBox: `0 0 ${width} ${height}`, role: 'img', 'aria-label': m.title },
    grid(gainFrame, x, gain, { xLabels: false, title: m.words.gain }),
    grid(phaseFrame, x, phase, { xLabels: true, title: m.words.phase }),
    m.band && area('band', f, m.band.gainLow_dB, m.band.gainHigh_dB, x, gain, gainFrame),
    m.band && area('band', f, m.band.phaseLow_deg, m.band.phaseHigh_deg, x, phase, phaseFrame),
    el('line', { class: 'datum', x1: gainFrame.left, x2: gainFrame.right, y1: gain.at(0), y2: gain.at(0) }),
    el('line', {
      class: 'datum',
      x1: phaseFrame.left,
      x2: phaseFrame.right,
      y1: phase.at(-180),
      y2: phase.at(-180),
    }),
    ...(m.before ? both('before', m.before) : []),
    ...(m.line ? both('line', m.line) : []),
    m.marks && marks(m, x, gain, phase),
    group(
      { class: 'proof' },
      ...m.points.flatMap((p) => [
        el('circle', { cx: x.at(p.frequency_Hz), cy: within(gain.at(p.gain_dB), gainFrame), r: 3.4 }),
        el('circle', { cx: x.at(p.frequency_Hz), cy: within(phase.at(nearLine(m, p)), phaseFrame), r: 3.4 }),
      ]),
    ),
  )
}

/** The measured phase, turned by whole circles to lie next to the line. */
function nearLine(m: BodeModel, p: { readonly frequency_Hz: number; readonly phase_deg: number }): number {
  if (m.line === null) return p.phase_deg
  const f = m.frequency_Hz
  let k = 0
  while (k < f.length - 1 && f[k + 1]! < p.frequency_Hz) k++
  const at = m.line.phase_deg[k]!
  return p.phase_deg + 360 * Math.round((at - p.phase_deg) / 360)
}

function marks(m: BodeModel, x: Scale, gain: Scale, phase: Scale): SvgNode {
  const { crossover_Hz, phaseMargin_deg, turn } = m.marks!
  const at = x.at(crossover_Hz)
  const foot = within(phase.at(-180), phaseFrame)
  const head = within(phase.at(-180 + phaseMargin_deg), phaseFrame)
  const leftward = at > phaseFrame.right - 130
  return group(
    { class: phaseMargin_deg < 0 ? 'marks is-broken' : phaseMargin_deg < 30 ? 'marks is-near' : 'marks' },
    el('line', { class: 'lead', x1: at, x2: at, y1: gain.at(0), y2: Math.max(foot, head) }),
    el('circle', { class: 'spot', cx: at, cy: gain.at(0), r: 4 }),
    el('line', { class: 'margin', x1: at, x2: at, y1: foot, y2: head }),
    el(
      'text',
      {
        class: 'mark',
        x: leftward ? at - 8 : at + 8,
        y: (foot + head) / 2 + 4,
        'text-anchor': leftward ? 'end' : 'start',
      },
      m.words.margin,
    ),
    turn && turn.frequency_Hz < m.frequency_Hz[m.frequency_Hz.length - 1]!
      ? group(
          {},
          el('line', {
            class: 'margin is-thin',
            x1: x.at(turn.frequency_Hz),
            x2: x.at(turn.frequency_Hz),
            y1: gain.at(0),
            y2: within(gain.at(turn.gain_dB), gainFrame),
          }),
          el(
            'text',
            {
              class: 'mark',
              x: x.at(turn.frequency_Hz) - 6,
              y: within(gain.at(turn.gain_dB / 2), gainFrame) + 4,
              'text-anchor': 'end',
            },
            m.words.gainMargin,
          ),
        )
      : null,
  )
}
