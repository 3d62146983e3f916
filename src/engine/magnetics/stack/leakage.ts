import { vacuumPermeability_H_per_m } from '../wire/index.ts'
import { postDistance_m, turnLength_m } from './barrel.ts'
import { sheetHarmonics } from './layer-sheets.ts'
import type { StackLayout } from './types.ts'
import { wavesOf } from './waves.ts'

export interface LeakageEstimate {
  /** Leakage inductance seen at `excited` with `shorted` short-circuited, everything else open. */
  readonly leakage_H: number
  /** Height over which the one-dimensional field of this pair would spread to hold the same energy. */
  readonly effectiveHeight_m: number
  readonly method: 'closed-form'
}

/**
 * Leakage between two windings from the layout alone, within 10 % of a field solution and in a few microseconds.
 *
 * The field across the window splits into axial harmonics. Harmonic 0 is the textbook one-dimensional
 * magnetomotive-force diagram spread over the whole window height: 2E0 = (μ0/h) Σ l ∫F² dx. Each further harmonic
 * n, k = nπ/h, adds the energy by which windings shorter than the window, or unlike each other, exceed it:
 * 2En = (2 μ0 l/h) Σij ci cj Gij, with ci the ampere-turns of layer i times the mean of cos k z over it, and
 * Gij the field function of a slot between two walls of high permeability,
 * G = cosh k(x< − a) cosh k(b − x>)/(k sinh k w), averaged over the thickness of both layers. The sum replaces the
 * Rogowski factor, which fails when windings touch the plates or differ in height. Turns that lie apart add their
 * local field. Curvature enters by turn length in E0 and by the mean turn in En; the open sides of an E core are
 * counted as closed (1 to 2 % high). Undefined when the stack lacks one of the windings.
 */
export const leakageClosedForm = (
  layout: StackLayout,
  excited: string,
  shorted: string,
): LeakageEstimate | undefined => {
  const { layers, input } = layout
  let excitedTurns = 0
  let shortedTurns = 0
  for (const section of layout.sections) {
    if (section.winding === excited) excitedTurns += section.turns
    if (section.winding === shorted) shortedTurns += section.turns
  }
  if (excitedTurns === 0 || shortedTurns === 0 || excited === shorted) return undefined

  const height_m = input.core.height_m
  const offset_m = postDistance_m(input.core, input.former)
  const perimeter_m = 2 * Math.PI * layout.barrelRadius_m
  const { sheets, amplitude, wide, own: self, inner, across } = wavesOf(layout)
  const { count, x_m, thickness_m, lumped } = sheets
  const share = new Float64Array(count)
  let flat = 0
  let local = 0
  let mmf = 0
  let reached_m = 0
  let turnSum_m = 0
  for (let i = 0; i < count; i++) {
    const layer = layers[i]!
    const amount =
      layer.winding === excited
        ? layer.turns / excitedTurns
        : layer.winding === shorted
          ? -layer.turns / shortedTurns
          : 0
    if (amount === 0) continue
    share[i] = amount
    const low_m = x_m[i]! - offset_m - thickness_m[i]! / 2
    flat += (low_m - reached_m) * mmf * mmf * turnLength_m(perimeter_m, (low_m + reached_m) / 2)
    const next = mmf + amount
    flat += (thickness_m[i]! / 3) * (mmf * mmf + mmf * next + next * next) * layer.meanTurn_m
    mmf = next
    reached_m = low_m + thickness_m[i]!
    turnSum_m += Math.abs(amount) * layer.meanTurn_m
    local += (amount * amount * layer.meanTurn_m * lumped[i]!) / layer.turns
  }

  let ends = 0
  for (let m = 1; m <= sheetHarmonics; m++) {
    const k = (2 * m * Math.PI) / height_m
    const from = (m - 1) * count
    let own = 0
    let pairs = 0
    let running = 0 // Σ over earlier layers of amplitude · exp(−k (x − x'))
    let fromInner = 0 // Σ amplitude · exp(−k (x − a))
    let fromOuter = 0 // Σ amplitude · exp(−k (b − x))
    let previous = 1
    for (let i = 0; i < count; i++) {
      if (share[i] === 0) continue
      const amount = share[i]! * amplitude[from + i]!
      const broad = share[i]! * wide[from + i]!
      const fallen = inner[from + i]!
      own += amount * amount * self[from + i]!
      running *= fallen / previous
      pairs += broad * running
      running += broad
      previous = fallen
      fromInner += broad * fallen
      fromOuter += (broad * across[m - 1]!) / fallen
    }
    // Free space, then all wall images: cosh k(x + x' − a − b) and e^{-kw} cosh k(x − x') over k sinh k w.
    const far = across[m - 1]!
    const images = (fromInner * fromInner + fromOuter * fromOuter) / 2 + fromInner * fromOuter * far
    ends += own + pairs / k + images / (k * (1 - far * far))
  }
  const even = (vacuumPermeability_H_per_m * flat) / height_m
  const spread = even + (vacuumPermeability_H_per_m * ends * turnSum_m) / height_m
  return {
    leakage_H: excitedTurns * excitedTurns * (spread + (vacuumPermeability_H_per_m * local) / (2 * Math.PI)),
    effectiveHeight_m: (height_m * even) / spread,
    method: 'closed-form',
  }
}
