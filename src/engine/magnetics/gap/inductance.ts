import { type GapModel, mu0 } from './model.ts'

const edgeFlux = (cut_m: number) => (1 + Math.log(Math.PI / (2 * cut_m))) / Math.PI

/**
 * Permeance of the gap alone, H: iron taken as perfect. `gap_m` is the whole gap in the post, or the thickness of
 * the spacer; 0 gives Infinity. In `all-legs` the post's and the legs' cuts are in series and share the drop so that
 * the flux closes; their fields meet in the window.
 * Range: 0 < gap below a third of the window height. Within 1 % of axisymmetric field solutions from 0.1 to 2 mm for
 * a cut in the post, within 2 % for a spacer.
 */
export function gapPermeance(model: GapModel, gap_m: number): number {
  const cut_m = gap_m / model.cuts
  const flux = edgeFlux(cut_m)
  const post_m = model.area_m2 / cut_m + model.edge_m * flux + model.reach_m - model.inner * cut_m
  if (model.place === 'post') return (mu0 * post_m) / model.cuts
  const leg_m = model.legArea_m2 / cut_m + model.legEdge_m * flux + model.legReach_m
  const shared = model.coupling_m
  return (mu0 * (post_m * leg_m - shared * shared)) / (post_m + leg_m - 2 * shared) / model.cuts
}

/** Reluctance of the ungapped core, 1/H, at a relative permeability: C1 / (mu0 mu). */
export const coreReluctance = (C1_per_m: number, permeability: number) => C1_per_m / (mu0 * permeability)

/**
 * Inductance factor AL, H per turn squared: gap and core in series, 1/AL = 1/P + R.
 * `gap_m` = 0 gives the ungapped factor.
 */
export function inductanceFactor(model: GapModel, core_per_H: number, gap_m: number): number {
  if (gap_m === 0) return 1 / core_per_H
  const permeance_H = gapPermeance(model, gap_m)
  return permeance_H / (1 + permeance_H * core_per_H)
}

/**
 * Flux at the root of the post over the flux linked by a turn (L I / N); saturation is judged there. Above 1: the
 * field that fringes across the window passes the root too, but links only part of the turns.
 */
export function rootFluxRatio(model: GapModel, core_per_H: number, gap_m: number): number {
  if (gap_m === 0) return 1
  const permeance_H = gapPermeance(model, gap_m)
  const factor_H = permeance_H / (1 + permeance_H * core_per_H)
  const share = 1 - factor_H * core_per_H
  return 1 + ((mu0 * model.root_m) / model.cuts) * (share / factor_H) * dropInPost(model, gap_m)
}

/** Part of the gap's drop that lies in the post. */
function dropInPost(model: GapModel, gap_m: number): number {
  if (model.place === 'post') return 1
  const cut_m = gap_m / model.cuts
  const flux = edgeFlux(cut_m)
  const post_m = model.area_m2 / cut_m + model.edge_m * flux + model.reach_m
  const leg_m = model.legArea_m2 / cut_m + model.legEdge_m * flux + model.legReach_m
  return (leg_m - model.coupling_m) / (post_m + leg_m - 2 * model.coupling_m)
}
