import {
  copperLoss,
  type Harmonics,
  harmonicLoss_W,
  type StackField,
  stackResistances,
} from '../../magnetics/field/index.ts'
import { windingCopper } from '../../magnetics/stack/index.ts'
import { dcResistance_ohm_per_m } from '../../magnetics/wire/index.ts'
import { fail, type Result, succeed } from '../result.ts'

/** Heat in one layer of the coil. */
export interface LayerHeat {
  /** Index into the layout's layers; −1 stands for all shields. */
  readonly layer: number
  /** Of the average current. */
  readonly dc_W: number
  /** Of skin effect and of the field of all windings and of the gap. */
  readonly ac_W: number
}

/** Copper loss of a wound coil from the field at every conductor. */
export interface CopperHeat {
  readonly total_W: number
  readonly dc_W: number
  readonly layers: readonly LayerHeat[]
  /** In the leads from coil to pins. */
  readonly tails_W: number
  /** Loss of each harmonic, from the first on. */
  readonly harmonics_W: readonly number[]
  /** By winding in the order of the layout: at dc, and alone at each harmonic. */
  readonly dcResistance_ohm: readonly number[]
  readonly acResistance_ohm: readonly (readonly number[])[]
}

/**
 * Copper loss by layer and by harmonic, with winding resistances at every harmonic from the field. `share` is the part
 * of periods in which a pulse comes. Errors: the field of the conductors has no solution.
 */
export function copperHeat(
  field: StackField,
  currents: readonly Harmonics[],
  frequency_Hz: number,
  share: number,
  temperature_C: number,
): Result<CopperHeat> {
  const { layout } = field
  const { windings, layers, input } = layout
  const count = currents[0]!.real.length
  const frequencies_Hz = Array.from({ length: count }, (_, n) => (n + 1) * frequency_Hz)
  const solved = stackResistances(field, frequencies_Hz, temperature_C)
  if (!solved.ok) return fail('build.transformer.stack', solved.message)
  const dc_ohm = windings.map((winding) => windingCopper(layout, winding, temperature_C)!.dcResistance_ohm)
  const loss = copperLoss(dc_ohm, solved.matrices, currents)
  const ac = (layer: number): number =>
    share * solved.layers.reduce((sum, byLayer, n) => sum + harmonicLoss_W(byLayer[layer]!, currents, n), 0)
  const heats = layers.map((layer, index): LayerHeat => {
    const { wire, inHand } = input.wires[layer.winding]!
    const ohm = (layer.turns * layer.meanTurn_m * dcResistance_ohm_per_m(wire, temperature_C)) / inHand
    const average_A = currents[windings.indexOf(layer.winding)]!.average
    return { layer: index, dc_W: share * ohm * average_A ** 2, ac_W: ac(index) }
  })
  if (layout.shields.length > 0) heats.push({ layer: -1, dc_W: 0, ac_W: ac(layers.length) })
  const inLayers_W = heats.reduce((sum, heat) => sum + heat.dc_W + heat.ac_W, 0)
  const total_W = share * loss.total_W
  const n = windings.length
  return succeed({
    total_W,
    dc_W: share * loss.dc_W,
    layers: heats,
    tails_W: Math.max(0, total_W - inLayers_W),
    harmonics_W: [...loss.harmonics_W].map((watts) => share * watts),
    dcResistance_ohm: dc_ohm,
    acResistance_ohm: windings.map((_, w) => solved.matrices.map((m) => m.resistance_ohm[w * n + w]!)),
  })
}
