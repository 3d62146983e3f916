import { clampResistor_ohm, leakagePower_W } from '../../converter/clamp.ts'
import { handedShare, type RiseResponse, riseResponse } from '../../converter/rise.ts'
import type { Build } from '../build.ts'
import type { ClampDesign, PartsUsed } from '../design.ts'
import { fail, type Result, succeed } from '../result.ts'
import type { Estimate } from './estimate.ts'
import { preferredAbove, preferredNearest } from './preferred.ts'
import { risePath } from './rise-path.ts'
import { leadsAtPrimary_H, trackAtPrimary_H } from './secondary-path.ts'
import type { Turns } from './turns.ts'

/** Drain voltage that the clamp is chosen for, as a part of the rating; common practice, no source. */
const drainUse = 0.86
/** Clamp voltage over reflected voltage that is aimed at where the drain allows, and the least that is sensible. */
const usualRatio = 1.6
const leastRatio = 1.3
/** Ripple on the clamp capacitor. */
const rippleShare = 0.08

/**
 * Chooses clamp voltage, resistor and capacitor where left open; `leakage_H` is that of the coil, `coil_F` is what
 * the coil adds at the drain, `known` the rise at turn-off where it has been worked out.
 */
export function chooseClamp(
  build: Pick<Build, 'clamp' | 'snubber' | 'outputCount'>,
  parts: PartsUsed,
  turns: Turns,
  leakage_H: number,
  coil_F: number,
  e: Estimate,
  known: RiseResponse | null = null,
): Result<ClampDesign> {
  const { clamp } = build
  if (clamp.style === 'avalanche' && parts.clampAvalanche === null)
    return fail(
      'build.places.clampAvalanche',
      'an avalanche clamp needs an avalanche device, and its place is empty',
    )
  const reflected_V = turns.reflectedVoltage_V
  const room_V = drainUse * parts.switcher.drainVoltage_V - e.bulkMaximum_V - 12
  const voltage_V =
    clamp.style === 'avalanche' && parts.clampAvalanche
      ? parts.clampAvalanche.breakdown_V.typical
      : (clamp.voltage_V ?? Math.max(leastRatio * reflected_V, Math.min(usualRatio * reflected_V, room_V)))
  const drain_F = parts.switcher.outputCapacitance_F + coil_F
  const whole_H =
    leakage_H + trackAtPrimary_H(turns.turnsRatio) + leadsAtPrimary_H(turns.turnsRatio, build.outputCount)
  const rise =
    known ?? riseResponse(risePath(whole_H, drain_F, parts.rectifier, build.snubber, turns.turnsRatio))
  const handed_A = handedShare(rise, e.valley_V + reflected_V, turns.peak_A) * turns.peak_A
  const ideal_ohm = clampResistor_ohm(
    leakagePower_W(whole_H, handed_A, e.frequency_Hz),
    Math.max(voltage_V, 1.05 * reflected_V),
    reflected_V,
    drain_F * e.frequency_Hz,
  )
  const resistor_ohm = clamp.resistor_ohm ?? preferredNearest(Math.min(9e6, ideal_ohm), 'E12')
  const capacitor_F =
    clamp.capacitor_F ??
    Math.max(1e-9, preferredAbove(1 / (rippleShare * resistor_ohm * e.frequency_Hz), 'E6'))
  return succeed({ style: clamp.style, voltage_V, resistor_ohm, capacitor_F })
}
