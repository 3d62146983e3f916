import { formatQuantity, type Unit } from '../../quantity/index.ts'
import type { Design } from '../../supply/design.ts'
import { type CourseFacts, courseFacts } from './facts.ts'
import type { Followed, FollowOptions } from './follow.ts'
import { type CircuitRunId, loadStep } from './plans.ts'

/** What a run comes to, in words. */
export interface Telling {
  /** What happens. */
  readonly happens: string
  /** What one sees on the bench. */
  readonly bench: string
}

const show = (value: number, unit: Unit): string => formatQuantity(value, unit)

/** Current over the limit from which its climb is worth a word. */
const climbing = 1.3

/** A run in words: how the output went, what the chip did, what a scope and a meter show. */
export function tell(id: CircuitRunId, d: Design, run: Followed, options: FollowOptions): Telling {
  const since_s = options.from === 'rest' ? 0 : options.event_s
  const after = (time_s: number): string => show(Math.max(0, time_s - since_s), 's')
  const whole = courseFacts(run.trace, run.parameters.output_V, since_s)
  const wanted = run.parameters.output_V
  const paused = Number.isFinite(run.pausedAt_s)
  const { restartTry_s, restartPause_s } = run.parameters.chip
  const hiccup = `It pauses ${after(run.pausedAt_s)} later and then tries again for ${show(restartTry_s, 's')} every ${show(restartTry_s + restartPause_s, 's')}`
  const ticking = 'a ticking or ticks heard from the transformer, once for each try'
  const gone = run.passed.find((limit) => limit.destroys)
  const fails = gone
    ? ` The ${gone.label} passes ${show(gone.rating, unitOf(gone.unit))} after ${after(gone.time_s)}: the part is lost there, and what follows is no longer this circuit.`
    : ''
  const { limit_A } = run.parameters.chip
  const climbs =
    whole.currentMost_A > climbing * limit_A
      ? ` Blanking and delay leave each pulse a least width, and next to nothing on the output lets the current fall: it climbs over its limit of ${show(limit_A, 'A')}. A chip that skips pulses there stays lower.`
      : ''
  const peak = `${show(whole.currentMost_A, 'A')} in the primary`
  switch (id) {
    case 'start-load':
      return started(whole, wanted, run, fails)
    case 'start-short':
      return {
        happens: `The current limit ends ${share(run.trips, run.pulses)} of the pulses, the primary reaches ${show(whole.currentMost_A, 'A')}, and the output stays at ${show(whole.final_V, 'V')}.${paused ? ` ${hiccup}.` : ' The chip does not pause within this run.'}${climbs}${fails}`,
        bench: `No output voltage and ${paused ? ticking : 'a steady whine'}; a clamp meter on the output lead shows bursts. The drain rises to ${show(whole.drainMost_V, 'V')}.`,
      }
    case 'load-step': {
      const up = courseFacts(upTo(run, loadStep.down_s), wanted, loadStep.up_s)
      const down = courseFacts(run.trace, wanted, loadStep.down_s)
      const back =
        up.lowest_V > 0.98 * wanted
          ? 'stays within 2 %'
          : up.settledAt_s === null
            ? 'is not back within 2 % before the load goes again'
            : `is back within 2 % after ${show(up.settledAt_s - loadStep.up_s, 's')}`
      return {
        happens: `From a tenth to full load the output dips to ${show(up.lowest_V, 'V')} (${percentOf(up.lowest_V, wanted)}) and ${back}; when the load goes it rises to ${show(down.highest_V, 'V')} (${percentOf(down.highest_V, wanted)}).${fails}`,
        bench: `A scope on the output, AC coupled, shows the dip and the rise. ${down.settledAt_s === null ? 'The rise dies away slowly: only a light load discharges the capacitors.' : 'Ringing on their way back tells of a small phase margin.'}`,
      }
    }
    case 'short-release': {
      const back = courseFacts(run.trace, wanted, options.event_s + 5e-3)
      return {
        happens: `Shorted, the output falls to ${show(whole.lowest_V, 'V')} with ${peak}; released after 5 ms it comes back ${back.settledAt_s === null ? `to ${show(back.final_V, 'V')} by the end of this run` : `within ${show(back.settledAt_s - options.event_s - 5e-3, 's')}`}${back.highest_V > 1.02 * wanted ? `, with an overshoot to ${show(back.highest_V, 'V')}` : ''}.${climbs}${fails}`,
        bench: `A spark at the short from the output capacitors, then the output returns by itself. The drain rises to ${show(whole.drainMost_V, 'V')}.`,
      }
    }
    case 'overload': {
      const fold = foldsAt(run, wanted)
      return {
        happens: `${fold === null ? 'The output holds through the whole ramp.' : `The output gives way at ${show(fold.current_A, 'A')}, ${percentOf(fold.current_A, d.need.output_A)} of what was asked.`} ${paused ? `${hiccup}.` : fold ? 'The chip goes on at its current limit.' : ''}${fails}`,
        bench: `Turn a bench load up slowly: the voltage stands still, then ${fold === null ? 'still stands at two and a half times the load' : 'falls away'}${paused ? `, then ${ticking}` : ''}.`,
      }
    }
    case 'wire-broken':
    case 'optocoupler-dead':
      return {
        happens: `Nothing holds the chip back, and the output climbs from ${show(wanted, 'V')} to ${show(whole.highest_V, 'V')} in ${after(whole.highestAt_s)}.${paused ? ` ${hiccup}, each time as high.` : ''}${fails}`,
        bench: `The output far over its voltage within milliseconds: whatever hangs on it is at risk. Work on this fault with a dummy load and a lamp in series, never with the real load.`,
      }
    case 'reference-shorted':
      return {
        happens: `The LED is driven as hard as its resistor lets it, the chip stops, and the output falls to ${show(whole.lowest_V, 'V')} within ${after(whole.lowestAt_s)}. ${run.pulsesAfter > 0 ? `As LED and bias voltage die, the chip pulses again (${run.pulsesAfter} pulses) and the output stays near what the LED and its resistor need.` : 'No more pulses come.'}${fails}`,
        bench: `A low output, near ${show(whole.final_V, 'V')} in the end, whatever the trimmer is set to; the cathode of the reference reads near zero.`,
      }
    case 'secondary-reversed':
      return {
        happens: `It is a forward converter without a choke: the rectifier conducts while the switch is on, and the current limit ends ${share(run.trips, run.pulses)} of the pulses, at up to ${show(whole.primaryMost_A, 'A')}, which only leakage and the switch itself hold back. The output reaches ${show(whole.final_V, 'V')}.${fails}`,
        bench: `The primary current rises at once with each pulse instead of in a ramp; the drain shows ${show(whole.drainMost_V, 'V')} with no plateau, the output does not come up, the clamp gets hot. Swap the ends of the secondary.`,
      }
    case 'rectifier-shorted':
      return {
        happens: `The secondary hangs on the output capacitors in both directions: they are shorted through the transformer in each pulse, the output falls to ${show(whole.lowest_V, 'V')}, and the current limit ends ${share(run.tripsAfter, run.pulsesAfter)} of the pulses.${paused ? ` ${hiccup}.` : ''}${fails}`,
        bench: `No output and ${paused ? ticking : 'a hot switch'}; an ohmmeter across the rectifier, cold and discharged, reads a short both ways.`,
      }
    case 'clamp-open':
      return {
        happens: `With nowhere to go, the leakage drives the drain to ${show(whole.drainMost_V, 'V')} in the first pulse.${fails || ` It stays below ${show(d.parts.switcher.drainVoltage_V, 'V')}, but by nothing that one should count on.`}`,
        bench: gone
          ? 'A bang, an open fuse, and a drain shorted to its source. Check the clamp on the bench before the mains is on.'
          : 'The drain rings far above its plateau after each pulse.',
      }
  }
}

