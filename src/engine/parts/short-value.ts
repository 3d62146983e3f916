import { formatQuantity } from '../quantity/index.ts'
import type { Part } from './part.ts'

const millimetres = (length_m: number) => formatQuantity(length_m, 'm')

/** The value and the one rating by which a part is known on a schematic, `150 µF 400 V`. */
export function shortValue(part: Part): string {
  switch (part.kind) {
    case 'switcher':
      return `${formatQuantity(part.drainVoltage_V, 'V')} ${formatQuantity(part.onResistance25_ohm, 'ohm')}`
    case 'core':
      return part.size
    case 'material':
      return part.class
    case 'wire':
      if (part.construction === 'litz') return `${part.strands} × ${millimetres(part.strand_m)} litz`
      if (part.construction === 'foil')
        return `foil ${millimetres(part.thickness_m)} × ${millimetres(part.width_m)}`
      return `${millimetres(part.bare_m)}${part.construction === 'triple-insulated' ? ' triple-insulated' : ''}`
    case 'diode':
      return `${formatQuantity(part.reverse_V, 'V')} ${formatQuantity(part.average_A, 'A')}`
    case 'avalanche':
      return `${formatQuantity(part.breakdown_V.typical, 'V')} ${formatQuantity(part.power_W, 'W')}`
    case 'bridge':
      return `${formatQuantity(part.reverse_V, 'V')} ${formatQuantity(part.average_A, 'A')}`
    case 'capacitor':
      return `${formatQuantity(part.capacitance_F, 'F')} ${part.safetyClass ?? formatQuantity(part.voltage_V, 'V')}`
    case 'resistor':
      return `${formatQuantity(part.resistance_ohm, 'ohm')} ${formatQuantity(part.power_W, 'W')}`
    case 'trimmer':
      return formatQuantity(part.resistance_ohm, 'ohm')
    case 'ntc':
      return formatQuantity(part.cold_ohm, 'ohm')
    case 'fuse':
      return `${formatQuantity(part.rated_A, 'A')} ${part.speed}`
    case 'varistor':
      return formatQuantity(part.continuous_Vrms, 'Vrms')
    case 'common-mode-choke':
      return `2 × ${formatQuantity(part.inductance_H, 'H')}`
    case 'toroid':
      return `${millimetres(part.outer_m)} toroid`
    case 'optocoupler':
      return `CTR ${Math.round(part.transferRatio.minimum * 100)}–${Math.round(part.transferRatio.maximum * 100)} %`
    case 'reference':
      return formatQuantity(part.voltage_V.typical, 'V')
    case 'heatsink':
      return formatQuantity(part.toAmbient_K_per_W, 'K/W')
    case 'pad':
      return formatQuantity(part.resistance_K_per_W, 'K/W')
    default:
      return part.name
  }
}
