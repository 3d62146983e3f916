import type { Part, Switcher } from '../../../src/engine/parts/part.ts'
import { starterDrawer } from '../../../src/engine/parts/starter/index.ts'
import { emptyBench } from '../../../src/engine/supply/bench-log.ts'
import type { Build, Places } from '../../../src/engine/supply/build.ts'
import type { Need } from '../../../src/engine/supply/need.ts'
import type { Supply } from '../../../src/engine/supply/supply.ts'

/**
 * The reference supply R1: 85 to 265 V, 12 V 2 A, 100 kHz, 63 to 8 turns on a core of 52 mm² and 57.5 mm with an
 * effective permeability of 2000, current limit 1.02 A. See README.md beside this file.
 */
export const r1Switcher: Switcher = {
  id: 'r1-switcher',
  kind: 'switcher',
  name: '700 V, 6 ohm switcher',
  family: 'reference',
  drainVoltage_V: 700,
  onResistance25_ohm: 6,
  onResistance100_ohm: 9,
  outputCapacitance_F: 50e-12,
  currentLimit_A: { minimum: 1, typical: 1.02, maximum: 1.04 },
  currentLimitDelay_s: 100e-9,
  blanking_s: 150e-9,
  frequency_Hz: { minimum: 95e3, typical: 100e3, maximum: 105e3 },
  maximumDuty: { minimum: 0.64, typical: 0.67, maximum: 0.7 },
  minimumOnTime_s: 200e-9,
  control: {
    style: 'voltage-mode',
    fullDutyCurrent_A: 2e-3,
    zeroDutyCurrent_A: 6e-3,
    pinVoltage_V: 5.7,
    poleFrequency_Hz: 7000,
  },
  softStart_s: 0.01,
  restartTry_s: 0.04,
  restartPause_s: 0.76,
  supplyCurrent_A: 1.6e-3,
  biasVoltage_V: { minimum: 8.5, typical: 14, maximum: 20 },
  minimumStartVoltage_V: 36,
  thermalShutdown_C: { minimum: 125, typical: 140, maximum: 150 },
  thermalHysteresis_K: 40,
  ratedPowerWide_W: 30,
  ratedPower230_W: 50,
  pins: 3,
  tabIsDrain: false,
  package: 'TO-220',
  junctionToCase_K_per_W: 2.5,
  junctionToAmbient_K_per_W: 62,
  maximumJunction_C: 150,
}

const places: Places = {
  switcher: 'r1-switcher',
  core: 'core-e25-13-7',
  material: 'r1-ferrite',
  former: 'former-e25-13-7',
  primaryWire: 'wire-0.335mm-grade-1',
  secondaryWire: 'wire-0.5mm-triple',
  biasWire: 'wire-0.2mm-grade-1',
  tape: 'tape-polyester-55um-15mm',
  spacerFilm: null,
  rectifier: 'diode-schottky-100v-10a-dual',
  clampDiode: 'diode-ultrafast-600v-1a',
  clampAvalanche: null,
  biasDiode: 'diode-ultrafast-200v-1a',
  bridge: 'bridge-800v-4a',
  ntc: 'ntc-10r-2.3a',
  fuse: 'fuse-1.6a-slow',
  varistor: null,
  xCapacitor: null,
  commonModeChoke: null,
  yCapacitor: null,
  bulkCapacitor: 'capacitor-bulk-68uf-400v',
  outputCapacitor: 'capacitor-lowesr-1000uf-25v',
  choke: null,
  chokeWire: null,
  secondCapacitor: null,
  biasCapacitor: 'capacitor-lowesr-47uf-25v',
  optocoupler: 'optocoupler-100-200',
  reference: 'reference-2.5v-1pc',
  trimmer: null,
  indicator: 'led-green',
  switcherHeatsink: 'heatsink-38-mm-extrusion',
  switcherPad: null,
  rectifierHeatsink: 'heatsink-25-mm-extrusion',
  rectifierPad: null,
}

export const need: Need = {
  source: { kind: 'mains', minimum_Vrms: 85, nominal_Vrms: 230, maximum_Vrms: 265, frequency_Hz: 50 },
  output_V: 12,
  trimLow_V: 12,
  trimHigh_V: 12,
  output_A: 2,
  ripple_Vpp: 0.3,
  holdUp_s: 0,
  ambient_C: 25,
  cooling: 'open',
  feeds: 'electronics',
  insulation: 'reinforced',
  pollutionDegree: 2,
  altitude_m: 0,
}

