import { type Controller, current, type Element, type Netlist, sum, voltage } from '../circuit/index.ts'
import type { Design } from '../supply/design.ts'
import { switcherControl } from './chip.ts'
import {
  askingForm,
  commandForm,
  controlCurrent_A,
  feedbackElements,
  feedbackParameters,
} from './feedback.ts'
import { loadElements, type StageLoad } from './load.ts'
import type { StageParameters } from './parameters.ts'
import {
  chipDraw,
  coldStart,
  expectedStart,
  outputNode,
  powerStage,
  type StageFaults,
} from './power-stage.ts'

/** Something that a switch does at an instant of a run. */
export interface Action {
  readonly time_s: number
  readonly switch: string
  readonly closed: boolean
}

export interface RegulatedOptions {
  readonly load: StageLoad
  /** From rest, or running at its wanted output. */
  readonly from: 'rest' | 'running'
  readonly faults?: StageFaults
  /** Breaks and bridges to build in; `actions` work them. */
  readonly sites?: {
    readonly sense?: boolean
    readonly led?: boolean
    readonly cathode?: boolean
    readonly clamp?: boolean
    readonly rectifier?: boolean
    readonly outputShort?: boolean
    readonly stepLoad?: StageLoad
    /** Current drawn besides over time, never from an empty output. */
    readonly ramp?: readonly (readonly [time_s: number, current_A: number])[]
  }
  readonly actions?: readonly Action[]
  readonly transferRatio?: number
}

/** Resistance of a short across the output with its leads. */
const short_ohm = 0.02

/** Works switches at given instants. */
const timeline = (actions: readonly Action[]): Controller => ({
  name: 'timeline',
  watches: {},
  memory: {},
  start: (io) =>
    actions.forEach((action, i) => {
      io.timerAt(String(i), action.time_s)
    }),
  react: (event, io) => {
    const action = actions[Number(event)]!
    io.set(action.switch, action.closed)
  },
})

/** The whole supply from the bulk on: stage, feedback and chip, with what a run does to it. */
export function regulatedStage(d: Design, p: StageParameters, options: RegulatedOptions): Netlist {
  const { sites = {}, actions = [], from, load } = options
  const node = outputNode(p)
  const running = from === 'running'
  const share =
    p.chip.style === 'voltage-mode'
      ? p.expected.duty / p.chip.maximumDuty
      : (p.expected.peak_A -
          (p.bulk_V * p.chip.delay_s) / p.magnetising_H +
          (p.chip.slope_A_per_s * p.expected.duty) / p.frequency_Hz) /
        p.chip.limit_A
  const stage = powerStage(p, running ? expectedStart(p) : coldStart, options.faults).map(
    (element): Element =>
      sites.clamp && element.name === 'Dcl' && 'a' in element ? { ...element, a: 'dcl' } : element,
  )
  const elements: Element[] = [
    ...stage,
    ...loadElements(p, load),
    // a voltage-mode chip lives on its control current
    chipDraw(p, p.chip.style === 'voltage-mode' ? 0.2 : 1),
    ...feedbackElements(
      p,
      feedbackParameters(d, p, options.transferRatio),
      running ? { output_V: p.output_V, control_A: controlCurrent_A(p, share) } : null,
      sites,
    ),
  ]
  if (sites.clamp)
    elements.push({ kind: 'switch', name: 'Sclamp', a: 'd', b: 'dcl', on_ohm: 1e-3, closed: true })
  if (sites.rectifier) elements.push({ kind: 'switch', name: 'Srectifier', a: 's3', b: 'out', on_ohm: 0.01 })
  if (sites.outputShort) elements.push({ kind: 'switch', name: 'Sshort', a: node, b: '0', on_ohm: short_ohm })
  if (sites.stepLoad)
    elements.push(
      { kind: 'switch', name: 'Sstep', a: node, b: 'stepped', on_ohm: 1e-3 },
      ...loadElements(p, sites.stepLoad, 'step', 'stepped'),
      { kind: 'resistor', name: 'Rstepleak', a: 'stepped', b: '0', resistance_ohm: 1e6 },
    )
  if (sites.ramp)
    elements.push(
      {
        kind: 'current-source',
        name: 'Iramp',
        a: node,
        b: '0',
        waveform: { kind: 'piecewise', points: sites.ramp },
      },
      // a bench load cannot pull its terminals below zero
      { kind: 'diode', name: 'Dramp', a: '0', b: node, drop_V: 0, slope_ohm: 1e-3 },
    )
  return {
    title: p.title,
    elements,
    knobs: { bulk_V: p.bulk_V, hot: 0 },
    controllers: [
      switcherControl({
        period_s: 1 / p.frequency_Hz,
        chip: p.chip,
        command: commandForm(p),
        sense: current('Rpri'),
        asking: askingForm(p),
        running,
        ...(p.chip.style === 'peak-current'
          ? { supply: sum(voltage('bias'), { terms: [], offset: -p.chip.biasMinimum_V }) }
          : {}),
      }),
      ...(actions.length > 0 ? [timeline(actions)] : []),
    ],
  }
}
