/**
 * How a named unit scales to the SI unit: a power of ten (applied to the decimal text, so that nothing is lost), or
 * a factor, with an offset for temperatures.
 */
export type Scale = { readonly power: number } | { readonly factor: number; readonly offset?: number }

export interface UnitDefinition {
  /** What a person would call the quantity, with its article. */
  readonly quantity: string
  /** Written after a value. */
  readonly symbol: string
  /** A value as people type it, for error sentences. */
  readonly example: string
  /** Names accepted after a number, besides prefix and name. Compared without case when that is not ambiguous. */
  readonly names: Readonly<Record<string, Scale>>
  /** Names that take an SI prefix. */
  readonly prefixed: readonly string[]
  /** Prefixes that may be typed, and those used for display (a space stands for none). */
  readonly typed: string
  readonly shown: string
  /** Name assumed when a number stands alone. */
  readonly bare: string
}

const one: Scale = { power: 0 }
const define = (
  quantity: string,
  symbol: string,
  example: string,
  more: Partial<Pick<UnitDefinition, 'names' | 'prefixed' | 'typed' | 'shown' | 'bare'>> & {
    also?: readonly string[]
  } = {},
): UnitDefinition => {
  const own = more.prefixed ?? [symbol]
  return {
    quantity,
    symbol,
    example,
    names: Object.fromEntries([
      ...[...own, ...(more.also ?? [])].map((name) => [name, one] as const),
      ...Object.entries(more.names ?? {}),
    ]),
    prefixed: [...own, ...(more.also ?? [])],
    typed: more.typed ?? '',
    shown: more.shown ?? ' ',
    bare: more.bare ?? own[0] ?? '',
  }
}

const volts = { typed: 'umk', shown: 'um k', also: ['volt', 'volts'] }

