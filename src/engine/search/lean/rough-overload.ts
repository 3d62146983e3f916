import { leakagePower_W, settledClamp_V } from '../../converter/clamp.ts'
import { biasDraw_A, handedAt, handing_H } from '../../supply/evaluate/handing.ts'
import { type Around, drainPeak_V } from './point-limits.ts'
import { atMost, type Tally } from './tally.ts'

/** How far this may be from the solved point, as a margin: the bulk sags under an overload. */
const rough = 0.06

/**
 * Whether the drain is far over its rating in overload at the highest input, by the greatest current limit alone: no power
 * is balanced, nothing heats, and the rectifier drops what it drops at no current. In a tenth of the time of the point.
 */
export function roughlyOverloaded(a: Around, crest_V: number, t: Tally): boolean {
  const { plant: p } = a
  const leakage_H = p.leakage_H.maximum
  const f = p.frequency_Hz.typical
  const reflected_V = (p.output_V + p.rectifierDrop_V) * p.turnsRatio
  const duty = reflected_V / (reflected_V + crest_V)
  const peak_A =
    p.currentLimit_A.maximum +
    (crest_V / p.inductance_H.maximum + p.slope_A_per_s) * p.limitDelay_s -
    (p.slope_A_per_s * duty) / f
  const handed_A = handedAt(p, leakage_H, crest_V + reflected_V, peak_A) * peak_A
  const clamp_V = settledClamp_V(
    leakagePower_W(handing_H(p, leakage_H), handed_A, f),
    p.clampResistor_ohm,
    reflected_V,
    p.drainCapacitance_F * f,
    biasDraw_A(p, leakage_H),
  )
  const drain_V = drainPeak_V(a, crest_V, clamp_V, reflected_V)
  const rating_V = a.parts.switcher.drainVoltage_V
  return drain_V > (1 + rough) * rating_V && atMost(t, 'switcher.drain-voltage', drain_V, rating_V)
}
