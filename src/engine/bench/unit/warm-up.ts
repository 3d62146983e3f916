import type { ThermalLink, ThermalNode } from '../../heat/network.ts'
import { thermalResponse } from '../../heat/response.ts'
import type { Design } from '../../supply/design.ts'
import { clampBody_C, rectifierCase_C, switcherCase_C } from '../../supply/heat-stops.ts'
import type { AtLoad } from './at-load.ts'

/** Specific heat of ferrite, J/(kg K), and density and specific heat of copper. Handbook values, from memory. */
const ferriteHeat_J_per_kg_K = 750
const copperHeat_J_per_m3_K = 8930 * 385
/** A package the size of a TO-220, and a resistor of 2 to 3 W. Typical, no source. */
const packageHeat_J_per_K = 1.2
const resistorHeat_J_per_K = 2

/** Spots that a thermometer is pointed at. */
export const thermometerSpots = ['switcher', 'rectifier', 'transformer', 'clamp'] as const
export type ThermometerSpot = (typeof thermometerSpots)[number]

export interface WarmUp {
  /** Temperature that a thermometer shows after a time, °C. */
  readonly at: (spot: ThermometerSpot, time_s: number) => number
  readonly steady_C: Readonly<Record<ThermometerSpot, number>>
  /** Until all stay within 2 K of where they end, s. */
  readonly settle_s: number
}

/**
 * Warm-up at one load from a cold start: one heat capacity a spot, joined to the air by the same resistances that the
 * steady temperatures use, so that both agree at the end. Null where the network is impossible.
 */
export function warmUp(design: Design, { readings: r, operation }: AtLoad): WarmUp | null {
  const { parts, core, transformer: t } = design
  const air_C = operation.inside_C
  const { volume_m3 } = core.geometry.effective
  const copper_m3 =
    t.coil.primary.copperArea_m2 * t.coil.primary.length_m +
    t.coil.secondary.copperArea_m2 * t.coil.secondary.length_m
  const switch_C = switcherCase_C(design, r)
  const rectifier_C = rectifierCase_C(design, r)
  const clamp_C =
    design.clamp.style === 'avalanche' ? r.clampAvalanche_C : clampBody_C(design, air_C, r.clamp_W)
  const spots: readonly [ThermometerSpot, number, number, number][] = [
    [
      'switcher',
      switch_C,
      r.switch_W,
      packageHeat_J_per_K + (parts.switcherHeatsink?.heatCapacity_J_per_K ?? 0),
    ],
    [
      'rectifier',
      rectifier_C,
      r.rectifier_W,
      packageHeat_J_per_K + (parts.rectifierHeatsink?.heatCapacity_J_per_K ?? 0),
    ],
    [
      'transformer',
      r.transformer_C,
      r.transformer_W,
      volume_m3 * parts.material.density_kg_per_m3 * ferriteHeat_J_per_kg_K +
        copper_m3 * copperHeat_J_per_m3_K,
    ],
    ['clamp', clamp_C, r.clamp_W, resistorHeat_J_per_K],
  ]
  const nodes: ThermalNode[] = spots.map(([name, , , capacity_J_per_K]) => ({ name, capacity_J_per_K }))
  const links: ThermalLink[] = spots.map(([name, end_C, power_W]) => ({
    from: name,
    to: 'air',
    conductance_W_per_K: Math.max(1e-3, power_W) / Math.max(0.05, end_C - air_C),
  }))
  const heat = Object.fromEntries(spots.map(([name, , power_W]) => [name, power_W]))
  const response = thermalResponse({ nodes, links, fixed: [{ name: 'air', temperature_C: air_C }] }, heat)
  if (!response.ok) return null
  return {
    at: (spot, time_s) => response.at(time_s)[response.names.indexOf(spot)]!,
    steady_C: response.steady_C as WarmUp['steady_C'],
    settle_s: Math.min(4 * 3600, response.settle(2)),
  }
}