const build: Build = {
  places,
  bulkCount: 1,
  outputCount: 2,
  secondCount: 1,
  transformer: {
    reflectedVoltage_V: null,
    rippleRatio: 0.6,
    primaryTurns: 63,
    secondaryTurns: 8,
    biasTurns: null,
    biasVoltage_V: 14,
    gapPlace: 'post',
    gap_m: null,
    primaryInHand: null,
    secondaryInHand: null,
    biasInHand: null,
    splitPrimary: false,
    insulation: 'triple-insulated',
    margin_m: null,
    tapeBarrier: 3,
    tapeLayer: 1,
    tapeOuter: 2,
    stack: null,
  },
  clamp: { style: 'resistor-capacitor', voltage_V: 150, resistor_ohm: null, capacitor_F: null },
  snubber: { resistor_ohm: 15, capacitor_F: 1e-9 },
  chokeTurns: null,
  chokeInHand: null,
  bleed_ohm: null,
  indicatorResistor_ohm: null,
  feedback: {
    dividerTop_ohm: null,
    dividerBottom_ohm: null,
    ledResistor_ohm: null,
    biasResistor_ohm: null,
    compensationResistor_ohm: null,
    compensationCapacitor_F: null,
    highFrequencyCapacitor_F: null,
    softFinishCapacitor_F: null,
    senseAfterChoke: false,
    ledFeedAfterChoke: false,
  },
}

const starter = new Map(starterDrawer.entries.map((entry) => [entry.part.id, entry.part]))

const grade = starter.get('ferrite-pw3a') as Extract<Part, { kind: 'material' }>
/**
 * Permeability of the whole core, not of the grade: R1 counts the core by its effective permeability. Points of low
 * field, which belong to the grade's own higher permeability, are left out.
 */
const ferrite: Part = {
  ...grade,
  saturation: grade.saturation.filter((point) => point.field_A_per_m >= 250),
  id: 'r1-ferrite',
  name: 'Power ferrite, effective permeability 2000',
  initialPermeability: { minimum: 1500, typical: 2000, maximum: 2500 },
}
const own = new Map<string, Part>([
  [r1Switcher.id, r1Switcher],
  [ferrite.id, ferrite],
])

/** Copies of the parts that a build names, from the fixture's own and the starter drawer. */
export function partsFor(used: Places): Part[] {
  const ids = new Set(Object.values(used).filter((id): id is string => id !== null))
  return [...ids].map((id) => {
    const part = own.get(id) ?? starter.get(id)
    if (!part) throw new Error(`no part ${id}`)
    return part
  })
}

type Change<T> = {
  readonly [K in keyof T]?: T[K] extends object | null ? Change<NonNullable<T[K]>> | null : T[K]
}

function merged<T>(base: T, change: Change<T>): T {
  const result = { ...base }
  for (const key of Object.keys(change) as (keyof T)[]) {
    const to = change[key] as unknown
    const from = base[key]
    const nested = typeof to === 'object' && to !== null && typeof from === 'object' && from !== null
    result[key] = (nested && !Array.isArray(to) ? merged(from, to as Change<typeof from>) : to) as T[keyof T]
  }
  return result
}

/** R1 takes its bulk capacitor as it is marked; a measured one has no spread of tolerance. */
const measuredBulk = { value: 68e-6, instrument: 'none: taken as marked', frequency_Hz: 120, accuracy: 0.01 }

/** R1 with changes to its need, build or bench. */
export function r1(
  change: { need?: Change<Need>; build?: Change<Build>; asBuilt?: Change<Supply['bench']['asBuilt']> } = {},
): Supply {
  const bench = emptyBench()
  const changed = merged(build, change.build ?? {})
  return {
    format: 'gapwright-supply',
    version: 1,
    id: 'r1',
    name: 'R1',
    revision: 'A',
    note: '',
    need: merged(need, change.need ?? {}),
    parts: partsFor(changed.places),
    build: changed,
    bench: {
      ...bench,
      asBuilt: merged({ ...bench.asBuilt, bulkCapacitance_F: measuredBulk }, change.asBuilt ?? {}),
    },
  }
}

/** R1 fed from a DC bus that holds still at the valley, as its table of currents assumes. */
export const atValley = (change: Parameters<typeof r1>[0] = {}): Supply => ({
  ...r1(change),
  need: { ...r1(change).need, source: { kind: 'dc', minimum_V: 92, nominal_V: 325, maximum_V: 375 } },
})
