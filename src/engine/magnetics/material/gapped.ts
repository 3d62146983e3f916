import { fail, type Result, succeed } from '../core/result.ts'
import { mu0 } from '../gap/index.ts'
import { fieldAtPermeability, type Knee, kneeFlux, kneePermeability } from './knee.ts'

/** A wound core: iron of one section with a gap in series. */
export interface WoundCore {
  readonly turns: number
  /** Section in which the iron saturates: the least area for the careful figure, the effective one for the mean. */
  readonly area_m2: number
  readonly length_m: number
  /** Permeance of the gap alone; Infinity without a gap. */
  readonly gapPermeance_H: number
  /** Curve at the temperature of the core, from `kneeAt`. */
  readonly knee: Knee
}

/** Ampere-turns that a field in the iron asks for: H le + B A / P. */
const ampereTurns = (core: WoundCore, field: number) =>
  field * core.length_m + (kneeFlux(core.knee, field) * core.area_m2) / core.gapPermeance_H

/**
 * Field in the iron at a winding current, A/m: H le + B(H) A / P = N I by Newton steps with bisection as guard.
 * Errors: no convergence, current not finite.
 */
export function fieldAtCurrent(core: WoundCore, current_A: number): Result<number> {
  if (!Number.isFinite(current_A))
    return fail('current_A', `the current is ${current_A} A, but it must be finite`)
  const wanted = core.turns * Math.abs(current_A)
  let low = 0
  let high = wanted / core.length_m
  const share = core.area_m2 / core.gapPermeance_H
  const mu = mu0 * (core.knee.polarisation_T > 0 ? core.knee.permeability : 1)
  let field = wanted / (core.length_m + mu * share)
  for (let i = 0; i < 100; i++) {
    const miss = ampereTurns(core, field) - wanted
    if (Math.abs(miss) <= 1e-12 * wanted) return succeed(Math.sign(current_A) * field)
    if (miss > 0) high = field
    else low = field
    const slope = core.length_m + mu0 * kneePermeability(core.knee, field) * share
    const next = field - miss / slope
    field = next > low && next < high ? next : (low + high) / 2
    if (high - low <= 1e-13 * high) return succeed(Math.sign(current_A) * field)
  }
  return fail('current_A', `no field found for a current of ${current_A} A`)
}

/** Flux density at a winding current, on the curve, T. */
export function fluxAtCurrent(core: WoundCore, current_A: number): Result<number> {
  const field = fieldAtCurrent(core, current_A)
  return field.ok ? succeed(kneeFlux(core.knee, field.value)) : field
}

/** Differential inductance at a field in the iron: N² / (1/P + le / (mu0 mu A)). */
const inductanceAtField = (core: WoundCore, field: number) => {
  const iron = core.length_m / (mu0 * kneePermeability(core.knee, field) * core.area_m2)
  return core.turns ** 2 / (1 / core.gapPermeance_H + iron)
}

/** Differential inductance at a winding current, H: slope of flux linkage against current. */
export function inductanceAtCurrent(core: WoundCore, current_A: number): Result<number> {
  const field = fieldAtCurrent(core, current_A)
  return field.ok ? succeed(inductanceAtField(core, field.value)) : field
}

/**
 * Current at which the inductance has fallen by a fraction of its value at no current, A: in closed form, from the
 * permeability at which the sum of reluctances has grown by 1/(1 - fall).
 * Errors: fall outside 0 to 1; a fall that the gap alone prevents.
 */
export function currentAtFall(core: WoundCore, fall: number): Result<number> {
  if (!(fall > 0 && fall < 1))
    return fail('fall', `the fall of inductance is ${fall}, but it must lie between 0 and 1`)
  if (!(core.knee.polarisation_T > 0))
    return fail('knee', 'the core is at or above its Curie point and has no inductance to lose')
  const whole = core.turns ** 2 / inductanceAtField(core, 0)
  const iron = whole / (1 - fall) - 1 / core.gapPermeance_H
  const permeability = core.length_m / (mu0 * core.area_m2 * iron)
  const field = fieldAtPermeability(core.knee, permeability)
  if (!Number.isFinite(field))
    return fail(
      'fall',
      `the inductance never falls by ${Math.round(fall * 100)} %: without iron the winding keeps more`,
    )
  return succeed(ampereTurns(core, field) / core.turns)
}
