import type { Core, Former } from '../../parts/part.ts'
import { dimensionProblems } from './dimensions.ts'
import { type EffectiveParameters, effectiveParameters } from './effective.ts'
import { legArea } from './legs.ts'
import { type Post, postOf } from './post.ts'
import { millimetres, type Problem, type Result, succeed } from './result.ts'
import { outsideSurface, thermalResistanceOfSurface, thermalResistanceOfVolume } from './surface.ts'

export interface CoreGeometry {
  /** Used downstream: the published table where the core has one, else computed from dimensions. */
  readonly effective: EffectiveParameters
  readonly effectiveFrom: 'published' | 'dimensions'
  /** Always computed from dimensions, to be shown beside a published table. */
  readonly computed: EffectiveParameters
  readonly post: Post
  /** Both outer legs together. */
  readonly outerLegArea_m2: number
  /** Outer legs over post; decides how a spacer under all legs splits its drop. */
  readonly outerToPostRatio: number
  /** Window between post and outer leg: along the post, and across. */
  readonly window: { readonly height_m: number; readonly width_m: number }
  readonly legDepth_m: number
  /** Outside height of the closed core. */
  readonly height_m: number
  /** Where a gap ground into the post lies: half way up the window, or at the plate of an EI core. */
  readonly postGapAt: 'middle' | 'plate'
  readonly surface_m2: number
  /** Estimate to still air and the two estimates it is the mean of. */
  readonly thermalResistance_K_per_W: number
  readonly thermalResistanceBand_K_per_W: { readonly least: number; readonly greatest: number }
}

const fromTable = (
  p: NonNullable<Core['published']>,
  computed: EffectiveParameters,
): EffectiveParameters => ({
  C1_per_m: p.effectiveLength_m / p.effectiveArea_m2,
  C2_per_m3: p.effectiveLength_m / p.effectiveArea_m2 ** 2,
  length_m: p.effectiveLength_m,
  area_m2: p.effectiveArea_m2,
  volume_m3: p.effectiveVolume_m3,
  minimumArea_m2: p.minimumArea_m2 ?? Math.min(computed.minimumArea_m2, p.effectiveArea_m2),
})

/**
 * Everything about a core that follows from its dimensions and its table.
 * Errors: impossible dimensions, each named with its value and its limit.
 */
export function coreGeometry(core: Pick<Core, 'shape' | 'dimensions' | 'published'>): Result<CoreGeometry> {
  const d = core.dimensions
  const problems = dimensionProblems(core.shape, d)
  if (problems.length > 0) return { ok: false, problems }
  const plate = core.shape === 'EI'
  const computed = effectiveParameters(core.shape, d)
  const effective = core.published ? fromTable(core.published, computed) : computed
  const post = postOf(core.shape, d)
  const outerLegArea_m2 = legArea(core.shape, d)
  const height_m = plate ? 2 * d.B_m - d.D_m : 2 * d.B_m
  const surface_m2 = outsideSurface(d, height_m)
  const bySurface = thermalResistanceOfSurface(surface_m2)
  const byVolume = thermalResistanceOfVolume(effective.volume_m3)
  return succeed({
    effective,
    effectiveFrom: core.published ? 'published' : 'dimensions',
    computed,
    post,
    outerLegArea_m2,
    outerToPostRatio: outerLegArea_m2 / post.area_m2,
    window: { height_m: plate ? d.D_m : 2 * d.D_m, width_m: (d.E_m - d.F_m) / 2 },
    legDepth_m: d.C_m,
    height_m,
    postGapAt: plate ? 'plate' : 'middle',
    surface_m2,
    thermalResistance_K_per_W: Math.sqrt(bySurface * byVolume),
    thermalResistanceBand_K_per_W: {
      least: Math.min(bySurface, byVolume),
      greatest: Math.max(bySurface, byVolume),
    },
  })
}

/** Why a former does not go into a core's window; empty when it does. */
export function formerProblems(geometry: CoreGeometry, former: Former): readonly Problem[] {
  const problems: Problem[] = []
  const tooLarge = (path: string, what: string, has_m: number, limit: string, limit_m: number) => {
    if (has_m > limit_m * (1 + 1e-9))
      problems.push({
        path,
        message: `${what} is ${millimetres(has_m)}, but the ${limit} is ${millimetres(limit_m)}`,
      })
  }
  const { post, window } = geometry
  tooLarge(
    'former.width_m',
    'the former between and with its flanges',
    former.width_m + 2 * former.flange_m,
    'window height of the core',
    window.height_m,
  )
  const barrel = former.barrel
  const section = post.section
  if (barrel.section !== section.kind) {
    problems.push({
      path: 'former.barrel',
      message: `the barrel is ${barrel.section}, but the post is ${section.kind}`,
    })
    return problems
  }
  const bore = (outside_m: number) => outside_m - 2 * former.wall_m
  const tooSmall = (path: string, name: string, outside_m: number, post_m: number) => {
    if (bore(outside_m) < post_m * (1 - 1e-9))
      problems.push({
        path,
        message: `the bore of the former is ${millimetres(bore(outside_m))} in ${name}, but the post is ${millimetres(post_m)}`,
      })
  }
  let reach_m = former.height_m
  if (barrel.section === 'round' && section.kind === 'round') {
    tooSmall('former.barrel.diameter_m', 'diameter', barrel.diameter_m, section.diameter_m)
    reach_m += (barrel.diameter_m - section.diameter_m) / 2
  }
  if (barrel.section === 'rectangular' && section.kind === 'rectangular') {
    tooSmall('former.barrel.width_m', 'width', barrel.width_m, section.width_m)
    tooSmall('former.barrel.depth_m', 'depth', barrel.depth_m, section.depth_m)
    reach_m += (barrel.width_m - section.width_m) / 2
  }
  tooLarge(
    'former.height_m',
    'barrel wall and winding height',
    reach_m,
    'window width of the core',
    window.width_m,
  )
  return problems
}
