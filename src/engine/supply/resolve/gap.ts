import { coreReluctance, gapForInductance, gapRange, inductanceFactor } from '../../magnetics/gap/index.ts'
import type { Spread } from '../../quantity/spread.ts'
import type { TransformerBuild } from '../build.ts'
import type { PartsUsed } from '../design.ts'
import { fail, type Result, succeed } from '../result.ts'
import type { CoreFacts } from './core-facts.ts'
import type { Turns } from './turns.ts'

/** The gap as built, the one that the aimed inductance asks for, and the inductance that comes of it. */
export interface Gap {
  readonly gap_m: number
  readonly aimed_m: number
  readonly inductance_H: Spread
  readonly factor_H: number
}

/** How far a ground or shimmed gap lets the inductance stray, besides the ferrite; the trade expects 10 %. */
const gapTolerance = 0.09

/**
 * Gap for the aimed inductance in the chosen place, or the builder's own, and the inductance with its spread: the
 * gap's tolerance and the ferrite's, the latter by the share of the core in the whole reluctance.
 */
export function chooseGap(t: TransformerBuild, parts: PartsUsed, core: CoreFacts, turns: Turns): Result<Gap> {
  const model = core.gap[t.gapPlace]
  const { C1_per_m } = core.geometry.effective
  const mu = parts.material.initialPermeability
  const core_per_H = coreReluctance(C1_per_m, mu.typical)
  const asked = gapForInductance(model, core_per_H, turns.primary, turns.inductance_H)
  if (!asked.ok && t.gap_m === null) {
    const ungapped_H = turns.primary ** 2 / core_per_H
    if (turns.inductance_H >= ungapped_H)
      return fail(
        'build.transformer.gap_m',
        `${turns.primary} turns on this core give at most ${format_mH(ungapped_H)} mH without a gap, and ${format_mH(turns.inductance_H)} mH is wanted: more turns, or a larger ripple ratio`,
      )
    return fail(
      'build.transformer.gap_m',
      `${turns.primary} turns need a gap larger than a third of the window of this core: fewer turns, a smaller reflected voltage or a larger core`,
    )
  }
  const aimed_m = asked.ok ? asked.value : 0
  const film = t.gapPlace === 'all-legs' ? parts.spacerFilm : null
  const stacked = film ? Math.max(1, Math.round(aimed_m / film.thickness_m)) * film.thickness_m : aimed_m
  const gap_m = t.gap_m ?? stacked
  const range = gapRange(model, gap_m)
  if (!range.ok) return { ok: false, problems: [{ ...range.problems[0]!, path: 'build.transformer.gap_m' }] }
  const factor_H = inductanceFactor(model, core_per_H, gap_m)
  const coreShare = factor_H * core_per_H
  const spread = Math.hypot(gapTolerance * (1 - coreShare), coreShare * (mu.maximum / mu.typical - 1))
  const typical = factor_H * turns.primary ** 2
  return succeed({
    gap_m,
    aimed_m,
    factor_H,
    inductance_H: { minimum: typical * (1 - spread), typical, maximum: typical * (1 + spread) },
  })
}

const format_mH = (inductance_H: number): string => (inductance_H * 1e3).toPrecision(3)
