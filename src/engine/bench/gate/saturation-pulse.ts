import { saturationFlux } from '../../magnetics/material/index.ts'
import { formatQuantity } from '../../quantity/index.ts'
import type { AsBuilt } from '../../supply/bench-log.ts'
import type { Design } from '../../supply/design.ts'
import { ferriteFacts } from '../../supply/resolve/ferrite.ts'
import {
  bendFlux_T,
  type PulsedCoil,
  pulsed_C,
  saturationCurrent_A,
} from '../../supply/resolve/pulsed-ferrite.ts'
import { bendBand } from '../../supply/transformer/planned-bands.ts'
import type { Finding, Fix } from './finding.ts'

/** How well the current of a bend is read where nothing was noted: an eye on a curve. Common practice, no source. */
const usualAccuracy = 0.1

/** What the bend is held against. */
export interface AtLimit {
  /** Greatest current limit with its delay, A. */
  readonly limit_A: number
  /** Saturation flux of the data at the temperature that the core is judged at, T. */
  readonly hot_T: number
  /** Whether the core as measured saturates there, every tolerance against it. */
  readonly saturates: boolean
  /** Whether it has been said already that it must not be powered. */
  readonly told: boolean
}

const milli = (flux_T: number): string => `${Math.round(1000 * flux_T)} mT`
const amps = (current_A: number): string => formatQuantity(current_A, 'A')

const seat: Fix = {
  effort: 'minutes',
  what: 'check the tester’s current scale and pulse again, halves pressed',
}
const regap: Fix = { effort: 'change the gap', what: 'set the gap by the inductance, and pulse again' }
const newCore: Fix = {
  effort: 'new core',
  what: 'a core of the material and section that the plan counts with',
}

/**
 * What a saturation pulse on the cold primary says: B = L I / (N A) at the bend against the ferrite's data at 25 °C, so
 * that gap (by inductance) and material (by flux) are told apart; and the same bend when hot, in proportion to the data
 * at both temperatures, against the greatest current limit. Null where no pulse was taken.
 */
export function readPulse(d: Design, b: AsBuilt, at: AtLimit): Finding | null {
  const reading = b.saturationCurrent_A
  const ferrite = ferriteFacts(d.parts.material)
  if (!reading || reading.value <= 0 || !ferrite.ok) return null
  const t = d.transformer
  const coil = (inductance_H: number): PulsedCoil => ({
    turns: t.primaryTurns,
    area_m2: d.core.geometry.effective.minimumArea_m2,
    inductance_H,
  })
  const cold_T = saturationFlux(ferrite.value.curve, pulsed_C)
  const bend_A = reading.value
  const planned_A = saturationCurrent_A(cold_T, coil(t.plannedInductance_H.typical))
  const own = coil(t.primaryInductance_H.typical)
  const isMeasured = b.primaryInductance_H !== null
  const band = Math.hypot(bendBand, reading.accuracy ?? usualAccuracy)
  const cause = isMeasured
    ? causeByFlux(bendFlux_T(bend_A, own), cold_T, bend_A / planned_A, band)
    : causeByCurrent(bend_A / planned_A, band)
  const hot_A = (bend_A * at.hot_T) / cold_T
  const hot = `hot it comes down to about ${amps(hot_A)}, and the greatest current limit is ${amps(at.limit_A)}`
  const verdict = !at.saturates
    ? ''
    : `${hot_A > at.limit_A ? ', too near with every tolerance against it' : ''}${at.told ? '' : ': do not power'}`
  return {
    field: 'saturationCurrent_A',
    level: at.saturates ? 2 : cause.right ? 0 : 1,
    message: `the pulse bends at ${amps(bend_A)} where ${amps(planned_A)} is planned: ${cause.words}; ${hot}${verdict}`,
    fixes: at.saturates || !cause.right ? [seat, ...cause.fixes] : [],
  }
}

interface Cause {
  readonly right: boolean
  readonly words: string
  readonly fixes: readonly Fix[]
}

/** With the inductance read, the flux at the bend tells the material; what is left tells the gap. */
function causeByFlux(bend_T: number, cold_T: number, ofPlan: number, band: number): Cause {
  const share = bend_T / cold_T
  const flux = `${milli(bend_T)} at the bend, ${milli(cold_T)} by its data at ${pulsed_C} °C`
  if (share < 1 - band)
    return {
      right: false,
      words: `by its inductance this core bends early, ${flux}: another material, a smaller section, or turns missing`,
      fixes: [newCore],
    }
  if (share > 1 + band)
    return {
      right: false,
      words: `by its inductance it bends later than its ferrite can, ${flux}: the current scale, turns too many, or a larger section; nothing is raised for it`,
      fixes: [],
    }
  if (Math.abs(ofPlan - 1) > band)
    return {
      right: false,
      words: `material as assumed (${flux}), but the gap is ${ofPlan < 1 ? 'smaller' : 'larger'} than planned`,
      fixes: [regap],
    }
  return { right: true, words: `gap and material are as assumed (${flux})`, fixes: [] }
}

/** Without the inductance gap and material cannot be told apart. */
function causeByCurrent(ofPlan: number, band: number): Cause {
  const tell = 'the inductance tells which'
  if (ofPlan < 1 - band)
    return {
      right: false,
      words: `the gap is too small, or the material saturates early; ${tell}`,
      fixes: [regap, newCore],
    }
  if (ofPlan > 1 + band)
    return {
      right: false,
      words: `the gap is larger than planned, or turns are missing; ${tell}`,
      fixes: [regap],
    }
  return {
    right: true,
    words: 'gap and material together are as assumed; with the inductance read they are told apart',
    fixes: [],
  }
}
