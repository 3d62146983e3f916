import type { Switcher } from '../part.ts'
import { milli, pico, rounded } from './units.ts'

/**
 * Generic 700 V switchers, invented with figures typical of the trade, no source. Powers are what the trade would
 * print for wide mains and for 230 V in an open frame; the tool never uses them for a limit, only for choosing.
 * Columns: on-resistance at 25 °C, current limit typical A, power wide W, power 230 V W, junction to case K/W.
 */
type Row = readonly [on_ohm: number, limit_A: number, wide_W: number, at230_W: number, case_K_per_W: number]

const source = 'typical of the trade, no source'
const spreadOf = (typical: number, relative: number) => ({
  minimum: rounded(typical * (1 - relative), 4),
  typical,
  maximum: rounded(typical * (1 + relative), 4),
})
/** `2.5` gives `2r5`, `15` gives `15r`. */
const ohmCode = (ohm: number) => {
  const [whole, part] = String(ohm).split('.')
  return `${whole}r${part ?? ''}`
}
/** Silicon on-resistance at 100 °C over that at 25 °C for 700 V devices. */
const hotRatio = 1.68
/** Larger dies have less resistance and more output capacitance; package adds a few picofarad. */
const outputCapacitance_F = (on_ohm: number) => pico(rounded(8 + 260 / on_ohm, 2))

const common = {
  kind: 'switcher',
  source,
  drainVoltage_V: 700,
  skipsPulsesWhenShorted: true,
  maximumJunction_C: 150,
} as const

const threePin = ([on_ohm, limit_A, wide_W, at230_W, case_K_per_W]: Row): Switcher => ({
  ...common,
  id: `switcher-700v-${ohmCode(on_ohm)}`,
  name: `700 V, ${on_ohm} ohm switcher, three pins, 100 kHz`,
  family: 'three-pin, duty by control current',
  onResistance25_ohm: on_ohm,
  onResistance100_ohm: rounded(on_ohm * hotRatio, 3),
  outputCapacitance_F: outputCapacitance_F(on_ohm),
  currentLimit_A: spreadOf(limit_A, 0.1),
  currentLimitDelay_s: 100e-9,
  blanking_s: 150e-9,
  frequency_Hz: { minimum: 90e3, typical: 100e3, maximum: 110e3 },
  maximumDuty: { minimum: 0.64, typical: 0.67, maximum: 0.7 },
  minimumOnTime_s: 200e-9,
  control: {
    style: 'voltage-mode',
    fullDutyCurrent_A: milli(2),
    zeroDutyCurrent_A: milli(6.2),
    pinVoltage_V: 5.7,
    poleFrequency_Hz: 7000,
  },
  softStart_s: 0,
  restartTry_s: 0.04,
  restartPause_s: 0.76,
  supplyCurrent_A: milli(1.6),
  biasVoltage_V: { minimum: 8.5, typical: 12, maximum: 30 },
  minimumStartVoltage_V: 36,
  thermalShutdown_C: { minimum: 125, typical: 140, maximum: 150 },
  thermalHysteresis_K: 40,
  ratedPowerWide_W: wide_W,
  ratedPower230_W: at230_W,
  pins: 3,
  tabIsDrain: false,
  package: 'TO-220, three leads, tab at source',
  junctionToCase_K_per_W: case_K_per_W,
  junctionToAmbient_K_per_W: 62,
})

const peakCurrent = (
  row: Row,
  frame: Pick<Switcher, 'package' | 'pins' | 'junctionToAmbient_K_per_W'> & { tag: string; label: string },
): Switcher => {
  const [on_ohm, limit_A, wide_W, at230_W, case_K_per_W] = row
  return {
    ...common,
    id: `switcher-700v-${ohmCode(on_ohm)}-${frame.tag}`,
    name: `700 V, ${on_ohm} ohm switcher, ${frame.label}, peak current, 132 kHz`,
    family: 'peak current by feedback current',
    onResistance25_ohm: on_ohm,
    onResistance100_ohm: rounded(on_ohm * hotRatio, 3),
    outputCapacitance_F: outputCapacitance_F(on_ohm),
    currentLimit_A: spreadOf(limit_A, 0.07),
    currentLimitDelay_s: 120e-9,
    blanking_s: 220e-9,
    frequency_Hz: { minimum: 124e3, typical: 132e3, maximum: 140e3 },
    maximumDuty: { minimum: 0.62, typical: 0.65, maximum: 0.68 },
    minimumOnTime_s: 350e-9,
    control: {
      style: 'peak-current',
      fullPowerCurrent_A: milli(0.06),
      zeroPowerCurrent_A: milli(0.28),
      pinVoltage_V: 1.3,
      poleFrequency_Hz: 20e3,
      /** About a third of the current limit over one period. */
      slope_A_per_s: rounded(0.33 * limit_A * 132e3, 2),
    },
    softStart_s: 8e-3,
    restartTry_s: 0.06,
    restartPause_s: 0.9,
    supplyCurrent_A: milli(0.9),
    biasVoltage_V: { minimum: 9, typical: 12, maximum: 24 },
    minimumStartVoltage_V: 50,
    thermalShutdown_C: { minimum: 135, typical: 142, maximum: 150 },
    thermalHysteresis_K: 70,
    ratedPowerWide_W: wide_W,
    ratedPower230_W: at230_W,
    pins: frame.pins,
    tabIsDrain: false,
    package: frame.package,
    junctionToCase_K_per_W: case_K_per_W,
    junctionToAmbient_K_per_W: frame.junctionToAmbient_K_per_W,
  }
}

const dip = {
  tag: 'dip',
  label: 'DIP-8',
  package: 'DIP-8 on 300 mm2 of copper',
  pins: 8,
  junctionToAmbient_K_per_W: 60,
}
const fiveLead = {
  tag: 'peak',
  label: 'TO-220 five leads',
  package: 'TO-220, five leads, tab at source',
  pins: 5,
  junctionToAmbient_K_per_W: 62,
}

export const starterSwitchers: readonly Switcher[] = [
  peakCurrent([30, 0.25, 7, 10, 18], dip),
  peakCurrent([18, 0.42, 12, 18, 15], dip),
  peakCurrent([9, 0.8, 22, 32, 11], dip),
  threePin([15, 0.5, 15, 25, 4]),
  threePin([7.5, 1, 30, 50, 3]),
  threePin([5, 1.5, 45, 75, 2.4]),
  threePin([3.8, 2, 60, 100, 2]),
  threePin([3, 2.5, 75, 125, 1.6]),
  threePin([2.5, 3, 90, 150, 1.4]),
  peakCurrent([4, 2, 62, 100, 2], fiveLead),
  peakCurrent([2, 3.6, 105, 150, 1.2], fiveLead),
]
