import type { Drawer, PartOf, Reference } from '../../parts/part.ts'
import { seriesBetween } from '../../quantity/index.ts'
import type { Places } from '../../supply/build.ts'
import type { Need } from '../../supply/need.ts'
import { cheapest, cheapestOrNearest, held } from '../pick.ts'

/** Everything that holds the output where it is asked. */
export interface FeedbackKit {
  readonly places: Pick<Places, 'optocoupler' | 'reference' | 'trimmer' | 'indicator'>
  readonly dividerTop_ohm: number | null
  readonly dividerBottom_ohm: number | null
}

type Trimmer = PartOf<'trimmer'>

/** Divider current that is usual, A, and how far off it a divider may be. */
const usual_A = 0.5e-3
/** Part of a trim range that the trimmer reaches beyond at each end. */
const beyond = 0.003
/** What an upper arm of e times the one that is there weighs against a set point off by a hundredth. */
const otherTop = 2
/** LED drop at least, as the limit on the reference counts it, V. */
const led_V = 1.2

/** Reference, optocoupler, trimmer and divider for an output and its trim range. */
export function feedbackKit(need: Need, drawer: Drawer): FeedbackKit {
  const reference = cheapestOrNearest(
    held(drawer, 'reference'),
    (r) =>
      need.trimLow_V >= r.minimumCathode_V + led_V + 0.8 &&
      r.maximumCathode_V >= 1.03 * need.trimHigh_V - led_V &&
      need.trimLow_V > r.voltage_V.typical * 1.05,
    // The tighter and the higher reference, where it fits; a cascode only where it must be.
    (r) => 100 * (r.voltage_V.maximum / r.voltage_V.minimum) - r.voltage_V.typical + r.minimumCathode_V,
    (r) =>
      (r.maximumCathode_V >= need.trimHigh_V ? 100 : r.maximumCathode_V - need.trimHigh_V) -
      20 * r.voltage_V.typical,
  )!
  const optocoupler = cheapest(
    held(drawer, 'optocoupler'),
    () => true,
    // A narrow, middling spread of transfer ratio.
    (o) =>
      o.transferRatio.maximum / o.transferRatio.minimum + Math.abs(Math.log(o.transferRatio.typical / 1.4)),
  )!
  const divided = dividerFor(need, reference, held(drawer, 'trimmer'))
  return {
    places: {
      optocoupler: optocoupler.id,
      reference: reference.id,
      trimmer: divided?.trimmer?.id ?? null,
      indicator: held(drawer, 'led').find((l) => l.drop_V < need.trimLow_V - 0.5)?.id ?? null,
    },
    dividerTop_ohm: divided?.top_ohm ?? null,
    dividerBottom_ohm: divided?.bottom_ohm ?? null,
  }
}

export interface Divided {
  readonly trimmer: Trimmer | null
  readonly top_ohm: number
  readonly bottom_ohm: number
  readonly badness: number
}

/**
 * Divider of E24 values, with a trimmer in its lower arm where a range is asked for: V = Vref (1 + Rt/(Rb + x)) + Iin Rt,
 * x from nothing to the trimmer. The pair whose middle lies nearest the set point among those whose ends reach the
 * range, near half a milliampere; or near an upper arm that is there already, which the gain of the loop hangs on.
 * Null where no reference or trimmer allows it.
 */
export function dividerFor(
  need: Need,
  reference: Reference,
  trimmers: readonly Trimmer[],
  builtTop_ohm: number | null = null,
): Divided | null {
  const reference_V = reference.voltage_V.typical
  const input_A = reference.inputCurrent_A
  if (need.output_V <= reference_V * 1.001) return null
  const trims = need.trimLow_V < need.trimHigh_V
  const choices: readonly (Trimmer | null)[] = trims && trimmers.length > 0 ? trimmers : [null]
  let best: Divided | null = null
  const middle_ohm =
    builtTop_ohm === null
      ? reference_V / usual_A
      : (builtTop_ohm * reference_V) / (need.output_V - reference_V)
  const arms = seriesBetween(0.2 * middle_ohm, 3 * middle_ohm, 'E24')
  for (const trimmer of choices) {
    const most = trimmer?.resistance_ohm ?? 0
    for (const bottom_ohm of arms) {
      const ideal = ((bottom_ohm + most / 2) * (need.output_V - reference_V)) / reference_V
      for (const top_ohm of seriesBetween(0.9 * ideal, 1.1 * ideal, 'E24')) {
        const at = (x: number) => reference_V * (1 + top_ohm / (bottom_ohm + x)) + input_A * top_ohm
        const off = Math.abs(at(most / 2) / need.output_V - 1)
        const short = trims
          ? Math.max(0, at(most) / (need.trimLow_V * (1 - beyond)) - 1) +
            Math.max(0, (need.trimHigh_V * (1 + beyond)) / at(0) - 1)
          : 0
        // A trimmer that reaches far beyond what is asked is hard to set, and drives the output over its ratings.
        const wide = trims ? Math.max(0, at(0) / need.trimHigh_V - 1) : 0
        const current_A = reference_V / (bottom_ohm + most / 2)
        const unusual =
          builtTop_ohm === null
            ? 0.1 * Math.abs(Math.log(current_A / usual_A))
            : otherTop * Math.abs(Math.log(top_ohm / builtTop_ohm))
        const badness = 1e4 * short + 100 * off + 30 * wide + unusual
        if (best === null || badness < best.badness) best = { trimmer, top_ohm, bottom_ohm, badness }
      }
    }
  }
  return best
}
