import type { Places } from '../supply/build.ts'
import type { Need } from '../supply/need.ts'

/** Sentence that every supply of the demo carries. */
export const invented =
  'Invented for the demo: a village tool library builds its charging wall. Change anything; the shelf keeps your copy.'

/** What the three supplies of the wall share: one mains, one room, one box. */
export const wallNeed = {
  source: { kind: 'mains', minimum_Vrms: 195, nominal_Vrms: 230, maximum_Vrms: 253, frequency_Hz: 50 },
  ambient_C: 30,
  cooling: 'case-vented',
  insulation: 'reinforced',
  pollutionDegree: 2,
  altitude_m: 400,
} as const satisfies Partial<Need>

/** Parts that the library bought in one go, the same on all three boards. */
export const wallPlaces = {
  material: 'ferrite-pw3b',
  biasWire: 'wire-0.2mm-grade-1',
  spacerFilm: null,
  clampDiode: 'diode-ultrafast-1000v-1a',
  clampAvalanche: null,
  biasDiode: 'diode-fast-200v-0.2a',
  ntc: 'ntc-10r-3.7a',
  varistor: 'varistor-275v-14mm',
  yCapacitor: 'capacitor-y1-2.2nf-400v',
  biasCapacitor: 'capacitor-lowesr-56uf-35v',
  optocoupler: 'optocoupler-100-200',
  reference: 'reference-2.5v-0.5pc',
  indicator: 'led-green',
  switcherPad: null,
  rectifierPad: null,
} as const satisfies Partial<Places>
