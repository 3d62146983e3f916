import type { Material } from '../../parts/part.ts'
import { fail, type Result, succeed } from '../core/result.ts'
import { mu0 } from '../gap/index.ts'

/**
 * Magnetisation curve B = mu0 H + Js x / (1 + x^n)^(1/n), x = mu0 mu H / Js: slope mu at the origin, Js in saturation,
 * knee sharper as n grows. Js is known at each temperature that has points.
 */
export interface SaturationCurve {
  readonly permeability: number
  readonly sharpness: number
  /** True where the points are too few to tell the knee and a usual one is taken. */
  readonly sharpnessAssumed: boolean
  /** Rising. */
  readonly temperatures_C: readonly number[]
  readonly polarisation_T: readonly number[]
  /** Flux of the highest-field point at each temperature. */
  readonly tableFlux_T: readonly number[]
  readonly curie_C: number
}

/** Knee when the points do not tell: fits 330 mT at 250 A/m and 100 °C with 380 mT in saturation; common practice. */
const usualSharpness = 2

/**
 * Curve through the saturation points of a material. The permeability at the origin is the typical initial one (at
 * high temperature the true one is higher: the knee is then sharper than shown, which errs to the careful side).
 * Errors: no point; a point below what air alone gives; a point above the line of the initial permeability.
 */
export function saturationCurve(
  material: Pick<Material, 'saturation' | 'initialPermeability' | 'curie_C'>,
): Result<SaturationCurve> {
  const points = material.saturation
  if (points.length === 0)
    return fail('saturation', 'there is no saturation point, but the curve needs at least one')
  const permeability = material.initialPermeability.typical
  for (const [i, p] of points.entries()) {
    if (p.flux_T <= mu0 * p.field_A_per_m)
      return fail(
        `saturation.${i}.flux_T`,
        `${p.flux_T} T at ${p.field_A_per_m} A/m is no more than air gives`,
      )
    if (p.flux_T >= mu0 * permeability * p.field_A_per_m)
      return fail(
        `saturation.${i}.flux_T`,
        `${p.flux_T} T at ${p.field_A_per_m} A/m lies above the line of the initial permeability ${permeability}`,
      )
  }
  const temperatures_C = [...new Set(points.map((p) => p.temperature_C))].sort((a, b) => a - b)
  const groups = temperatures_C.map((t) => points.filter((p) => p.temperature_C === t))
  const assumed = points.length <= temperatures_C.length
  const cost = (n: number) =>
    groups.reduce((sum, group) => sum + fitPolarisation(group, permeability, n).miss, 0)
  const sharpness = assumed ? usualSharpness : minimum(cost, 0.8, 8)
  return succeed({
    permeability,
    sharpness,
    sharpnessAssumed: assumed,
    temperatures_C,
    polarisation_T: groups.map((group) => fitPolarisation(group, permeability, sharpness).value),
    tableFlux_T: groups.map(
      (group) => group.reduce((a, b) => (b.field_A_per_m > a.field_A_per_m ? b : a)).flux_T,
    ),
    curie_C: material.curie_C,
  })
}

type Point = Material['saturation'][number]

/** Polarisation of one temperature by least squares. */
function fitPolarisation(group: readonly Point[], mu: number, n: number): { value: number; miss: number } {
  const miss = (Js: number) =>
    group.reduce((sum, p) => sum + (fluxFor(mu, n, Js, p.field_A_per_m) - p.flux_T) ** 2, 0)
  const top = Math.max(...group.map((p) => p.flux_T))
  const value = minimum(miss, top * 0.7, top * 2.5)
  return { value, miss: miss(value) }
}

/** Place of the minimum of a function with one minimum, golden section. */
function minimum(f: (x: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2
  let [a, b] = [from, to]
  let [c, d] = [b - golden * (b - a), a + golden * (b - a)]
  let [fc, fd] = [f(c), f(d)]
  for (let i = 0; i < 70; i++) {
    if (fc < fd) {
      b = d
      d = c
      fd = fc
      c = b - golden * (b - a)
      fc = f(c)
    } else {
      a = c
      c = d
      fc = fd
      d = a + golden * (b - a)
      fd = f(d)
    }
  }
  return (a + b) / 2
}

function fluxFor(mu: number, n: number, Js: number, field: number): number {
  const x = (mu0 * mu * Math.abs(field)) / Js
  return mu0 * field + Math.sign(field) * Js * x * (1 + x ** n) ** (-1 / n)
}

/** Along the temperatures of a curve: straight between them, straight to zero at the Curie point above them. */
function along(curve: SaturationCurve, values: readonly number[], temperature_C: number): number {
  const t = curve.temperatures_C
  const last = t.length - 1
  const hottest = t[last] ?? 0
  if (temperature_C >= hottest) {
    const end = values[last] ?? 0
    const left = (curve.curie_C - temperature_C) / Math.max(1e-9, curve.curie_C - hottest)
    return end * Math.max(0, Math.min(1, left))
  }
  let i = 0
  while (i < last - 1 && temperature_C > (t[i + 1] ?? 0)) i++
  const [t0, t1, v0, v1] = [t[i] ?? 0, t[i + 1] ?? t[i] ?? 0, values[i] ?? 0, values[i + 1] ?? values[i] ?? 0]
  return t1 === t0 ? v0 : v0 + ((v1 - v0) * (Math.max(temperature_C, t0 - 50) - t0)) / (t1 - t0)
}

/** Saturation polarisation at a temperature, T. */
export const polarisationAt = (curve: SaturationCurve, temperature_C: number) =>
  along(curve, curve.polarisation_T, temperature_C)

/** Flux density that the table gives as saturated, at a temperature, T: the reading to set a limit by. */
export const saturationFlux = (curve: SaturationCurve, temperature_C: number) =>
  along(curve, curve.tableFlux_T, temperature_C)

/** B at a field, T. */
export const fluxAt = (curve: SaturationCurve, field_A_per_m: number, temperature_C: number) => {
  const Js = polarisationAt(curve, temperature_C)
  return Js > 0 ? fluxFor(curve.permeability, curve.sharpness, Js, field_A_per_m) : mu0 * field_A_per_m
}

/** Reversible (differential) relative permeability at a field. */
export function reversiblePermeability(
  curve: SaturationCurve,
  field_A_per_m: number,
  temperature_C: number,
): number {
  const Js = polarisationAt(curve, temperature_C)
  if (!(Js > 0)) return 1
  const n = curve.sharpness
  const x = (mu0 * curve.permeability * Math.abs(field_A_per_m)) / Js
  return 1 + curve.permeability * (1 + x ** n) ** (-1 - 1 / n)
}
