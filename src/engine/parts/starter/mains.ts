import type { Bridge, Fuse, Ntc, PartOf } from '../part.ts'
import { micro, milli, rounded } from './units.ts'

const source = 'typical of the trade, no source'

/** Columns: reverse V, average A, surge A, package, junction to case and to ambient K/W. */
const bridges: readonly Bridge[] = (
  [
    [600, 1, 40, 'DIP-4', 20, 60],
    [1000, 1.5, 50, 'round', 15, 40],
    [600, 2, 60, 'in line, small', 9, 30],
    [800, 3, 80, 'in line, small', 8, 30],
    [600, 4, 150, 'in line', 4.5, 22],
    [800, 4, 150, 'in line', 4.5, 22],
    [800, 6, 175, 'in line', 3.4, 21],
    [1000, 8, 200, 'in line', 2.6, 20],
    [1000, 15, 300, 'in line, large', 1.5, 18],
    [1000, 25, 350, 'in line, large', 0.8, 18],
  ] as const
).map(([reverse_V, average_A, surge_A, frame, toCase, toAmbient]) => ({
  id: `bridge-${reverse_V}v-${average_A}a`,
  kind: 'bridge',
  name: `${reverse_V} V, ${average_A} A bridge`,
  source,
  reverse_V,
  average_A,
  surge_A,
  /** Half sine of 8.3 ms at the surge current. */
  meltingIntegral_A2s: rounded((surge_A ** 2 * 8.3e-3) / 2, 3),
  drop_V: 0.72,
  slope_ohm: rounded(0.25 / average_A, 2),
  package: frame,
  junctionToCase_K_per_W: toCase,
  junctionToAmbient_K_per_W: toAmbient,
  maximumJunction_C: 150,
}))

/** Columns: cold ohm, hot ohm at rated current, rated A, heat capacity J/K, dissipation mW/K, capacitor uF at 230 V. */
const ntcs: readonly Ntc[] = (
  [
    [47, 1.6, 1, 0.45, 8, 68],
    [33, 1.1, 1.3, 0.5, 9, 100],
    [22, 0.7, 2, 0.7, 11, 150],
    [16, 0.55, 1.7, 0.7, 10, 150],
    [10, 0.34, 2.3, 0.7, 11, 150],
    [10, 0.2, 3.7, 1.5, 17, 470],
    [5, 0.11, 4.2, 0.9, 14, 330],
    [5, 0.1, 7, 1.8, 21, 680],
    [2.5, 0.06, 8, 1.8, 21, 680],
  ] as const
).map(([cold_ohm, hot_ohm, current_A, heatCapacity_J_per_K, mW_per_K, capacitor_uF]) => ({
  id: `ntc-${cold_ohm}r-${current_A}a`,
  kind: 'ntc',
  name: `Inrush NTC ${cold_ohm} ohm, ${current_A} A`,
  source,
  cold_ohm,
  hot_ohm,
  current_A,
  beta_K: 3000,
  heatCapacity_J_per_K,
  dissipation_W_per_K: milli(mW_per_K),
  maximumCapacitance_F: micro(capacitor_uF),
}))

const fuseRatings_A = [0.5, 0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3]

/** Miniature fuses 5 x 20 mm, 250 V. Melting integrals are about 3 In2 (slow) and 0.6 In2 (fast) ampere2 second. */
const fuses: readonly Fuse[] = fuseRatings_A.flatMap((rated_A) =>
  (['slow', 'fast'] as const).map((speed) => ({
    id: `fuse-${rated_A}a-${speed}`,
    kind: 'fuse' as const,
    name: `Fuse 5 x 20 mm, ${rated_A} A ${speed}, 250 V`,
    source,
    rated_A,
    voltage_V: 250,
    speed,
    meltingIntegral_A2s: rounded((speed === 'slow' ? 3 : 0.6) * rated_A ** 2, 2),
    breaking_A: 1500,
    resistance_ohm: rounded(0.09 / rated_A ** 1.1, 2),
  })),
)

/** Fuses for a DC bus, 10 x 38 mm, which quench an arc that no zero crossing ends. */
const dcFuses: readonly Fuse[] = [0.5, 1, 2, 4, 6.3].map((rated_A) => ({
  id: `fuse-dc-${rated_A}a-slow`,
  kind: 'fuse',
  name: `Fuse 10 x 38 mm, ${rated_A} A slow, 500 V DC`,
  source,
  rated_A,
  voltage_V: 500,
  speed: 'slow',
  meltingIntegral_A2s: rounded(3 * rated_A ** 2, 2),
  breaking_A: 10e3,
  resistance_ohm: rounded(0.12 / rated_A ** 1.1, 2),
}))

/** Columns: continuous V rms, disc mm, clamp V, clamp A, energy J. */
const varistors: readonly PartOf<'varistor'>[] = (
  [
    [150, 7, 395, 10, 13],
    [150, 10, 395, 25, 25],
    [150, 14, 395, 50, 45],
    [275, 7, 710, 10, 23],
    [275, 10, 710, 25, 43],
    [275, 14, 710, 50, 71],
    [300, 10, 775, 25, 47],
    [300, 14, 775, 50, 76],
  ] as const
).map(([continuous_Vrms, disc_mm, clampVoltage_V, clampCurrent_A, energy_J]) => ({
  id: `varistor-${continuous_Vrms}v-${disc_mm}mm`,
  kind: 'varistor',
  name: `Varistor ${continuous_Vrms} V, ${disc_mm} mm`,
  source,
  continuous_Vrms,
  clampVoltage_V,
  clampCurrent_A,
  energy_J,
}))

/** Columns: inductance mH, current A, resistance of one winding ohm. Leakage is about 1 % of the inductance. */
const commonModeChokes: readonly PartOf<'common-mode-choke'>[] = (
  [
    [47, 0.4, 2.8],
    [39, 0.5, 2],
    [27, 0.7, 1.1],
    [22, 1, 0.65],
    [15, 1.3, 0.4],
    [10, 1.6, 0.28],
    [6.8, 2, 0.18],
    [4.7, 2.5, 0.12],
    [3.3, 3.2, 0.08],
  ] as const
).map(([mH, current_A, resistance_ohm]) => ({
  id: `common-mode-choke-${mH}mh-${current_A}a`,
  kind: 'common-mode-choke',
  name: `Common-mode choke 2 x ${mH} mH, ${current_A} A`,
  source,
  inductance_H: milli(mH),
  leakage_H: rounded(mH * 1e-5, 3),
  resistance_ohm,
  current_A,
}))

const lamps: readonly PartOf<'lamp'>[] = [230, 120].flatMap((voltage_V) =>
  [25, 40, 60, 75, 100].map((power_W) => ({
    id: `lamp-${power_W}w-${voltage_V}v`,
    kind: 'lamp' as const,
    name: `Incandescent lamp ${power_W} W, ${voltage_V} V`,
    source: 'rated power and voltage, by definition',
    power_W,
    voltage_V,
  })),
)

export const starterMains: readonly (
  | Bridge
  | Ntc
  | Fuse
  | PartOf<'varistor'>
  | PartOf<'common-mode-choke'>
  | PartOf<'lamp'>
)[] = [...bridges, ...ntcs, ...fuses, ...dcFuses, ...varistors, ...commonModeChokes, ...lamps]
