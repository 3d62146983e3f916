import type { Capacitor } from '../part.ts'
import { micro, milli, nano, rounded, slug } from './units.ts'

const source = 'typical of the trade, no source'

/** Number and unit as they are printed on a capacitor: 47 µF, 100 nF. */
const printed = (capacitance_uF: number): readonly [number: number, unit: 'uF' | 'nF'] =>
  capacitance_uF >= 1 ? [capacitance_uF, 'uF'] : [rounded(capacitance_uF * 1e3), 'nF']

const capacitorOf = (
  role: string,
  name: string,
  capacitance_uF: number,
  fields: Omit<Capacitor, 'id' | 'kind' | 'name' | 'source' | 'capacitance_F'>,
): Capacitor => {
  const [number, unit] = printed(capacitance_uF)
  return {
    id: `capacitor-${role}-${slug(`${number}${unit}`)}-${fields.voltage_V}v`,
    kind: 'capacitor',
    name: `${number} ${unit.replace('u', 'µ')} ${fields.voltage_V} V ${name}`,
    source,
    capacitance_F: rounded(micro(capacitance_uF), 6),
    ...fields,
  }
}

/**
 * Mains bulk electrolytics, 105 °C. Ripple at twice mains grows with C^0.7 over can sizes; at 100 kHz it is 1.75
 * times that; ESR falls as 1/C. Both are fits to what makers print, typical of the trade.
 */
const bulk = [400, 450].flatMap((voltage_V) =>
  [10, 15, 22, 33, 47, 68, 82, 100, 120, 150, 180, 220, 270, 330].map((c) => {
    const ripple100Hz_A = rounded(0.028 * c ** 0.7, 2)
    return capacitorOf('bulk', 'bulk electrolytic', c, {
      technology: 'electrolytic',
      toleranceDown: 0.2,
      toleranceUp: 0.2,
      voltage_V,
      resistance_ohm: rounded(95 / c, 2),
      ripple100kHz_A: rounded(1.75 * ripple100Hz_A, 2),
      ripple100Hz_A,
      life_h: c < 33 ? 3000 : 5000,
      temperature_C: 105,
    })
  }),
)

/** Can sizes of low-ESR electrolytics: size mm, ESR mohm and ripple A at 100 kHz of the 6.3 to 35 V parts, life h. */
const cans = [
  { size: '5 x 11', esr_mohm: 300, ripple_A: 0.25, life_h: 4000, uF: [150, 100, 68, 47, 33, 22, 10, 4.7] },
  {
    size: '6.3 x 11',
    esr_mohm: 130,
    ripple_A: 0.405,
    life_h: 4000,
    uF: [330, 220, 120, 100, 56, 33, 22, 10],
  },
  { size: '8 x 12', esr_mohm: 72, ripple_A: 0.76, life_h: 5000, uF: [680, 470, 330, 220, 150, 82, 56, 27] },
  {
    size: '10 x 13',
    esr_mohm: 53,
    ripple_A: 1.03,
    life_h: 6000,
    uF: [1000, 680, 470, 330, 220, 120, 82, 39],
  },
  {
    size: '10 x 16',
    esr_mohm: 38,
    ripple_A: 1.43,
    life_h: 6000,
    uF: [1500, 1000, 680, 470, 330, 180, 120, 56],
  },
  {
    size: '10 x 20',
    esr_mohm: 23,
    ripple_A: 1.82,
    life_h: 7000,
    uF: [2200, 1500, 1000, 680, 470, 220, 180, 82],
  },
  {
    size: '12.5 x 20',
    esr_mohm: 21,
    ripple_A: 2.36,
    life_h: 8000,
    uF: [3300, 2200, 1500, 1000, 680, 390, 270, 120],
  },
  {
    size: '12.5 x 25',
    esr_mohm: 18,
    ripple_A: 2.77,
    life_h: 10000,
    uF: [3900, 3300, 2200, 1500, 1000, 560, 390, 180],
  },
  {
    size: '16 x 25',
    esr_mohm: 16,
    ripple_A: 3.3,
    life_h: 10000,
    uF: [6800, 4700, 3300, 2200, 1500, 820, 560, 270],
  },
] as const
/** Rated voltages of the columns of `uF`; the higher ones have more ESR and less ripple in the same can. */
const canVoltages = [
  { voltage_V: 6.3, esr: 1, ripple: 1 },
  { voltage_V: 10, esr: 1, ripple: 1 },
  { voltage_V: 16, esr: 1, ripple: 1 },
  { voltage_V: 25, esr: 1, ripple: 1 },
  { voltage_V: 35, esr: 1, ripple: 1 },
  { voltage_V: 50, esr: 1.4, ripple: 0.85 },
  { voltage_V: 63, esr: 1.7, ripple: 0.75 },
  { voltage_V: 100, esr: 2.6, ripple: 0.6 },
] as const

