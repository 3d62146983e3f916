import {
  type GapGeometry,
  type GapModel,
  type GapPlace,
  gapModel,
} from '../../../src/engine/magnetics/gap/index.ts'
import fields from './fields.json'

export interface FieldCase {
  readonly id: string
  readonly group: string
  readonly geometry: Record<string, number>
  readonly result: Record<string, number>
  readonly uncertainty_rel: number
}

const cases = fields as unknown as readonly FieldCase[]
export const number = (record: Record<string, number>, name: string): number => {
  const value = record[name]
  if (typeof value !== 'number') throw new Error(`no number ${name}`)
  return value
}
export const named = (group: string) => cases.filter((c) => c.group === group).map((c) => [c.id, c] as const)
export const byId = (id: string) => cases.find((c) => c.id === id) as FieldCase

export function model(geometry: GapGeometry, place: GapPlace = 'post', cuts = 1): GapModel {
  const made = gapModel(geometry, place, cuts)
  if (!made.ok) throw new Error(made.problems[0]?.message)
  return made.value
}

export const ring = (
  radius: number,
  width: number,
  height: number,
  outer: number,
  plate: number,
): GapGeometry => ({
  post: {
    section: { kind: 'round', diameter_m: 2 * radius },
    area_m2: Math.PI * radius ** 2,
    perimeter_m: 2 * Math.PI * radius,
    enclosed_m: 2 * Math.PI * radius,
  },
  window: { height_m: height, width_m: width },
  postGapAt: 'middle',
  legs: {
    area_m2: Math.PI * (outer ** 2 - (radius + width) ** 2),
    inside_m: 2 * Math.PI * (radius + width),
    outside_m: 2 * Math.PI * outer,
  },
  outsideSpan_m: height + 2 * plate + 2 * outer,
})

export const roundCase = (c: FieldCase) =>
  ring(
    number(c.geometry, 'centre_post_radius'),
    number(c.geometry, 'window_radial_width'),
    number(c.geometry, 'window_axial_height'),
    number(c.geometry, 'outer_ring_outer_radius'),
    number(c.geometry, 'plate_thickness_each'),
  )

/** The rectangular post of the cases in three dimensions, with both sides open. */
export function rectangularCase(c: FieldCase): GapGeometry {
  const [w, d] = [number(c.geometry, 'post_width'), number(c.geometry, 'post_depth')]
  return {
    post: {
      section: { kind: 'rectangular', width_m: w, depth_m: d },
      area_m2: w * d,
      perimeter_m: 2 * (w + d),
      enclosed_m: 2 * d,
    },
    window: { height_m: number(c.geometry, 'window_height'), width_m: number(c.geometry, 'window_width') },
    postGapAt: 'middle',
    legs: { area_m2: w * d, inside_m: 2 * d, outside_m: 2 * (d + w) },
    outsideSpan_m: 0.04,
  }
}
