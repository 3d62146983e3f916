import { ledCurrentFor, strongestRatio, weakestRatio } from '../../loop/index.ts'
import type { Build } from '../build.ts'
import type { FeedbackDesign, PartsUsed } from '../design.ts'
import type { Need } from '../need.ts'
import { fail, type Result, succeed } from '../result.ts'
import { preferredAbove, preferredBelow, preferredNearest } from './preferred.ts'

/** Control pin current of a chip at full and at zero power. */
export const pinCurrents = (control: PartsUsed['switcher']['control']): { full_A: number; zero_A: number } =>
  control.style === 'voltage-mode'
    ? { full_A: control.fullDutyCurrent_A, zero_A: control.zeroDutyCurrent_A }
    : { full_A: control.fullPowerCurrent_A, zero_A: control.zeroPowerCurrent_A }

/** Current that the divider is chosen for. */
const divider_A = 0.5e-3
/** LED resistor as a part of its greatest value: room for its own tolerance, and gain in the fast lane. */
const ledUse = 0.6
/** Reference current beyond its minimum. */
const cathodeRoom = 1.5

/** A network to start from, where nothing better is known. Common practice, no source. */
export const startNetwork = {
  compensationResistor_ohm: 4700,
  compensationCapacitor_F: 100e-9,
  highFrequencyCapacitor_F: 0,
} as const

/**
 * Chooses divider, LED resistor and bias resistor where left open. The trimmer, where there is one, lies in the lower
 * arm: an open wiper then lowers the output. Compensation left open is only a start here: it is suited to the loop when
 * it is first looked at.
 */
export function chooseFeedback(need: Need, build: Build, parts: PartsUsed): Result<FeedbackDesign> {
  const f = build.feedback
  const reference_V = parts.reference.voltage_V.typical
  if (need.output_V <= reference_V * 1.001)
    return fail(
      'build.places.reference',
      `a reference of ${reference_V} V cannot hold an output of ${need.output_V} V: take one of lower voltage`,
    )
  const trimmer_ohm = parts.trimmer?.resistance_ohm ?? 0
  const divider = chooseDivider(need, f, reference_V, trimmer_ohm)

  const { full_A, zero_A } = pinCurrents(parts.switcher.control)
  const { optocoupler, reference } = parts
  const led_V = optocoupler.ledDrop_V
  const ledMost_A = ledCurrentFor(weakestRatio(optocoupler), Math.max(full_A, zero_A))
  const ledLeast_A = ledCurrentFor(strongestRatio(optocoupler), Math.min(full_A, zero_A))
  const missing_A = cathodeRoom * reference.minimumCathode_A - ledLeast_A
  const biasMost_ohm =
    reference.minimumCathode_A > ledLeast_A ? led_V / (reference.minimumCathode_A - ledLeast_A) : 1e6
  const biasResistor_ohm =
    f.biasResistor_ohm ?? (missing_A > 0 ? preferredBelow(led_V / missing_A, 'E12') : 10e3)
  const headroom_V = need.output_V - led_V - reference.minimumCathode_V
  const ledMost_ohm = Math.max(0, headroom_V / (ledMost_A + led_V / biasResistor_ohm))
  const ledLeast_ohm =
    Math.max(0.1, headroom_V) / Math.min(optocoupler.ledMaximum_A, reference.maximumCathode_A)
  const ledResistor_ohm =
    f.ledResistor_ohm ??
    preferredNearest(Math.max(1, Math.min(Math.max(ledUse * ledMost_ohm, ledLeast_ohm), 1e6)), 'E12')

  return succeed({
    ...divider,
    ledResistor_ohm,
    ledResistorMinimum_ohm: ledLeast_ohm,
    ledResistorMaximum_ohm: ledMost_ohm,
    biasResistor_ohm,
    biasResistorMaximum_ohm: biasMost_ohm,
    compensationResistor_ohm: f.compensationResistor_ohm ?? startNetwork.compensationResistor_ohm,
    compensationCapacitor_F: f.compensationCapacitor_F ?? startNetwork.compensationCapacitor_F,
    highFrequencyCapacitor_F: f.highFrequencyCapacitor_F ?? startNetwork.highFrequencyCapacitor_F,
    softFinishCapacitor_F: f.softFinishCapacitor_F ?? 0,
    senseAfterChoke: f.senseAfterChoke,
    ledFeedAfterChoke: f.ledFeedAfterChoke,
  })
}

/** Output of a divider with the trimmer in the lower arm, V. */
export const dividedOutput_V = (
  reference_V: number,
  top_ohm: number,
  bottom_ohm: number,
  input_A: number,
): number => reference_V * (1 + top_ohm / bottom_ohm) + input_A * top_ohm

/**
 * Top from the bottom and the set point with the trimmer half way, and the bottom that lets the trimmer reach the
 * range asked for: (Vhigh - Vref)/(Vlow - Vref) = (Rb + Rt)/Rb.
 */
function chooseDivider(
  need: Need,
  f: Build['feedback'],
  reference_V: number,
  trimmer_ohm: number,
): { dividerTop_ohm: number; dividerBottom_ohm: number } {
  const above = need.output_V - reference_V
  const half = trimmer_ohm / 2
  if (f.dividerTop_ohm !== null && f.dividerBottom_ohm !== null)
    return { dividerTop_ohm: f.dividerTop_ohm, dividerBottom_ohm: f.dividerBottom_ohm }
  if (f.dividerTop_ohm !== null) {
    const arm = (f.dividerTop_ohm * reference_V) / above - half
    return { dividerTop_ohm: f.dividerTop_ohm, dividerBottom_ohm: preferredNearest(Math.max(1, arm), 'E24') }
  }
  if (f.dividerBottom_ohm !== null)
    return {
      dividerTop_ohm: preferredNearest(((f.dividerBottom_ohm + half) * above) / reference_V, 'E24'),
      dividerBottom_ohm: f.dividerBottom_ohm,
    }
  const spread = (need.trimHigh_V - reference_V) / Math.max(0.05, need.trimLow_V - reference_V)
  const widest = trimmer_ohm > 0 && spread > 1.001 ? trimmer_ohm / (spread - 1) : reference_V / divider_A
  let bottom = preferredBelow(Math.max(100, widest), 'E24')
  let best = { error: Number.POSITIVE_INFINITY, top: 0, bottom }
  for (let i = 0; i < 8; i++) {
    const top = preferredNearest(((bottom + half) * above) / reference_V, 'E24')
    const error = Math.abs((top * reference_V) / (bottom + half) / above - 1)
    if (error < best.error - 1e-9) best = { error, top, bottom }
    if (error < 2e-3) break
    bottom = preferredBelow(bottom * 0.999, 'E24')
  }
  return { dividerTop_ohm: best.top, dividerBottom_ohm: best.bottom }
}

/** Nearest preferred resistor for an LED at its wanted current. */
export const indicatorResistor = (output_V: number, drop_V: number, wanted_A: number): number =>
  preferredAbove(Math.max(1, (output_V - drop_V) / wanted_A), 'E12')