const lowEsr = cans.flatMap((can) =>
  canVoltages.map((column, i) =>
    capacitorOf('lowesr', `low-ESR electrolytic, ${can.size} mm`, can.uF[i]!, {
      technology: 'electrolytic',
      toleranceDown: 0.2,
      toleranceUp: 0.2,
      voltage_V: column.voltage_V,
      resistance_ohm: milli(rounded(can.esr_mohm * column.esr, 2)),
      ripple100kHz_A: rounded(can.ripple_A * column.ripple),
      /** Ripple multiplier at 120 Hz: 0.4 for small values to 0.7 for large. */
      ripple100Hz_A: rounded(can.ripple_A * column.ripple * (can.uF[i]! < 330 ? 0.45 : 0.65)),
      life_h: can.life_h,
      temperature_C: 105,
    }),
  ),
)

const polymer = (
  [
    [820, 6.3, 8, 5.5],
    [470, 10, 10, 5.2],
    [470, 16, 12, 5],
    [270, 16, 14, 4.5],
    [330, 25, 18, 4.2],
    [150, 35, 25, 3],
  ] as const
).map(([c, voltage_V, esr_mohm, ripple_A]) =>
  capacitorOf('polymer', 'polymer', c, {
    technology: 'polymer',
    toleranceDown: 0.2,
    toleranceUp: 0.2,
    voltage_V,
    resistance_ohm: milli(esr_mohm),
    ripple100kHz_A: ripple_A,
    ripple100Hz_A: rounded(ripple_A * 0.1, 2),
    life_h: 2000,
    temperature_C: 105,
  }),
)

/** Ceramic and film: ESR from a loss factor at 100 kHz. */
const small = (
  role: string,
  name: string,
  c: number,
  voltage_V: number,
  technology: 'ceramic' | 'film',
  tolerance: number,
  safetyClass?: Capacitor['safetyClass'],
) => {
  const lossFactor = technology === 'film' ? 0.004 : 0.02
  const ripple100kHz_A = rounded(Math.min(4, Math.max(0.05, 8 * c ** 0.6)), 2)
  return capacitorOf(role, name, c, {
    technology,
    toleranceDown: tolerance,
    toleranceUp: tolerance,
    voltage_V,
    resistance_ohm: rounded(lossFactor / (2 * Math.PI * 1e5 * micro(c)), 2),
    ripple100kHz_A,
    ripple100Hz_A: ripple100kHz_A,
    life_h: 100e3,
    temperature_C: technology === 'film' ? 105 : 125,
    ...(safetyClass ? { safetyClass } : {}),
  })
}

/** Rated voltage of a safety class part is the mains voltage, rms. */
const rmsNote = 'The voltage is the rated mains voltage, rms.'
const safety = (
  safetyClass: NonNullable<Capacitor['safetyClass']>,
  c: number,
  voltage_Vrms: number,
): Capacitor => ({
  ...small(
    safetyClass.toLowerCase(),
    `class ${safetyClass}`,
    c,
    voltage_Vrms,
    safetyClass.startsWith('Y') ? 'ceramic' : 'film',
    safetyClass.startsWith('Y') ? 0.2 : 0.1,
    safetyClass,
  ),
  note: rmsNote,
})

export const starterCapacitors: readonly Capacitor[] = [
  ...bulk,
  ...lowEsr,
  ...polymer,
  ...[1, 2.2, 4.7, 10].map((n) => small('disc', 'ceramic disc', n / 1e3, 1000, 'ceramic', 0.2)),
  ...[0.1, 0.22, 0.47, 1, 2.2].map((n) => small('disc', 'ceramic disc', n / 1e3, 2000, 'ceramic', 0.1)),
  ...[1, 2.2, 4.7, 10, 22, 47].map((n) => small('film', 'film', n / 1e3, 630, 'film', 0.1)),
  ...[1, 2.2, 4.7, 10].map((n) => small('film', 'film', n / 1e3, 1000, 'film', 0.1)),
  ...[1, 2.2, 4.7, 10, 22, 47, 100, 220, 470].map((n) => small('film', 'film', n / 1e3, 63, 'film', 0.05)),
  ...[100, 470, 1000, 2200, 4700].map((n) => small('ceramic', 'ceramic', n / 1e3, 50, 'ceramic', 0.1)),
  ...[0.1, 0.22, 0.47, 1, 2.2].map((n) => small('ceramic', 'ceramic', n / 1e3, 100, 'ceramic', 0.1)),
  ...[10, 22].map((n) => small('ceramic', 'ceramic', n, 25, 'ceramic', 0.2)),
  ...[47, 100, 150, 220, 330, 470].map((n) => safety('X2', n / 1e3, 275)),
  ...[100, 220].map((n) => safety('X1', n / 1e3, 440)),
  ...[1, 2.2, 4.7].map((n) => safety('Y1', nano(n) * 1e6, 400)),
  ...[1, 2.2, 3.3, 4.7].map((n) => safety('Y2', nano(n) * 1e6, 300)),
]
