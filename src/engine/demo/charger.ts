import type { DemoPlan } from './assemble.ts'
import { invented, wallNeed, wallPlaces } from './wall.ts'

/** 13.8 V 5 A: keeps the lead-acid batteries of the loan trolleys afloat. */
export const charger: DemoPlan = {
  id: 'charging-wall-trolley-float',
  name: 'Charging wall: trolley float charger',
  note: `${invented} Feeds lead-acid batteries, so ripple matters little and the trim range matters much: the float voltage moves with the season.`,
  need: {
    ...wallNeed,
    output_V: 13.8,
    trimLow_V: 13.5,
    trimHigh_V: 14.1,
    output_A: 5,
    ripple_Vpp: 0.3,
    holdUp_s: 0,
    feeds: 'charging',
  },
  places: {
    ...wallPlaces,
    switcher: 'switcher-700v-4r-peak',
    core: 'core-etd39-20-13',
    former: 'former-etd39-20-13',
    primaryWire: 'wire-0.355mm-grade-1',
    secondaryWire: 'wire-0.5mm-triple',
    tape: 'tape-polyester-55um-25mm',
    rectifier: 'diode-schottky-100v-40a-dual',
    bridge: 'bridge-600v-4a',
    fuse: 'fuse-1.25a-slow',
    xCapacitor: 'capacitor-x1-220nf-440v',
    commonModeChoke: 'common-mode-choke-22mh-1a',
    bulkCapacitor: 'capacitor-bulk-100uf-400v',
    outputCapacitor: 'capacitor-lowesr-680uf-35v',
    choke: 'toroid-16.5mm-alloy-60',
    chokeWire: 'wire-1mm-grade-1',
    secondCapacitor: 'capacitor-lowesr-220uf-25v',
    trimmer: 'trimmer-500',
    switcherHeatsink: 'heatsink-38-mm-extrusion',
    rectifierHeatsink: 'heatsink-25-mm-extrusion',
  },
  counts: { bulk: 1, output: 3, second: 1 },
  transformer: { secondaryTurns: 5 },
  clamp: { style: 'resistor-capacitor', voltage_V: null, resistor_ohm: null, capacitor_F: null },
}
