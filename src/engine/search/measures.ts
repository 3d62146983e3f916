import type { Assessment } from '../limits/index.ts'
import type { Build, Place, TransformerBuild } from '../supply/build.ts'
import type { PartsUsed } from '../supply/design.ts'
import { at } from '../supply/evaluate.ts'
import { piecesAt } from '../supply/pieces.ts'
import type { Coil } from '../supply/resolve/coil.ts'
import type { Space } from './space/space.ts'

/** What supplies are weighed against each other by; less is better of each. */
export interface Measures {
  /** All losses at the lowest input and full load, where heat is worst, W, in steps that matter. */
  readonly loss_W: number
  /** Box round core and coil, cm³. */
  readonly size_cm3: number
  /** Parts that are not at hand, or not as many. */
  readonly buy: number
  /** Margin of the weakest limit in whole percent, up to where more says no more. */
  readonly margin_percent: number
  /** Layers, wires beside the first, kinds of wire, and margins to build: what a hand must do. */
  readonly effort: number
}

/** Losses are weighed in steps of this part of the output. */
const lossStep = 0.005
/** Beyond this a margin is counted as plenty. */
const plenty_percent = 25

const lossStep_W = (space: Space): number => lossStep * space.need.output_V * space.need.output_A

export const roundLoss = (space: Space, loss_W: number): number => {
  const step = lossStep_W(space)
  return Number((Math.round(loss_W / step) * step).toPrecision(6))
}

/** Whole percent, with the last millionth forgiven so that a limit just met counts as held. */
export const roundMargin = (margin: number): number =>
  Math.min(plenty_percent, Math.floor(margin * 100 + 1e-6))

/** Box of a core set with its coil inside the window, cm³. */
export const sizeOf = ({ core }: Pick<PartsUsed, 'core'>): number => {
  const { A_m, B_m, C_m, E_m } = core.dimensions
  // The coil stands out of an E core as far as its window is wide.
  const depth_m = core.shape === 'PQ' || core.shape === 'RM' ? C_m : Math.max(C_m, E_m)
  return Math.round(A_m * 2 * B_m * depth_m * 1e7) / 10
}

/** Steps of the hand: layers, wires in hand beyond one, wires to change, margins to build, a split primary's joint. */
export function effortOf(
  layers: number,
  primaryInHand: number,
  secondaryInHand: number,
  kinds: number,
  { insulation, splitPrimary }: Pick<TransformerBuild, 'insulation' | 'splitPrimary'>,
): number {
  return (
    layers +
    (primaryInHand - 1) +
    (secondaryInHand - 1) +
    kinds +
    (insulation === 'margins' ? layers : 0) +
    (splitPrimary ? 1 : 0)
  )
}

/** How many kinds of wire a coil takes. */
export const kindsOf = (primary: string, secondary: string, bias: string): number =>
  1 + (secondary === primary ? 0 : 1) + (bias === primary || bias === secondary ? 0 : 1)

function effortOfCoil(coil: Coil, { primaryWire, secondaryWire, biasWire }: PartsUsed, build: Build): number {
  let layers = 0
  for (const section of coil.layout.sections) layers += section.layers
  const kinds = kindsOf(primaryWire.id, secondaryWire.id, biasWire.id)
  return effortOf(layers, coil.primaryInHand, coil.secondaryInHand, kinds, build.transformer)
}

/** How many of each part a build takes. */
function countsOf(build: Build): Map<string, number> {
  const counts = new Map<string, number>()
  for (const [place, id] of Object.entries(build.places))
    if (id !== null) counts.set(id, (counts.get(id) ?? 0) + piecesAt(build, place as Place))
  return counts
}

/** Ids of parts that must be bought, because the drawer lacks them or holds too few. */
export function partsToBuy(space: Space, build: Build): string[] {
  const buy: string[] = []
  for (const [id, count] of countsOf(build)) {
    const held = space.atHand.get(id)
    if (held === undefined || (held !== null && held < count && uncut(space, id))) buy.push(id)
  }
  return buy
}

/** Wire, tape and film are counted by the reel. */
const uncut = (space: Space, id: string): boolean => {
  const kind = space.parts.get(id)?.kind
  return kind !== 'wire' && kind !== 'tape' && kind !== 'film' && kind !== 'material'
}

/** Exact measures of an assessed supply; null where it does not run at the lowest input. */
export function measuresOf(
  space: Space,
  build: Build,
  { evaluation, givesFirst }: Assessment,
): (Measures & { readonly exactLoss_W: number }) | null {
  const low = at(evaluation, 'minimum-100')
  if (!low) return null
  const { design } = evaluation
  return {
    loss_W: roundLoss(space, low.readings.loss_W),
    exactLoss_W: low.readings.loss_W,
    size_cm3: sizeOf(design.parts),
    buy: partsToBuy(space, build).length,
    margin_percent: roundMargin(givesFirst.margin),
    effort: effortOfCoil(design.transformer.coil, design.parts, build),
  }
}

/** True where `a` is at least as good as `b` in everything. */
export const asGood = (a: Measures, b: Measures): boolean =>
  a.loss_W <= b.loss_W &&
  a.size_cm3 <= b.size_cm3 &&
  a.buy <= b.buy &&
  a.margin_percent >= b.margin_percent &&
  a.effort <= b.effort

export const sameMeasures = (a: Measures, b: Measures): boolean => asGood(a, b) && asGood(b, a)
