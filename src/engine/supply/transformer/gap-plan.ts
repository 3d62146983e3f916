import {
  type FilmAtHand,
  type FilmStack,
  type GapPlace,
  type GapWarning,
  gapForInductance,
  gapWarnings,
  inductanceFactor,
  nearestFilmStack,
  plainPostGap,
  plainSpacer,
} from '../../magnetics/gap/index.ts'
import type { Spread } from '../../quantity/spread.ts'
import type { Design } from '../design.ts'
import { coreReluctanceOf } from './gaps.ts'

/** One way to make the gap. */
export interface GapWay {
  readonly place: GapPlace
  /** Cut in the post, or spacer under each leg; null where no gap gives the inductance. */
  readonly gap_m: number | null
  /** Paper arithmetic without fringing, to compare with what others print. */
  readonly plain_m: number
  readonly warnings: readonly GapWarning[]
  readonly problem: string | null
}

/** The spacer out of films at hand. */
export interface FilmPlan {
  readonly stack: FilmStack
  /** What the meter will read with it. */
  readonly inductance_H: number
  /** Inductance over the wanted one, less one. */
  readonly error: number
  readonly warnings: readonly GapWarning[]
}

/** The gap in the builder's own terms: what to cut or to shim, and what the meter must read. */
export interface GapPlan {
  readonly inductance_H: Spread
  readonly factor_H: number
  /** Without any gap, H per turn squared. */
  readonly ungappedFactor_H: number
  readonly outerToPostRatio: number
  readonly post: GapWay
  readonly legs: GapWay
  readonly films: FilmPlan | null
  readonly noFilms: string | null
}

/** Film that a builder may stack, with the heat that it stands. */
export interface SpacerFilm extends FilmAtHand {
  readonly temperature_C: number
}

/**
 * Plans the gap for the aimed inductance of a design in every way that a builder can make it: ground into the post,
 * spacers under all legs by the true ratio of leg to post area, and the nearest stack of films at hand. Inductance
 * governs, not thickness: the band is what the trade accepts.
 */
export function planGap(d: Design, films: readonly SpacerFilm[]): GapPlan {
  const t = d.transformer
  const wanted_H = t.aimedInductance_H
  const core_per_H = coreReluctanceOf(d)
  const ratio = d.core.geometry.outerToPostRatio
  const factor_H = wanted_H / t.primaryTurns ** 2
  const plainCut_m = plainPostGap(d.core.geometry.effective.area_m2, factor_H, 1 / core_per_H)
  const way = (place: GapPlace, plain_m: number): GapWay => {
    const gap = gapForInductance(d.core.gap[place], core_per_H, t.primaryTurns, wanted_H)
    return {
      place,
      gap_m: gap.ok ? gap.value : null,
      plain_m,
      warnings: gap.ok ? gapWarnings(place, gap.value) : [],
      problem: gap.ok ? null : (gap.problems[0]?.message ?? ''),
    }
  }
  const legs = way('all-legs', plainSpacer(plainCut_m, ratio))
  const stacked = legs.gap_m === null ? null : nearestFilmStack(films, legs.gap_m)
  const spread = (inductance: number): Spread => ({
    minimum: (inductance * t.plannedInductance_H.minimum) / t.plannedInductance_H.typical,
    typical: inductance,
    maximum: (inductance * t.plannedInductance_H.maximum) / t.plannedInductance_H.typical,
  })
  const filmPlan = (stack: FilmStack): FilmPlan => {
    const inductance_H =
      t.primaryTurns ** 2 * inductanceFactor(d.core.gap['all-legs'], core_per_H, stack.thickness_m)
    const coolest = Math.min(
      ...stack.layers.map(({ id }) => films.find((film) => film.id === id)?.temperature_C ?? 0),
    )
    return {
      stack,
      inductance_H,
      error: inductance_H / wanted_H - 1,
      warnings: gapWarnings('all-legs', stack.thickness_m, { temperature_C: coolest }),
    }
  }
  return {
    inductance_H: spread(wanted_H),
    factor_H,
    ungappedFactor_H: 1 / core_per_H,
    outerToPostRatio: ratio,
    post: way('post', plainCut_m),
    legs,
    films: stacked?.ok ? filmPlan(stacked.value) : null,
    noFilms: stacked && !stacked.ok ? (stacked.problems[0]?.message ?? null) : null,
  }
}
