import type { DemoPlan } from './assemble.ts'
import { invented, wallNeed, wallPlaces } from './wall.ts'

/** 5 V 4 A: a row of charging sockets, wound with margins instead of triple-insulated wire. */
export const sockets: DemoPlan = {
  id: 'charging-wall-phone-sockets',
  name: 'Charging wall: phone sockets',
  note: `${invented} Wound with margins and plain enamelled wire, from what was on the shelf.`,
  need: {
    ...wallNeed,
    output_V: 5,
    trimLow_V: 4.9,
    trimHigh_V: 5.1,
    output_A: 4,
    ripple_Vpp: 0.1,
    holdUp_s: 0.01,
    feeds: 'electronics',
  },
  places: {
    ...wallPlaces,
    switcher: 'switcher-700v-9r-dip',
    core: 'core-etd34-17-11',
    former: 'former-etd34-17-11',
    primaryWire: 'wire-0.224mm-grade-1',
    secondaryWire: 'wire-0.4mm-grade-2',
    tape: 'tape-polyester-55um-25mm',
    rectifier: 'diode-schottky-60v-30a-dual',
    bridge: 'bridge-800v-3a',
    fuse: 'fuse-0.63a-slow',
    xCapacitor: 'capacitor-x1-100nf-440v',
    commonModeChoke: 'common-mode-choke-47mh-0.4a',
    bulkCapacitor: 'capacitor-bulk-33uf-400v',
    outputCapacitor: 'capacitor-lowesr-3900uf-6.3v',
    choke: 'toroid-16.5mm-alloy-60',
    chokeWire: 'wire-0.9mm-grade-1',
    secondCapacitor: 'capacitor-lowesr-330uf-6.3v',
    trimmer: 'trimmer-200',
    switcherHeatsink: 'heatsink-clip-on-finned',
    rectifierHeatsink: 'heatsink-clip-on',
  },
  counts: { bulk: 1, output: 2, second: 1 },
  transformer: { insulation: 'margins', splitPrimary: true },
  clamp: { style: 'resistor-capacitor', voltage_V: null, resistor_ohm: null, capacitor_F: null },
}
