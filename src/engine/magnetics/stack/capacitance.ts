import { wireInsulation_m } from '../wire/index.ts'
import { turnLength_m } from './barrel.ts'
import type { StackLayout, WoundLayer } from './types.ts'

const vacuumPermittivity_F_per_m = 8.8541878128e-12

export interface CapacitanceSettings {
  /** Relative permittivity of wire insulation (polyurethane, polyester: about 3.5) and of tape (polyester: 3.3). */
  readonly enamelPermittivity: number
  readonly tapePermittivity: number
  /** Layers wound to and fro (C), or every layer begun at the same side (Z). */
  readonly winding: 'C' | 'Z'
}

export const usualCapacitance: CapacitanceSettings = {
  enamelPermittivity: 3.5,
  tapePermittivity: 3.3,
  winding: 'C',
}

export interface LayerCapacitance {
  /** Indices into the layout's layers. */
  readonly inner: number
  readonly outer: number
  /** All of the facing surfaces at one voltage: the plate capacitance. */
  readonly static_F: number
}

/**
 * Plate capacitance per area (F/m²) of two rows of wire that face each other across tape: field lines taken straight
 * across, through enamel, the wedge of air between round surfaces, and tape,
 * C″ = (ε0/p) ∫ dy / (T + 2(R − sqrt(R² − y²))), T the insulation as thickness of air, which has the closed form
 * used here. Good to about 20 %; foil has no wedge. Source: derived here; idea as in Massarini & Kazimierczuk (1997).
 */
const perArea_F_per_m2 = (air_m: number, radius_m: number): number => {
  if (radius_m === 0) return vacuumPermittivity_F_per_m / air_m
  // ∫ cos θ dθ / (c − cos θ) over ±π/2, c = 1 + T/2R
  const c = 1 + air_m / (2 * radius_m)
  const root = Math.sqrt(c * c - 1)
  const integral = ((4 * c) / root) * Math.atan(Math.sqrt((c + 1) / (c - 1))) - Math.PI
  return (vacuumPermittivity_F_per_m * integral) / (4 * radius_m)
}

const facing_F = (layout: StackLayout, a: WoundLayer, b: WoundLayer, s: CapacitanceSettings): number => {
  const { wires } = layout.input
  const wireA = wires[a.winding]!.wire
  const wireB = wires[b.winding]!.wire
  const overlap_m = Math.max(
    0,
    Math.min(a.axialEnd_m, b.axialEnd_m) - Math.max(a.axialStart_m, b.axialStart_m),
  )
  const length_m = turnLength_m(2 * Math.PI * layout.barrelRadius_m, (a.top_m + b.bottom_m) / 2)
  const tape_m = Math.max(0, b.bottom_m - a.top_m)
  const air_m =
    tape_m / s.tapePermittivity + (wireInsulation_m(wireA) + wireInsulation_m(wireB)) / s.enamelPermittivity
  const radius = (layer: WoundLayer): number => {
    const { wire } = wires[layer.winding]!
    return wire.construction === 'foil' ? 0 : wire.overall_m / 2
  }
  const coverage = (layer: WoundLayer): number => {
    const { wire, inHand } = wires[layer.winding]!
    return wire.construction === 'foil' ? 1 : Math.min(1, (inHand * wire.overall_m) / layer.pitch_m)
  }
  return (
    perArea_F_per_m2(Math.max(air_m, 1e-6), (radius(a) + radius(b)) / 2) *
    overlap_m *
    length_m *
    Math.min(coverage(a), coverage(b))
  )
}

/** Capacitance between each layer and the next one outward, unless a shield lies between. */
export const layerCapacitances = (
  layout: StackLayout,
  settings: CapacitanceSettings = usualCapacitance,
): LayerCapacitance[] => {
  const result: LayerCapacitance[] = []
  for (let i = 1; i < layout.layers.length; i++) {
    const a = layout.layers[i - 1]!
    const b = layout.layers[i]!
    if (layout.shields.some((s) => s.bottom_m >= a.top_m - 1e-9 && s.top_m <= b.bottom_m + 1e-9)) continue
    result.push({ inner: i - 1, outer: i, static_F: facing_F(layout, a, b, settings) })
  }
  return result
}

/**
 * Capacitance of one winding seen at its own terminals (F), from the energy between its layers when voltage grows
 * evenly along the wire: two facing layers whose difference runs from u to v of the winding voltage hold
 * C (u² + uv + v²)/3. Wound to and fro (C) the difference grows from nothing to two layers; all begun at one side (Z)
 * it is one layer throughout, which is less.
 */
export const selfCapacitance_F = (
  layout: StackLayout,
  winding: string,
  settings: CapacitanceSettings = usualCapacitance,
): number => {
  const turns = layout.layers.reduce((sum, l) => sum + (l.winding === winding ? l.turns : 0), 0)
  let sum_F = 0
  for (const { inner, outer, static_F } of layerCapacitances(layout, settings)) {
    const a = layout.layers[inner]!
    const b = layout.layers[outer]!
    if (a.winding !== winding || b.winding !== winding) continue
    const first = a.turns / turns
    const second = b.turns / turns
    const [u, v] = settings.winding === 'C' ? [0, first + second] : [first, second]
    sum_F += (static_F * (u * u + u * v + v * v)) / 3
  }
  return sum_F
}

/** Capacitance between two windings with each at one voltage throughout (F): what carries common-mode current. */
export const windingCapacitance_F = (
  layout: StackLayout,
  first: string,
  second: string,
  settings: CapacitanceSettings = usualCapacitance,
): number =>
  layerCapacitances(layout, settings).reduce((sum, { inner, outer, static_F }) => {
    const a = layout.layers[inner]!.winding
    const b = layout.layers[outer]!.winding
    return sum + ((a === first && b === second) || (a === second && b === first) ? static_F : 0)
  }, 0)
