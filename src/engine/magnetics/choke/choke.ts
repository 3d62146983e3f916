import type { Toroid, Wire } from '../../parts/part.ts'
import { fail, type Result, succeed } from '../core/result.ts'
import { fitSteinmetz, lossModel, triangleLoss } from '../material/index.ts'
import { chokeInductance, permeabilityLeft } from './bias.ts'
import { ringGeometry } from './ring.ts'
import { type RingWinding, windingResistance, windRing } from './winding.ts'

export interface ChokeDuty {
  readonly average_A: number
  readonly ripple_App: number
  readonly frequency_Hz: number
  /** Part of the period in which the current rises. */
  readonly riseFraction: number
  readonly ambient_C: number
}

export interface ChokeReadings {
  readonly inductanceCold_H: number
  readonly inductance_H: number
  readonly permeabilityLeft: number
  readonly swing_Tpp: number
  readonly winding: RingWinding
  readonly resistance_ohm: number
  readonly copper_W: number
  readonly core_W: number
  readonly surface_m2: number
  readonly rise_K: number
  readonly temperature_C: number
}

const tails_m = 0.06

/**
 * Temperature rise of a wound ring in still air, K: (loss in mW over surface in cm²) to the power 0.833.
 * Source: the rule that makers of powder rings print, from memory.
 */
export const ringRise = (loss_W: number, surface_m2: number) => ((loss_W * 1e3) / (surface_m2 * 1e4)) ** 0.833

/** Outside surface of the wound ring, winding counted as a coat on the outside, m². */
function woundSurface(ring: Toroid, winding: RingWinding): number {
  const coat_m = (ring.inner_m - winding.holeLeft_m) / 2
  const outer_m = ring.outer_m + coat_m
  const height_m = ring.height_m + 2 * coat_m
  const ends_m2 = (Math.PI / 2) * (outer_m ** 2 - winding.holeLeft_m ** 2)
  return ends_m2 + Math.PI * outer_m * height_m + Math.PI * winding.holeLeft_m * height_m
}

/**
 * A choke as wound: inductance under its DC current, loss and temperature, with the copper at the temperature that
 * its own loss makes (fixed point; the rise must settle within 40 rounds, else the copper runs away and the choke is
 * refused).
 */
export function choke(
  ring: Toroid,
  wire: Wire,
  turns: number,
  inHand: number,
  duty: ChokeDuty,
): Result<ChokeReadings> {
  const geometry = ringGeometry(ring)
  if (!geometry.ok) return geometry
  const wound = windRing(ring, wire, turns, inHand)
  if (!wound.ok) return wound
  const fit = fitSteinmetz(ring.lossPoints)
  if (!fit.ok) return fit
  const inductance_H = chokeInductance(ring, geometry.value, turns, duty.average_A)
  const swing_Tpp = (inductance_H * duty.ripple_App) / (turns * geometry.value.area_m2)
  const period_s = 1 / duty.frequency_Hz
  const rise_s = duty.riseFraction * period_s
  const model = lossModel(fit.value)
  const rms2_A2 = duty.average_A ** 2 + duty.ripple_App ** 2 / 12
  const surface_m2 = woundSurface(ring, wound.value)
  let temperature_C = duty.ambient_C
  for (let round = 0; round < 40; round++) {
    const resistance_ohm = windingResistance(wound.value, wire, inHand, tails_m, temperature_C)
    const copper_W = rms2_A2 * resistance_ohm
    const core_W =
      geometry.value.volume_m3 *
      triangleLoss(model, duty.frequency_Hz, swing_Tpp, rise_s, period_s - rise_s, temperature_C)
    const rise_K = ringRise(copper_W + core_W, surface_m2)
    const next_C = duty.ambient_C + rise_K
    if (!(next_C < 1000)) break
    if (Math.abs(next_C - temperature_C) < 0.01)
      return succeed({
        inductanceCold_H: ring.inductanceFactor_H * turns ** 2,
        inductance_H,
        permeabilityLeft: permeabilityLeft(
          ring.biasCurve,
          (turns * duty.average_A) / geometry.value.length_m,
        ),
        swing_Tpp,
        winding: wound.value,
        resistance_ohm,
        copper_W,
        core_W,
        surface_m2,
        rise_K,
        temperature_C: next_C,
      })
    temperature_C = next_C
  }
  return fail(
    'average_A',
    `the choke does not settle in temperature at ${duty.average_A} A: it runs hotter without end`,
  )
}
