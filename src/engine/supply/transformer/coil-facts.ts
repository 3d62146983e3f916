import {
  type InsulationBetween,
  insulationBetween,
  type LayerCapacitance,
  layerCapacitances,
  selfCapacitance_F,
  usualCapacitance,
  windingCapacitance_F,
} from '../../magnetics/stack/index.ts'
import type { Design } from '../design.ts'

/** Capacitance and insulation of a coil, from its layout alone. */
export interface CoilFacts {
  /** Between each layer and the next one outward. */
  readonly layers: readonly LayerCapacitance[]
  /** Of each winding at its own terminals, wound to and fro, and with every layer begun at the same side. */
  readonly self: readonly {
    readonly winding: string
    readonly toAndFro_F: number
    readonly sameSide_F: number
  }[]
  /** Between windings, and what separates them. */
  readonly pairs: readonly (InsulationBetween & { readonly capacitance_F: number })[]
}

export function coilFacts(d: Design): CoilFacts {
  const { layout } = d.transformer.coil
  return {
    layers: layerCapacitances(layout),
    self: layout.windings.map((winding) => ({
      winding,
      toAndFro_F: selfCapacitance_F(layout, winding),
      sameSide_F: selfCapacitance_F(layout, winding, { ...usualCapacitance, winding: 'Z' }),
    })),
    pairs: insulationBetween(layout).map((pair) => ({
      ...pair,
      capacitance_F: windingCapacitance_F(layout, pair.from, pair.to),
    })),
  }
}
