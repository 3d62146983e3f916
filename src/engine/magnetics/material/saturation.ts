import type { Material } from '../../parts/part.ts'
import { fail, type Result, succeed } from '../core/result.ts'
import { mu0 } from '../gap/index.ts'
import { fitKnee, type Knee, kneeFlux } from './knee.ts'

/** Magnetisation curves of a material at the temperatures that have points. */
export interface SaturationCurve {
  /** Rising. */
  readonly temperatures_C: readonly number[]
  readonly knees: readonly Knee[]
  /** Flux of the highest-field point at each temperature. */
  readonly tableFlux_T: readonly number[]
  readonly curie_C: number
  /** True where some temperature has too few points to tell its knee and a usual one is taken. */
  readonly kneeAssumed: boolean
}

/**
 * Curves through the saturation points of a material, one for each temperature that has any: four points or more give
 * slope, saturation and sharpness of the knee; three give slope and saturation; fewer saturation alone, with the typical
 * initial permeability as slope.
 * Errors: no point; a point below what air alone gives; a point that its slope cannot reach.
 */
export function saturationCurve(
  material: Pick<Material, 'saturation' | 'initialPermeability' | 'curie_C'>,
): Result<SaturationCurve> {
  const points = material.saturation
  if (points.length === 0)
    return fail('saturation', 'there is no saturation point, but the curve needs at least one')
  for (const [i, p] of points.entries())
    if (!(p.field_A_per_m > 0 && p.flux_T > mu0 * p.field_A_per_m))
      return fail(
        `saturation.${i}.flux_T`,
        `${p.flux_T} T at ${p.field_A_per_m} A/m is no more than air gives`,
      )
  const temperatures_C = [...new Set(points.map((p) => p.temperature_C))].sort((a, b) => a - b)
  const groups = temperatures_C.map((t) => points.filter((p) => p.temperature_C === t))
  const knees: Knee[] = []
  for (const group of groups) {
    const knee = fitKnee(group, material.initialPermeability.typical)
    if (!knee.ok) return knee
    knees.push(knee.value)
  }
  return succeed({
    temperatures_C,
    knees,
    tableFlux_T: groups.map(
      (group) => group.reduce((a, b) => (b.field_A_per_m > a.field_A_per_m ? b : a)).flux_T,
    ),
    curie_C: material.curie_C,
    kneeAssumed: groups.some((group) => group.length < 4),
  })
}

/**
 * Value at a temperature: straight between the temperatures of the curve and for 50 K below them; above them, where
 * `atCurie` is given, it goes there with the square root of what is left to the Curie point, as magnetisation does in
 * the mean field (any textbook of magnetism), else it stays.
 */
function along(
  curve: SaturationCurve,
  pick: (index: number) => number,
  atCurie: number | null,
  temperature_C: number,
): number {
  const t = curve.temperatures_C
  const last = t.length - 1
  const hottest = t[last] ?? 0
  if (temperature_C >= hottest) {
    if (atCurie === null) return pick(last)
    const left = (curve.curie_C - temperature_C) / Math.max(1e-9, curve.curie_C - hottest)
    return atCurie + (pick(last) - atCurie) * Math.sqrt(Math.max(0, Math.min(1, left)))
  }
  let i = 0
  while (i < last - 1 && temperature_C > (t[i + 1] ?? 0)) i++
  const [t0, t1] = [t[i] ?? 0, t[i + 1] ?? 0]
  if (last === 0 || t1 === t0) return pick(0)
  return pick(i) + ((pick(i + 1) - pick(i)) * (Math.max(temperature_C, t0 - 50) - t0)) / (t1 - t0)
}

/** Curve at one temperature; polarisation 0 at and above the Curie point. Reuse it for many fields. */
export const kneeAt = (curve: SaturationCurve, temperature_C: number): Knee => ({
  polarisation_T: along(curve, (i) => curve.knees[i]?.polarisation_T ?? 0, 0, temperature_C),
  permeability: along(curve, (i) => curve.knees[i]?.permeability ?? 1, null, temperature_C),
  sharpness: along(curve, (i) => curve.knees[i]?.sharpness ?? 1, null, temperature_C),
})

/** Flux density that the table gives as saturated, at a temperature, T: the reading to set a limit by. */
export const saturationFlux = (curve: SaturationCurve, temperature_C: number) =>
  along(curve, (i) => curve.tableFlux_T[i] ?? 0, 0, temperature_C)

/** B at a field and temperature, T. */
export const fluxAt = (curve: SaturationCurve, field_A_per_m: number, temperature_C: number) =>
  kneeFlux(kneeAt(curve, temperature_C), field_A_per_m)

/** Ferrite is judged as hot as its makers guarantee it, or hotter where it runs hotter. */
const hotCore_C = 100
/** A core hotter than this has no working point: its temperature is what is wrong, not its flux. */
const hottestCore_C = 120

/** Temperature up to which a core is judged, °C: beyond it a calculated one says that it overheats and no more. */
export const judgedCore_C = (core_C: number): number => Math.min(hottestCore_C, core_C)

/**
 * Saturation flux that a working core is judged by, T: at its own temperature between 100 °C, at which makers state it,
 * and 120 °C, beyond which a calculated temperature says that the core overheats and no more.
 */
export const hotSaturationFlux = (curve: SaturationCurve, core_C: number): number =>
  saturationFlux(curve, judgedCore_C(Math.max(hotCore_C, core_C)))