/** Every unit that a field of the engine can have, by the ending of the field's name. */
export const units = {
  V: define('a voltage', 'V', '12 V', { ...volts, also: [...volts.also, 'VDC'] }),
  Vrms: define('an rms voltage', 'V', '230 V', { ...volts, also: [...volts.also, 'Vrms', 'VAC'] }),
  Vpp: define('a peak-to-peak voltage', 'V', '50 mV', { ...volts, also: [...volts.also, 'Vpp'] }),
  A: define('a current', 'A', '2.5 A', {
    typed: 'pnumk',
    shown: 'num k',
    also: ['amp', 'amps', 'ampere'],
  }),
  A2s: define('a melting integral', 'A²s', '12 A2s', { prefixed: ['A2s'], typed: 'mk' }),
  ohm: define('a resistance', 'Ω', '4k7', {
    prefixed: ['ohm'],
    typed: 'umkMG',
    shown: 'um kMG',
    also: ['ohms', 'R'],
  }),
  'ohm/m': define('a resistance per length', 'Ω/m', '213 mohm/m', {
    prefixed: ['ohm/m'],
    typed: 'umk',
    shown: 'um k',
  }),
  F: define('a capacitance', 'F', '47 uF', { typed: 'pnum', shown: 'pnu', also: ['farad'] }),
  H: define('an inductance', 'H', '4.7 mH', {
    typed: 'pnum',
    shown: 'pnum ',
    also: ['henry', 'H/N2', 'H/turn2'],
  }),
  m: define('a length', 'm', '0.6 mm', {
    names: {
      mm: { power: -3 },
      cm: { power: -2 },
      um: { power: -6 },
      nm: { power: -9 },
      in: { factor: 0.0254 },
      inch: { factor: 0.0254 },
      inches: { factor: 0.0254 },
      '"': { factor: 0.0254 },
      mil: { factor: 25.4e-6 },
      mils: { factor: 25.4e-6 },
      thou: { factor: 25.4e-6 },
    },
    typed: 'u',
    bare: 'mm',
  }),
  m2: define('an area', 'm²', '52 mm2', {
    prefixed: ['m2'],
    names: {
      mm2: { power: -6 },
      sqmm: { power: -6 },
      cm2: { power: -4 },
      sqcm: { power: -4 },
      um2: { power: -12 },
      in2: { factor: 0.0254 ** 2 },
      cmil: { factor: (Math.PI / 4) * 25.4e-6 ** 2 },
    },
    bare: 'mm2',
  }),
  m3: define('a volume', 'm³', '2990 mm3', {
    prefixed: ['m3'],
    names: { mm3: { power: -9 }, cm3: { power: -6 }, cc: { power: -6 } },
    bare: 'mm3',
  }),
  W: define('a power', 'W', '24 W', { typed: 'umk', shown: 'um k', also: ['watt', 'watts'] }),
  'W/m3': define('a loss density', 'W/m³', '120 kW/m3', {
    prefixed: ['W/m3'],
    names: { 'mW/cm3': { power: 3 }, 'mW/cc': { power: 3 }, 'W/cm3': { power: 6 } },
    typed: 'mkM',
    shown: ' kM',
  }),
  'W/K': define('a dissipation factor', 'W/K', '17 mW/K', { typed: 'um', shown: 'um ' }),
  Hz: define('a frequency', 'Hz', '100 kHz', { typed: 'kMG', shown: ' kMG' }),
  s: define('a time', 's', '150 ns', {
    names: { min: { factor: 60 }, h: { factor: 3600 } },
    typed: 'pnum',
    shown: 'pnum ',
    also: ['sec', 'second', 'seconds'],
  }),
  h: define('a life', 'h', '5000 h', { also: ['hour', 'hours'], typed: 'k' }),
  T: define('a flux density', 'T', '300 mT', {
    names: { G: { power: -4 }, gauss: { power: -4 }, kG: { power: -1 }, kgauss: { power: -1 } },
    typed: 'um',
    shown: 'um ',
    also: ['tesla'],
  }),
  'A/m': define('a field strength', 'A/m', '250 A/m', {
    names: {
      'A/cm': { power: 2 },
      Oe: { factor: 1000 / (4 * Math.PI) },
      oersted: { factor: 1000 / (4 * Math.PI) },
    },
    typed: 'k',
    shown: ' k',
  }),
  'A/s': define('a slope', 'A/s', '0.2 A/us', {
    names: { 'A/us': { power: 6 }, 'mA/us': { power: 3 }, 'A/ms': { power: 3 } },
    typed: 'kM',
    shown: ' kM',
  }),
  C: define('a temperature', '°C', '100 °C', {
    prefixed: ['C'],
    names: {
      degC: one,
      '°C': one,
      '°F': { factor: 5 / 9, offset: -32 * (5 / 9) },
      degF: { factor: 5 / 9, offset: -32 * (5 / 9) },
      K: { factor: 1, offset: -273.15 },
    },
  }),
  K: define('a temperature difference', 'K', '40 K', { names: { C: one, '°C': one } }),
  'K/W': define('a thermal resistance', 'K/W', '2.2 K/W', { names: { 'C/W': one, '°C/W': one } }),
  J: define('an energy', 'J', '4.8 J', { typed: 'num', shown: 'num ' }),
  'J/K': define('a heat capacity', 'J/K', '1.5 J/K', {
    names: { 'J/C': one, '°J/C': one },
    typed: 'mk',
    shown: 'm k',
  }),
  'kg/m3': define('a density', 'kg/m³', '4800 kg/m3', {
    prefixed: ['kg/m3'],
    names: { 'g/cm3': { power: 3 } },
  }),
  '1/K': define('a drift per kelvin', '1/K', '50 ppm/K', {
    prefixed: ['1/K'],
    names: { 'ppm/K': { power: -6 }, 'ppm/C': { power: -6 }, '%/K': { power: -2 } },
  }),
  fraction: define('a share', '%', '20 %', { prefixed: [], names: { '': one, '%': { power: -2 } } }),
  turns: define('a number of turns', 'turns', '63', { prefixed: ['turns'], also: ['', 't', 'turn'] }),
  '1': define('a number', '', '2300', { prefixed: [''], names: { '%': { power: -2 } }, typed: 'kM' }),
} as const satisfies Record<string, UnitDefinition>

export type Unit = keyof typeof units

/** Fields without a unit in their name that are shares of one, shown in percent. */
const shares = new Set([
  'tolerance',
  'toleranceUp',
  'toleranceDown',
  'inductanceFactorTolerance',
  'ageing',
  'fraction',
  'maximumDuty',
])

/** Unit of a field by the ending of its name: `gap_m` gives `m`, `toAmbient_K_per_W` gives `K/W`, none gives `1`. */
export function unitOfField(field: string): Unit {
  const cut = field.indexOf('_')
  if (cut < 0) return shares.has(field) ? 'fraction' : '1'
  const ending = field
    .slice(cut + 1)
    .replace(/^per_/, '1/')
    .replace('_per_', '/')
  if (!Object.hasOwn(units, ending))
    throw new RangeError(`field ${field} ends in ${ending}, which is no known unit`)
  return ending as Unit
}
