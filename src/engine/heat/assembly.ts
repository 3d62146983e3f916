import { requireBetween } from '../quantity/require.ts'
import { type CoolingKind, insideConductance, surfaceFactor } from './enclosure.ts'
import type { ThermalLink, ThermalNetwork, ThermalNode } from './network.ts'

/** One warm thing: a junction with its case and heatsink, a winding on a core, a capacitor, a thermistor. */
export interface WarmPart {
  readonly name: string
  readonly capacity_J_per_K: number
  /** Its own surface to the air round it, in still free air; null where it only gives heat to another part. */
  readonly toAir_K_per_W: number | null
  /** Solid paths to other parts by name: junction to case, case through a pad to a heatsink, winding to core. */
  readonly paths: readonly { readonly to: string; readonly resistance_K_per_W: number }[]
}

export interface WarmAssembly {
  readonly parts: readonly WarmPart[]
  readonly ambient_C: number
  readonly cooling: CoolingKind
  /** Outer surface of the case; not used on an open bench or with a fan. */
  readonly caseSurface_m2: number
  /** Case and the air in it. */
  readonly caseCapacity_J_per_K: number
}

/** Name of the air inside the case, and of the room. */
export const insideName = 'air inside'
export const roomName = 'room'

/**
 * Thermal network of a supply: each part's surface to the air round it (free-air resistance times the factor of the
 * enclosure), that air through the case to the room, solid paths between parts. On an open bench, or with a fan, the air
 * round the parts is the room's.
 */
export function warmNetwork(assembly: WarmAssembly): ThermalNetwork {
  requireBetween('ambient_C', assembly.ambient_C, -60, 150, 'C')
  const { cooling } = assembly
  const box = cooling === 'case-vented' || cooling === 'case-closed' ? cooling : null
  const air = box === null ? roomName : insideName
  const factor = surfaceFactor[cooling]
  const nodes: ThermalNode[] = assembly.parts.map((p) => ({
    name: p.name,
    capacity_J_per_K: p.capacity_J_per_K,
  }))
  const links: ThermalLink[] = []
  for (const part of assembly.parts) {
    if (part.toAir_K_per_W !== null)
      links.push({ from: part.name, to: air, conductance_W_per_K: 1 / (part.toAir_K_per_W * factor) })
    for (const path of part.paths)
      links.push({ from: part.name, to: path.to, conductance_W_per_K: 1 / path.resistance_K_per_W })
  }
  if (box !== null) {
    nodes.push({ name: insideName, capacity_J_per_K: assembly.caseCapacity_J_per_K })
    links.push({
      from: insideName,
      to: roomName,
      conductance_W_per_K: insideConductance(box, assembly.caseSurface_m2),
    })
  }
  return { nodes, fixed: [{ name: roomName, temperature_C: assembly.ambient_C }], links }
}
