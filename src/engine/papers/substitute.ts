import type { Part } from '../parts/part.ts'
import { formatQuantity, formatRange } from '../quantity/index.ts'
import type { Place } from '../supply/build.ts'
import type { Design } from '../supply/design.ts'
import { requiredCreepage } from '../supply/resolve/margin.ts'

const percent = (fraction: number) => `${Math.round(fraction * 100)} %`

/** What a substitute must have in common with a part, besides the limits that it is held to; empty where nothing. */
export function ownRequirement(part: Part, design: Design, place: Place): string {
  switch (part.kind) {
    case 'switcher':
      return `current limit ${formatRange(part.currentLimit_A.minimum, part.currentLimit_A.maximum, 'A')}, ${formatQuantity(part.frequency_Hz.typical, 'Hz')}, same control`
    case 'core':
      return 'same size'
    case 'material':
      return 'same class or one that saturates no lower'
    case 'former':
      return `${part.rowOne} + ${part.rowTwo} pins, rows ${formatQuantity(part.rowDistance_m, 'm')} apart`
    case 'wire':
      return part.construction === 'triple-insulated'
        ? `${part.insulation} insulation of its own`
        : `${formatQuantity(part.temperature_C, 'C')} enamel or better`
    case 'tape':
      return `${formatQuantity(part.strength_V, 'V')} a layer, ${formatQuantity(part.temperature_C, 'C')}`
    case 'film':
      // A warm core: about 100 °C.
      return `${formatQuantity(part.thickness_m, 'm')}, ${formatQuantity(Math.min(part.temperature_C, 100), 'C')}; the inductance decides`
    case 'diode':
      return place === 'biasDiode' || place === 'clampDiode' || part.technology !== 'schottky'
        ? `recovers within ${formatQuantity(Math.max(part.recovery_s, 1e-9), 's')}`
        : 'Schottky'
    case 'capacitor':
      return [
        part.safetyClass && place !== 'yCapacitor' ? `class ${part.safetyClass}` : '',
        place === 'bulkCapacitor' || place === 'outputCapacitor'
          ? `${formatQuantity(part.temperature_C, 'C')}`
          : '',
      ]
        .filter(Boolean)
        .join(', ')
    case 'fuse':
      return `${part.speed}, breaks ${formatQuantity(part.breaking_A, 'A')}`
    case 'varistor':
      return `${formatQuantity(part.energy_J, 'J')}`
    case 'ntc':
      return `${formatQuantity(part.cold_ohm, 'ohm')} cold`
    case 'optocoupler':
      return `transfer ratio ${percent(part.transferRatio.minimum)} to ${percent(part.transferRatio.maximum)}, creepage ≥ ${formatQuantity(requiredCreepage(design.need).creepage_m, 'm', 2)}`
    case 'reference':
      return `${formatQuantity(part.voltage_V.typical, 'V')} reference, cathode from ${formatQuantity(part.minimumCathode_A, 'A')}`
    case 'heatsink':
      return `at most ${formatQuantity(part.toAmbient_K_per_W, 'K/W')}`
    case 'pad':
      return `${formatQuantity(part.strength_V, 'V')}, at most ${formatQuantity(part.resistance_K_per_W, 'K/W')}`
    case 'toroid':
      return `${formatQuantity(part.inductanceFactor_H, 'H')} a turn², permeability ${part.permeability}`
    case 'trimmer':
      return `${formatQuantity(part.resistance_ohm, 'ohm')}, ${formatQuantity(part.power_W, 'W')}`
    case 'common-mode-choke':
      return `2 × ${formatQuantity(part.inductance_H, 'H')}`
    default:
      return ''
  }
}
