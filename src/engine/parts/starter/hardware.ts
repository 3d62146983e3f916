import type { Heatsink, Pad, PartOf } from '../part.ts'
import { mm, slug } from './units.ts'

const source = 'typical of the trade, no source'

/** Resistor types: each stands for its make; the value is chosen from an E series when a supply is designed. */
const resistors: readonly PartOf<'resistor'>[] = (
  [
    ['metal-film-0.25w', 'Metal film resistor 0.25 W', 10e3, 0.01, 0.25, 250, false],
    ['metal-film-0.6w', 'Metal film resistor 0.6 W', 10e3, 0.01, 0.6, 350, false],
    ['metal-oxide-1w', 'Metal oxide resistor 1 W', 47e3, 0.05, 1, 350, false],
    ['metal-oxide-2w', 'Metal oxide resistor 2 W', 47e3, 0.05, 2, 500, false],
    ['metal-oxide-3w', 'Metal oxide resistor 3 W', 33e3, 0.05, 3, 500, false],
    ['metal-oxide-5w', 'Metal oxide resistor 5 W', 22e3, 0.05, 5, 750, false],
    ['wire-wound-10w', 'Wire-wound resistor 10 W, for discharge and dummy load', 1e3, 0.05, 10, 500, false],
    ['high-voltage-0.5w', 'High-voltage resistor 0.5 W, 3.5 kV', 1e6, 0.05, 0.5, 3500, false],
    ['high-voltage-1w', 'High-voltage resistor 1 W, 10 kV', 1e6, 0.05, 1, 10000, false],
    ['fusible-1w', 'Fusible resistor 1 W', 10, 0.05, 1, 350, true],
    ['fusible-2w', 'Fusible resistor 2 W', 4.7, 0.05, 2, 350, true],
    ['fusible-3w', 'Fusible wire-wound resistor 3 W', 10, 0.05, 3, 350, true],
  ] as const
).map(([tag, name, resistance_ohm, tolerance, power_W, voltage_V, fusible]) => ({
  id: `resistor-${tag}`,
  kind: 'resistor',
  name,
  source,
  resistance_ohm,
  tolerance,
  power_W,
  voltage_V,
  fusible,
}))

const trimmers: readonly PartOf<'trimmer'>[] = [100, 200, 500, 1000, 2000, 5000, 10e3, 20e3, 50e3, 100e3].map(
  (resistance_ohm) => {
    const value = resistance_ohm < 1000 ? `${resistance_ohm}` : `${resistance_ohm / 1000}k`
    return {
      id: `trimmer-${value}`,
      kind: 'trimmer',
      name: `Trimmer ${value} ohm`,
      source,
      resistance_ohm,
      tolerance: 0.1,
      power_W: 0.5,
    }
  },
)

/** Columns: name, to ambient K/W in still air, mass of aluminium g (0.9 J/gK). */
const heatsinks: readonly Heatsink[] = (
  [
    ['clip-on', 25, 3],
    ['clip-on, finned', 18, 6],
    ['25 mm extrusion', 12, 14],
    ['38 mm extrusion', 8.5, 25],
    ['50 mm extrusion', 6, 45],
    ['75 mm extrusion', 4, 85],
    ['100 mm extrusion', 2.8, 150],
    ['case wall 1.5 mm, 200 cm2', 3.5, 80],
  ] as const
).map(([name, toAmbient_K_per_W, mass_g]) => ({
  id: `heatsink-${slug(name)}`,
  kind: 'heatsink',
  name: `Heatsink, ${name}`,
  source,
  toAmbient_K_per_W,
  heatCapacity_J_per_K: Math.round(mass_g * 9) / 10,
}))

/** Columns: id, name, K/W for TO-220, strength V, thickness mm. */
const pads: readonly Pad[] = (
  [
    ['mica', 'Mica washer with paste, TO-220', 0.9, 4000, 0.05],
    ['silicone-0.18mm', 'Silicone pad 0.18 mm, TO-220', 1.6, 4000, 0.18],
    ['silicone-0.3mm', 'Silicone pad 0.3 mm, TO-220', 2.2, 6000, 0.3],
    ['polyimide-0.06mm', 'Coated polyimide pad 0.06 mm, TO-220', 1, 5000, 0.06],
    ['alumina-1mm', 'Alumina washer 1 mm with paste, TO-220', 0.6, 10000, 1],
  ] as const
).map(([tag, name, resistance_K_per_W, strength_V, thickness_mm]) => ({
  id: `pad-${tag}`,
  kind: 'pad',
  name,
  source,
  resistance_K_per_W,
  strength_V,
  thickness_m: mm(thickness_mm),
}))

export const starterHardware: readonly (PartOf<'resistor'> | PartOf<'trimmer'> | Heatsink | Pad)[] = [
  ...resistors,
  ...trimmers,
  ...heatsinks,
  ...pads,
]
