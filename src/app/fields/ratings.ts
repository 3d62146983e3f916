import type { Part } from '../../engine/parts/part.ts'
import { show } from './show.ts'

const packageOf = (name: string) => (name === '' ? [] : [name])

/** The few ratings by which a builder tells parts of one kind apart. */
export const ratingsOf = (part: Part): string[] => {
  switch (part.kind) {
    case 'switcher':
      return [
        show(part.drainVoltage_V, 'V'),
        show(part.onResistance25_ohm, 'Ω'),
        show(part.currentLimit_A.typical, 'A'),
        show(part.frequency_Hz.typical, 'Hz'),
        part.control.style === 'voltage-mode' ? 'voltage mode' : 'peak current',
      ]
    case 'core':
      return [part.shape, part.size]
    case 'material':
      return [part.class, `µi ${show(part.initialPermeability.typical, '')}`]
    case 'former':
      return [part.fits.join(', '), `${show(part.width_m, 'm')} wide`, `${part.rowOne} + ${part.rowTwo} pins`]
    case 'wire':
      if (part.construction === 'litz') return ['litz', `${part.strands} × ${show(part.strand_m, 'm')}`]
      if (part.construction === 'foil')
        return ['foil', `${show(part.thickness_m, 'm')} × ${show(part.width_m, 'm')}`]
      return [
        show(part.bare_m, 'm'),
        part.construction === 'enamelled' ? `grade ${part.grade}` : 'triple-insulated',
        `${show(part.overall_m, 'm')} overall`,
      ]
    case 'tape':
      return [show(part.thickness_m, 'm'), `${show(part.width_m, 'm')} wide`, show(part.strength_V, 'V')]
    case 'sleeving':
      return [`bore ${show(part.bore_m, 'm')}`, `wall ${show(part.wall_m, 'm')}`]
    case 'film':
      return [show(part.thickness_m, 'm')]
    case 'toroid':
      return [
        `${show(part.outer_m, 'm')} outside`,
        `AL ${show(part.inductanceFactor_H, 'H')}`,
        `µ ${show(part.permeability, '')}`,
      ]
    case 'common-mode-choke':
      return [show(part.inductance_H, 'H'), show(part.current_A, 'A')]
    case 'diode':
      return [
        show(part.reverse_V, 'V'),
        show(part.average_A, 'A'),
        part.technology,
        ...(part.dual ? ['dual'] : []),
        ...packageOf(part.package),
      ]
    case 'avalanche':
      return [show(part.breakdown_V.typical, 'V'), show(part.power_W, 'W')]
    case 'bridge':
      return [show(part.reverse_V, 'V'), show(part.average_A, 'A'), ...packageOf(part.package)]
    case 'capacitor':
      return [
        show(part.capacitance_F, 'F'),
        show(part.voltage_V, 'V'),
        part.safetyClass ?? part.technology,
        `${show(part.ripple100kHz_A, 'A')} ripple`,
      ]
    case 'resistor':
      return [show(part.resistance_ohm, 'Ω'), show(part.power_W, 'W')]
    case 'trimmer':
      return [show(part.resistance_ohm, 'Ω')]
    case 'ntc':
      return [`${show(part.cold_ohm, 'Ω')} cold`, show(part.current_A, 'A')]
    case 'fuse':
      return [show(part.rated_A, 'A'), show(part.voltage_V, 'V'), part.speed]
    case 'varistor':
      return [`${show(part.continuous_Vrms, 'V')} rms`, show(part.energy_J, 'J')]
    case 'optocoupler':
      return [
        `CTR ${Math.round(part.transferRatio.minimum * 100)}–${Math.round(part.transferRatio.maximum * 100)} %`,
        `${show(part.isolation_Vrms, 'V')} rms`,
      ]
    case 'reference':
      return [show(part.voltage_V.typical, 'V'), `from ${show(part.minimumCathode_A, 'A')}`]
    case 'led':
      return [show(part.drop_V, 'V'), show(part.wanted_A, 'A')]
    case 'heatsink':
      return [show(part.toAmbient_K_per_W, 'K/W')]
    case 'pad':
      return [show(part.resistance_K_per_W, 'K/W'), show(part.strength_V, 'V')]
    case 'lamp':
      return [show(part.power_W, 'W'), show(part.voltage_V, 'V')]
  }
}
