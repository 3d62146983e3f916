import type { Place } from './build.ts'

/** Things of a supply that are not a part in a place: windings, values computed from a series, the whole. */
export const extraSpots = [
  'transformer',
  'primary',
  'secondary',
  'bias',
  'clampResistor',
  'clampCapacitor',
  'snubberResistor',
  'snubberCapacitor',
  'bleed',
  'dividerTop',
  'dividerBottom',
  'ledResistor',
  'biasResistor',
  'compensationResistor',
  'compensationCapacitor',
  'highFrequencyCapacitor',
  'softFinishCapacitor',
  'indicatorResistor',
  'controlCapacitor',
  'output',
  'input',
] as const

/** Where a reading or a limit belongs: a place of the build, a winding, a computed value, or an end of the supply. */
export type Spot = Place | (typeof extraSpots)[number]

/** The spot that stands in this build: an avalanche device takes the place of the clamp's resistor and capacitor. */
export const fitted = (spot: Spot, clamp: { readonly style: string }): Spot =>
  clamp.style === 'avalanche' && (spot === 'clampResistor' || spot === 'clampCapacitor')
    ? 'clampAvalanche'
    : spot

/**
 * Reference designator of every spot, the same on schematic, parts list, limits and papers. Letters follow
 * IEC 81346-2 usage of the trade: C capacitor, R resistor, D diode, U chip, T transformer, L choke, F fuse.
 * Spots that are one thing in the circuit (a core, its former, its windings) share a designator.
 */
export const reference: Readonly<Record<Spot, string>> = {
  input: 'J1',
  output: 'J2',
  fuse: 'F1',
  ntc: 'RT1',
  varistor: 'RV1',
  xCapacitor: 'C1',
  bleed: 'R1',
  commonModeChoke: 'L1',
  bridge: 'BR1',
  bulkCapacitor: 'C2',
  clampResistor: 'R2',
  clampCapacitor: 'C3',
  clampDiode: 'D1',
  clampAvalanche: 'D2',
  transformer: 'T1',
  core: 'T1',
  material: 'T1',
  former: 'T1',
  tape: 'T1',
  spacerFilm: 'T1',
  primary: 'T1',
  secondary: 'T1',
  bias: 'T1',
  primaryWire: 'T1',
  secondaryWire: 'T1',
  biasWire: 'T1',
  switcher: 'U1',
  switcherHeatsink: 'HS1',
  switcherPad: 'HS1',
  controlCapacitor: 'C4',
  biasDiode: 'D3',
  biasCapacitor: 'C5',
  rectifier: 'D4',
  rectifierHeatsink: 'HS2',
  rectifierPad: 'HS2',
  snubberResistor: 'R3',
  snubberCapacitor: 'C6',
  outputCapacitor: 'C7',
  choke: 'L2',
  chokeWire: 'L2',
  secondCapacitor: 'C8',
  optocoupler: 'U2',
  ledResistor: 'R4',
  biasResistor: 'R5',
  reference: 'U3',
  dividerTop: 'R6',
  dividerBottom: 'R7',
  trimmer: 'RV2',
  compensationResistor: 'R8',
  compensationCapacitor: 'C9',
  highFrequencyCapacitor: 'C10',
  softFinishCapacitor: 'C11',
  indicator: 'D5',
  indicatorResistor: 'R9',
  yCapacitor: 'C12',
}
