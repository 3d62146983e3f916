import type { Design } from '../../supply/design.ts'
import { loadOf, type StageLoad } from '../load.ts'
import type { StageParameters } from '../parameters.ts'
import type { FollowOptions } from './follow.ts'

export const timeRunIds = [
  'start-load',
  'start-short',
  'load-step',
  'short-release',
  'overload',
  'wire-broken',
  'optocoupler-dead',
  'reference-shorted',
  'secondary-reversed',
  'rectifier-shorted',
  'clamp-open',
  'lamp',
] as const
export type TimeRunId = (typeof timeRunIds)[number]
export type CircuitRunId = Exclude<TimeRunId, 'lamp'>

/** Name of each run, and the corner at which it is worst and therefore made unless another is picked. */
export const timeRuns: Readonly<Record<TimeRunId, { readonly label: string; readonly corner: string }>> = {
  'start-load': { label: 'Start into full load', corner: 'minimum-valley-100-typical-cold' },
  'start-short': { label: 'Start into a short', corner: 'maximum-crest-100-flux-cold' },
  'load-step': { label: 'Load step, 10 % to full and back', corner: 'nominal-mean-10-typical-warm' },
  'short-release': { label: 'Output shorted, then released', corner: 'nominal-mean-100-typical-warm' },
  overload: { label: 'Overload until it folds', corner: 'minimum-valley-100-typical-warm' },
  'wire-broken': { label: 'Feedback wire broken', corner: 'nominal-mean-100-typical-warm' },
  'optocoupler-dead': { label: 'Optocoupler dead', corner: 'maximum-crest-10-typical-warm' },
  'reference-shorted': { label: 'Reference shorted', corner: 'nominal-mean-100-typical-warm' },
  'secondary-reversed': { label: 'Secondary reversed', corner: 'maximum-crest-100-typical-cold' },
  'rectifier-shorted': { label: 'Output diode shorted', corner: 'nominal-mean-100-typical-warm' },
  'clamp-open': { label: 'Clamp open', corner: 'maximum-crest-100-typical-warm' },
  lamp: { label: 'Power-up through a lamp', corner: 'nominal-mean-100-typical-warm' },
}

/** The event of a run, some clock periods into a look so that waveforms on both sides of it are kept. */
const lead_s = 2.2e-3

/** What each run does to the stage. `p` is the stage at the corner, with its load; `kind` another kind of load. */
export function planRun(
  id: CircuitRunId,
  d: Design,
  p: StageParameters,
  junction_C: number,
  kind?: StageLoad['kind'],
): FollowOptions {
  const full_A = d.need.output_A
  const hung = kind ?? (d.need.feeds === 'resistive' ? 'resistor' : 'constant-current')
  const load = loadOf(hung, p.output_V, p.output_A)
  const { restartTry_s, restartPause_s } = p.chip
  const running = { from: 'running', load, event_s: lead_s, junction_C } as const
  switch (id) {
    case 'start-load':
      return {
        from: 'rest',
        load,
        span_s: 24e-3,
        most_s: 90e-3,
        event_s: 0,
        junction_C,
      }
    case 'start-short':
      return {
        from: 'rest',
        load: { kind: 'resistor', resistance_ohm: 0.02 },
        span_s: restartTry_s > 0 ? Math.min(60e-3, restartTry_s) + restartPause_s + 6e-3 : 15e-3,
        skipsSameness: true,
        faults: { switchSaturates: true },
        event_s: 0,
        junction_C,
      }
    case 'load-step':
      return {
        ...running,
        // a tenth of the load stands all the time; the rest comes and goes
        load: loadOf(hung, p.output_V, 0.1 * full_A),
        sites: { stepLoad: { kind: 'constant-current', current_A: 0.9 * full_A } },
        actions: [
          { time_s: loadStep.up_s, switch: 'Sstep', closed: true },
          { time_s: loadStep.down_s, switch: 'Sstep', closed: false },
        ],
        span_s: 24e-3,
      }
    case 'short-release':
      return {
        ...running,
        faults: { switchSaturates: true },
        sites: { outputShort: true },
        actions: [
          { time_s: lead_s, switch: 'Sshort', closed: true },
          { time_s: lead_s + 5e-3, switch: 'Sshort', closed: false },
        ],
        span_s: 24e-3,
        most_s: 60e-3,
      }
    case 'overload':
      return {
        ...running,
        load: { kind: 'constant-current', current_A: p.output_A },
        sites: {
          ramp: [
            [lead_s, 0],
            [lead_s + 20e-3, 1.5 * full_A],
          ],
        },
        span_s: lead_s + 24e-3,
        most_s: lead_s + 24e-3 + Math.min(0.06, restartTry_s),
        untilPaused: true,
      }
    case 'wire-broken':
      return {
        ...running,
        sites: { sense: true },
        actions: [{ time_s: lead_s, switch: 'Ssense', closed: false }],
        span_s: 24e-3,
        most_s: lead_s + Math.min(0.06, restartTry_s) + 6e-3,
        untilPaused: true,
      }
    case 'optocoupler-dead':
      return {
        ...running,
        sites: { led: true },
        actions: [{ time_s: lead_s, switch: 'Sled', closed: false }],
        span_s: 24e-3,
        most_s: lead_s + Math.min(0.06, restartTry_s) + 6e-3,
        untilPaused: true,
      }
    case 'reference-shorted':
      return {
        ...running,
        sites: { cathode: true },
        actions: [{ time_s: lead_s, switch: 'Scathode', closed: true }],
        span_s: 40e-3,
      }
    case 'secondary-reversed':
      return {
        from: 'rest',
        load,
        faults: { secondaryReversed: true, switchSaturates: true },
        span_s: 6e-3,
        event_s: 0.2e-3,
        junction_C,
      }
    case 'rectifier-shorted':
      return {
        ...running,
        faults: { switchSaturates: true },
        sites: { rectifier: true },
        actions: [{ time_s: lead_s, switch: 'Srectifier', closed: true }],
        span_s: 8e-3,
      }
    case 'clamp-open':
      return {
        ...running,
        sites: { clamp: true },
        actions: [{ time_s: lead_s, switch: 'Sclamp', closed: false }],
        span_s: 6e-3,
      }
  }
}

/** Times of the load step, for its sentence. */
export const loadStep = { up_s: lead_s, down_s: lead_s + 10e-3 }
