/** One thing that a bench may have. */
export interface Instrument {
  readonly id: string
  readonly name: string
  /** What counts as one. */
  readonly note: string
}

const list = [
  [
    'multimeter',
    'Multimeter',
    'Battery meter with diode test; leads and inputs rated for mains, 600 V or more.',
  ],
  [
    'lamp',
    'Series lamp',
    'Incandescent lamp in an insulated holder in one mains lead; an LED lamp does not serve.',
  ],
  ['lcr-meter', 'LCR meter', 'Measures inductance at 10 kHz or more.'],
  ['esr-meter', 'ESR meter', 'Reads the series resistance of capacitors at about 100 kHz.'],
  ['isolation-transformer', 'Isolation transformer', 'Two separate windings, rated above the input power.'],
  ['variac', 'Variac', 'Adjustable autotransformer. It does not isolate.'],
  ['bench-supply', 'Bench supply', 'Adjustable low voltage with a current limit, output floating.'],
  ['oscilloscope', 'Oscilloscope', '20 MHz or more, with 10:1 probes.'],
  [
    'differential-probe',
    'Differential probe',
    'High-voltage probe whose inputs both float, rated above the drain peak.',
  ],
  ['current-probe', 'Current probe', 'Clamp-on probe for the oscilloscope, DC to some MHz.'],
  ['signal-generator', 'Signal generator', 'Sine or square to 100 kHz, some volts.'],
  [
    'pulse-tester',
    'Saturation tester',
    'Single-pulse inductance tester, or a switch, a sense resistor and a charged capacitor at low voltage.',
  ],
  ['insulation-tester', 'Insulation tester', '500 V DC, current-limited.'],
  ['wattmeter', 'Wattmeter', 'True power at the plug, from about 0.2 W.'],
  ['electronic-load', 'Electronic load', 'Constant-current and resistance modes, above the output power.'],
  [
    'load-resistors',
    'Load resistors',
    'Power resistors or lamps that make the load steps, rated for twice the power.',
  ],
  [
    'infrared-thermometer',
    'Infrared thermometer',
    'Reads matt surfaces from a distance; shiny metal needs a matt patch.',
  ],
  ['thermal-camera', 'Thermal camera', 'Shows matt surfaces from a distance.'],
  ['thermocouple', 'Thermocouple', 'Insulated tip, fixed with tape while everything is discharged.'],
  ['watch', 'Clock', 'Counts seconds between clicks.'],
] as const

export type InstrumentId = (typeof list)[number][0]

/** Every instrument that the power-up plan knows, in the order in which a form asks for them. */
export const instruments: readonly (Instrument & { readonly id: InstrumentId })[] = list.map(
  ([id, name, note]) => ({ id, name, note }),
)

const known: ReadonlySet<string> = new Set(instruments.map((i) => i.id))
const names = new Map<string, string>(instruments.map((i) => [i.id, i.name]))

/** Name for people of an instrument. */
export const instrumentName = (id: InstrumentId): string => names.get(id) ?? id

/** Those of a list of names that are instruments of the plan. A clock and a hand count as owned by everybody. */
export const ownedInstruments = (listed: readonly string[]): ReadonlySet<InstrumentId> =>
  new Set(['watch' as const, ...listed.filter((id): id is InstrumentId => known.has(id))])
