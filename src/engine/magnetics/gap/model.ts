import type { CoreGeometry, Result } from '../core/index.ts'
import { fail, millimetres, succeed } from '../core/result.ts'
import { vacuumPermeability_H_per_m } from '../wire/index.ts'
import { acrossWindow, closedSide, corners, openSide, roundness } from './reach.ts'

/** Permeability of free space, H/m. */
export const mu0 = vacuumPermeability_H_per_m

/** `post`: all of the gap in the post; `all-legs`: a spacer of the given thickness under every leg. */
export type GapPlace = 'post' | 'all-legs'

/** What a gap model needs to know of a core; `CoreGeometry` gives it, or the figures may be put together by hand. */
export interface GapGeometry {
  readonly post: Pick<CoreGeometry['post'], 'section' | 'area_m2' | 'perimeter_m' | 'enclosed_m'>
  readonly window: { readonly height_m: number; readonly width_m: number }
  readonly postGapAt: 'middle' | 'plate'
  readonly legs: {
    readonly area_m2: number
    /** Edge of all legs that faces the window, and edge that faces the outside. */
    readonly inside_m: number
    readonly outside_m: number
  }
  /** Distance over which the outside field spreads: height of the core plus half its outline. */
  readonly outsideSpan_m: number
}

/**
 * A gap in a given core, made ready so that one call costs one or two logarithms. Permeances are mu0 times
 * `area/g + edge ((1 + ln(pi/2g))/pi) + reach - inner g` with g the width of one cut.
 */
export interface GapModel {
  readonly place: GapPlace
  /** Equal cuts in series along the post; one half where the post meets a flat plate (its mirror image counts). */
  readonly cuts: number
  readonly area_m2: number
  readonly edge_m: number
  readonly reach_m: number
  readonly inner: number
  /** Flux at the root of the post beyond the linked flux, as permeance, for the whole drop in the gap. */
  readonly root_m: number
  readonly legArea_m2: number
  readonly legEdge_m: number
  readonly legReach_m: number
  readonly coupling_m: number
  readonly greatest_m: number
}

/**
 * Flux that the edge itself loses inside the gap, per metre of gap: 0.577 for a circle (the exact axisymmetric mode
 * solution as g tends to 0), 0.38 for a rectangle (three-dimensional field solutions, 0.3 to 2 mm).
 */
const innerRound = 0.577
const innerRectangular = 0.38

/**
 * Rectangular post with the rounded corners that a printed least area shows: the area that the drawing's rectangle has
 * too much, up to 5 %, is that of four corners of radius r, (4 - pi) r², and shortens the edge by (8 - 2 pi) r.
 */
function roundedPost(core: CoreGeometry): CoreGeometry['post'] {
  const { post, effective } = core
  const excess_m2 = post.area_m2 - effective.minimumArea_m2
  if (core.effectiveFrom !== 'published' || !(excess_m2 > 0 && excess_m2 < 0.05 * post.area_m2)) return post
  const less_m = (8 - 2 * Math.PI) * Math.sqrt(excess_m2 / (4 - Math.PI))
  const share = 1 - less_m / post.perimeter_m
  return {
    section: post.section,
    area_m2: effective.minimumArea_m2,
    perimeter_m: post.perimeter_m * share,
    enclosed_m: post.enclosed_m * share,
  }
}

/** Geometry for the gap model of a core. */
export function gapGeometry(core: CoreGeometry): GapGeometry {
  const legThickness_m = core.outerLegArea_m2 / (2 * core.legDepth_m)
  const section = core.post.section
  const outward =
    section.kind === 'round'
      ? 1 + (2 * core.window.width_m) / section.diameter_m
      : core.legDepth_m / section.depth_m
  const overall_m =
    (section.kind === 'round' ? section.diameter_m : section.width_m) +
    2 * core.window.width_m +
    2 * legThickness_m
  return {
    post: section.kind === 'round' ? core.post : roundedPost(core),
    window: core.window,
    postGapAt: core.postGapAt,
    legs: {
      area_m2: core.outerLegArea_m2,
      inside_m: core.post.enclosed_m * outward,
      outside_m: 2 * (core.legDepth_m + 2 * legThickness_m),
    },
    outsideSpan_m: core.height_m + (overall_m + core.legDepth_m) / 2,
  }
}

/**
 * Makes a gap ready for repeated use. `cuts` spreads the gap over that many equal cuts, evenly along the post.
 * Errors: cuts not a whole number from 1 to 20; more than one cut with a spacer.
 */
export function gapModel(geometry: GapGeometry, place: GapPlace, cuts = 1): Result<GapModel> {
  if (!(Number.isInteger(cuts) && cuts >= 1 && cuts <= 20))
    return fail('cuts', `the number of cuts is ${cuts}, but it must be a whole number from 1 to 20`)
  if (place === 'all-legs' && cuts !== 1)
    return fail('cuts', `a spacer under all legs is one cut, but ${cuts} are asked for`)
  const { post, window, legs } = geometry
  const effectiveCuts = geometry.postGapAt === 'plate' ? (cuts === 1 ? 0.5 : cuts) : cuts
  const height_m = window.height_m / effectiveCuts
  const width_m = window.width_m
  const closed = closedSide(height_m, width_m)
  const open = openSide(height_m, width_m)
  const open_m = post.perimeter_m - post.enclosed_m
  let reach_m = post.enclosed_m * closed.reach + open_m * open.reach
  let root_m = post.enclosed_m * closed.root + open_m * open.root
  let legReach_m = legs.inside_m * closed.reach
  const section = post.section
  if (section.kind === 'round') {
    const radius_m = section.diameter_m / 2
    const inside = roundness(height_m, width_m, radius_m, true)
    const outside = roundness(height_m, width_m, radius_m, false)
    reach_m += post.enclosed_m * inside.reach + open_m * outside.reach
    root_m += post.enclosed_m * inside.root + open_m * outside.root
    legReach_m -= (legs.inside_m * height_m) / (24 * (radius_m + width_m))
  } else {
    const turned = corners(height_m, width_m)
    reach_m += turned.reach
    root_m += turned.root
  }
  const span_m = geometry.postGapAt === 'plate' ? 2 * geometry.outsideSpan_m : geometry.outsideSpan_m
  legReach_m += (legs.outside_m / Math.PI) * Math.log(span_m)
  return succeed({
    place,
    cuts: effectiveCuts,
    area_m2: post.area_m2,
    edge_m: post.perimeter_m,
    reach_m,
    inner: section.kind === 'round' ? innerRound : innerRectangular,
    root_m,
    legArea_m2: legs.area_m2,
    legEdge_m: legs.inside_m + legs.outside_m,
    legReach_m,
    coupling_m: Math.sqrt(post.enclosed_m * legs.inside_m) * acrossWindow(height_m, width_m),
    greatest_m: window.height_m / 3,
  })
}

/** Gap width above which the model is refused: a third of the window height. */
export function gapRange(model: GapModel, gap_m: number): Result<number> {
  if (gap_m >= 0 && gap_m <= model.greatest_m) return succeed(gap_m)
  return fail(
    'gap_m',
    `the gap is ${millimetres(gap_m)}, but it must lie between 0 and ${millimetres(model.greatest_m)}, a third of the window height`,
  )
}
