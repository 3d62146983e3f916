import {
  type FeedbackPath,
  type FeedbackValues,
  type FlybackStage,
  feedbackPathFrom,
  type Load,
  type OutputFilter,
} from '../../loop/index.ts'
import { copperResistanceRatio } from '../../magnetics/wire/index.ts'
import type { Design } from '../design.ts'
import type { Running } from '../evaluation.ts'
import type { Need } from '../need.ts'
import { trackAtPrimary_H } from '../resolve/secondary-path.ts'
import { bankAt, type Lean, transferRatioAt } from './lean.ts'

/** Resistance of battery and leads as a part of output voltage over current; common practice, no source. */
const batteryShare = 0.02
const chokeWarm_C = 70
/** A clamp below this over the reflected voltage would take the power meant for the output; common practice, no source. */
const leastClamp = 1.2

/**
 * What the need feeds, as the loop sees it. Electronics draw constant current (linear regulators, logic) or constant
 * power (converters): both are looked at. A battery holds its voltage while it charges, and is unplugged at other times.
 */
export function loadsOf(need: Need): readonly Load[] {
  switch (need.feeds) {
    case 'resistive':
      return [{ kind: 'resistor' }]
    case 'electronics':
      return [{ kind: 'constant-current' }, { kind: 'constant-power' }]
    case 'charging':
      return [
        { kind: 'battery', resistance_ohm: (batteryShare * need.output_V) / need.output_A },
        { kind: 'resistor' },
      ]
  }
}

/** Output filter at one corner; a choke counts only with a second capacitor behind it. */
function filterAt(d: Design, choke_H: number, lean: Lean): OutputFilter {
  const { parts, choke, supply } = d
  const first = bankAt(parts.outputCapacitor, supply.build.outputCount, lean)
  const filter = { capacitance_F: first.capacitance_F, capacitorResistance_ohm: first.resistance_ohm }
  if (!choke || !parts.secondCapacitor || choke_H <= 0) return { ...filter, second: null }
  const second = bankAt(parts.secondCapacitor, supply.build.secondCount, lean)
  return {
    ...filter,
    second: {
      inductance_H: choke_H,
      resistance_ohm: choke.resistance20_ohm * copperResistanceRatio(20, chokeWarm_C),
      capacitance_F: second.capacitance_F,
      capacitorResistance_ohm: second.resistance_ohm,
    },
  }
}

/**
 * The power stage at a condition for the small-signal model. Lowest input is taken at the bulk valley, where duty is
 * greatest and the right-half-plane zero lowest; highest input at the crest, where gain is greatest.
 */
export function stageAt(
  d: Design,
  { condition, readings: r }: Running,
  lean: Lean,
  load: Load,
): FlybackStage {
  const { parts, transformer: t, need } = d
  const bulk =
    condition.input === 'minimum'
      ? r.bulkMinimum_V
      : condition.input === 'maximum'
        ? r.bulkPeak_V
        : r.bulkMean_V
  const hot = copperResistanceRatio(20, r.transformer_C)
  return {
    bulk_V: bulk,
    turnsRatio: t.turnsRatio,
    primaryInductance_H: r.primaryInductance_H,
    frequency_Hz: parts.switcher.frequency_Hz.typical,
    output_V: need.output_V,
    output_A: r.output_A + (r.feedback_W + r.indicator_W) / need.output_V,
    rectifierDrop_V: parts.rectifier.drop_V,
    primaryResistance_ohm: r.onResistance_ohm + t.primaryResistance20_ohm * hot,
    secondaryResistance_ohm: parts.rectifier.slope_ohm + t.secondaryResistance20_ohm * hot,
    filter: filterAt(d, r.chokeInductance_H, lean),
    load,
    leakage: {
      inductance_H: t.leakage_H.typical + trackAtPrimary_H(t.turnsRatio),
      clamp_V: Math.max(r.clamp_V, leastClamp * r.reflectedVoltage_V),
    },
  }
}

/** Feedback path at a corner; `drive` is duty or peak as a fraction of the greatest. */
export function pathOf(
  d: Design,
  values: FeedbackValues,
  taps: { readonly senseAfterChoke: boolean; readonly ledFeedAfterChoke: boolean },
  lean: Lean,
  drive: number,
): FeedbackPath {
  return feedbackPathFrom(values, d.parts, {
    transferRatio: transferRatioAt(d.parts.optocoupler, lean),
    drive,
    senseTap: taps.senseAfterChoke ? 'load' : 'first',
    ledTap: taps.ledFeedAfterChoke ? 'load' : 'first',
  })
}