const unitOf = (unit: 'V' | 'A' | '°C'): Unit => (unit === '°C' ? 'C' : unit)

const percentOf = (value: number, of: number): string => `${Math.round((100 * value) / of)} %`

const share = (part: number, whole: number): string =>
  whole > 0 && part >= 0.98 * whole ? 'all' : whole > 0 ? percentOf(part, whole) : 'none'

function started(whole: CourseFacts, wanted: number, run: Followed, fails: string): Telling {
  const over = whole.highest_V / wanted - 1
  const trips =
    run.trips > 0 ? ` The current limit ends ${share(run.trips, run.pulses)} of the pulses on the way.` : ''
  return {
    happens:
      whole.settledAt_s === null
        ? `It starts, but after ${show(run.end_s, 's')} the output stands at ${show(whole.final_V, 'V')} of ${show(wanted, 'V')}${Number.isFinite(run.pausedAt_s) ? ` and the chip has paused at ${show(run.pausedAt_s, 's')}` : ''}: ${whole.final_V > 0.5 * wanted ? 'the last volts come slowly, as the error current charges the compensation capacitor' : 'it does not come up into this load'}.${trips}${fails}`
        : `The output is up within ${show(whole.settledAt_s, 's')}${over > 0.02 ? `, with an overshoot to ${show(whole.highest_V, 'V')}` : ', without overshoot'}.${trips} The primary reaches ${show(whole.currentMost_A, 'A')}, the drain ${show(whole.drainMost_V, 'V')}.${fails}`,
    bench: `A scope on the output in single shot shows the rise; a second look at the drain shows pulses at their longest until the output is near. Behind a lamp that is too small the same start stalls.`,
  }
}

/** The part of a trace before an instant. */
function upTo(run: Followed, time_s: number): Followed['trace'] {
  const count = run.trace.time_s.findIndex((t) => t > time_s)
  if (count < 0) return run.trace
  const cut = {} as Record<keyof Followed['trace'], Float64Array>
  for (const column of Object.keys(run.trace) as (keyof Followed['trace'])[])
    cut[column] = run.trace[column].subarray(0, count)
  return cut
}

/** Where the output falls below 95 % for good while the ramp goes on, and the current then. */
function foldsAt(
  run: Followed,
  wanted: number,
): { readonly time_s: number; readonly current_A: number } | null {
  const { time_s, output_V } = run.trace
  const at = output_V.findIndex((v) => v < 0.95 * wanted)
  if (at < 0) return null
  const ramp_s = Math.min(20e-3, Math.max(0, time_s[at]! - loadStep.up_s))
  const full_A = run.parameters.output_A
  return { time_s: time_s[at]!, current_A: full_A + (1.5 * full_A * ramp_s) / 20e-3 }
}
