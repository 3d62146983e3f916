import { raised } from '../../converter/trim.ts'
import type { Design } from '../../supply/design.ts'
import { switcherCase_C, switcherCaseMost_C } from '../../supply/heat-stops.ts'
import { surgedBulkOf } from '../../supply/mains-side/parts.ts'
import type { Readings } from '../../supply/reading.ts'
import {
  anywhere,
  fullLoad,
  once,
  overConditions,
  type Rule,
  steady,
  trimUp_V,
  whileOutputUp,
} from '../rule.ts'

/** Peak current that is left free below the least current limit; rule of the trade. */
export const limitUse = 0.96
/** Part of the drain rating that careful designs use; common practice, no source. */
const drainUse = 0.9

/** Bias voltage follows the output: winding volts per turn are fixed. */
const biasAt = (output_V: number, need_V: number, bias_V: number, drop_V: number): number =>
  ((bias_V + drop_V) * output_V) / need_V - drop_V

/** Drain peak at the highest trim: what the output rises the primary sees times the ratio; an avalanche clamp holds. */
const trimmedDrain_V = (r: Readings, d: Design): number =>
  r.drainPeak_V + (d.clamp.style === 'avalanche' ? 0 : d.transformer.turnsRatio * trimUp_V(d))

/** Slope compensation, which lowers the limit as a pulse goes on; none in voltage mode. */
const slope_A_per_s = ({ parts: { switcher } }: Design): number =>
  switcher.control.style === 'peak-current' ? switcher.control.slope_A_per_s : 0

const modes = ['skip', 'discontinuous', 'continuous'] as const

/** Peak current and duty at the highest trim. */
const trimmed = (r: Readings, { need }: Design): { readonly peak_A: number; readonly duty: number } =>
  raised(
    { mode: modes[r.mode]!, peak_A: r.primaryPeak_A, valley_A: r.primaryValley_A, duty: r.duty },
    need.trimHigh_V / need.output_V,
  )

/** Peak at which the least current limit ends this pulse: compensation lowers it, the delay of the chip lifts it. */
const leastPeak_A = (d: Design, r: Readings): number => {
  const { currentLimit_A, currentLimitDelay_s: delay_s } = d.parts.switcher
  const slope = slope_A_per_s(d)
  return (
    currentLimit_A.minimum -
    slope * ((r.onTime_s * trimmed(r, d).duty) / r.duty - delay_s) +
    (r.bulkMinimum_V / r.primaryInductance_H) * delay_s
  )
}

export const switcherRules: readonly Rule[] = [
  overConditions({
    id: 'switcher.drain-voltage',
    title: 'Drain voltage',
    spot: 'switcher',
    unit: 'V',
    band: 0.06,
    where: anywhere,
    reading: trimmedDrain_V,
    rating: (d) => d.parts.switcher.drainVoltage_V,
    why: 'Above its rating the switch breaks down and fails short, and takes the fuse with it.',
    raise: 'Lower the reflected voltage, lower the clamp voltage, or wind for less leakage.',
  }),
  overConditions({
    id: 'switcher.drain-margin',
    title: 'Working margin of the drain',
    spot: 'switcher',
    basis: 'rule',
    unit: 'V',
    band: 0.06,
    where: steady,
    reading: trimmedDrain_V,
    rating: (d) => drainUse * d.parts.switcher.drainVoltage_V,
    why: 'Surges on the mains and a cold clamp diode take the last tenth of the rating.',
    raise: 'Lower the reflected voltage, lower the clamp voltage, or wind for less leakage.',
  }),
  overConditions({
    id: 'switcher.mains-surge',
    title: 'Drain voltage in a mains surge',
    spot: 'switcher',
    basis: 'rule',
    unit: 'V',
    band: 0.1,
    applies: (d) => d.need.source.kind === 'mains',
    where: (c) => c.id === 'maximum-100',
    reading: (r, d) => trimmedDrain_V(r, d) - r.bulkPeak_V + surgedBulkOf(d),
    rating: (d) => d.parts.switcher.drainVoltage_V,
    why: 'A surge of 1 kV between the lines gets past the varistor and lifts the bulk while the switch works.',
    raise:
      'A varistor of lower voltage, a common-mode choke, a larger bulk capacitor, or a lower clamp voltage.',
  }),
  overConditions({
    id: 'switcher.peak-current',
    title: 'Peak current below the least current limit',
    spot: 'switcher',
    basis: 'rule',
    unit: 'A',
    band: 0.08,
    where: fullLoad,
    reading: (r, d) => trimmed(r, d).peak_A,
    rating: (d, r) => limitUse * leastPeak_A(d, r),
    why: 'A chip at the low end of its tolerance stops short of full power at lowest input.',
    raise: 'A chip of higher limit, more inductance, a larger bulk capacitor, or a higher reflected voltage.',
  }),
  overConditions({
    id: 'supply.power',
    title: 'Power ceiling at lowest input',
    spot: 'output',
    basis: 'need',
    sense: 'at-least',
    unit: 'W',
    band: 0.08,
    where: fullLoad,
    reading: (r) => r.powerCeiling_W,
    rating: (d) => d.need.trimHigh_V * d.need.output_A,
    why: 'Below it the supply regulates lightly loaded and collapses or hiccups loaded.',
    raise:
      'A chip of higher limit or duty, more inductance where the current limit stops it, or a larger bulk capacitor.',
  }),
  overConditions({
    id: 'switcher.duty',
    title: 'Duty at the bulk valley',
    spot: 'switcher',
    unit: '',
    where: fullLoad,
    reading: (r, d) => trimmed(r, d).duty,
    rating: (d) => d.parts.switcher.maximumDuty.minimum,
    why: 'At its greatest duty the chip lets the output sag at twice the mains frequency.',
    raise: 'A larger bulk capacitor or a lower reflected voltage.',
  }),
  overConditions({
    id: 'switcher.slope',
    title: 'Slope compensation',
    spot: 'switcher',
    basis: 'rule',
    sense: 'at-least',
    unit: 'A/s',
    band: 0.15,
    applies: (d) => d.parts.switcher.control.style === 'peak-current',
    where: fullLoad,
    reading: (_r, d) => slope_A_per_s(d),
    // Half the difference of falling and rising slope, where the current never reaches zero.
    rating: (_d, r) =>
      r.mode === 2
        ? (0.5 * (r.reflectedVoltage_V - (r.reflectedVoltage_V * (1 - r.duty)) / r.duty)) /
          r.primaryInductance_H
        : 0,
    why: 'Without it every second pulse comes out narrow above half duty: hiss and heat.',
    raise: 'A lower reflected voltage, more inductance, or a chip with more slope compensation.',
  }),
  overConditions({
    id: 'switcher.junction',
    title: 'Switcher junction temperature',
    spot: 'switcher',
    unit: '°C',
    band: 0.15,
    aboveAmbient: true,
    where: steady,
    reading: (r) => r.switchJunction_C,
    rating: (d) => Math.min(d.parts.switcher.thermalShutdown_C.minimum, d.parts.switcher.maximumJunction_C),
    why: 'The chip shuts down hot and comes back when it has cooled, over and over.',
    raise: 'A larger heatsink, a thinner pad, a chip of lower on-resistance.',
  }),
  overConditions({
    id: 'switcher.case',
    title: 'Switcher case temperature',
    spot: 'switcher',
    basis: 'rule',
    unit: '°C',
    band: 0.15,
    aboveAmbient: true,
    where: steady,
    reading: (r, d) => switcherCase_C(d, r),
    rating: switcherCaseMost_C,
    why: 'What a thermometer may read: hotter, its junction is within 10 K of shutdown.',
    raise: 'A larger heatsink, a thinner pad, a chip of lower on-resistance.',
  }),
  overConditions({
    id: 'switcher.bias-low',
    title: 'Bias voltage at the lowest output',
    spot: 'bias',
    sense: 'at-least',
    unit: 'V',
    band: 0.1,
    where: steady,
    // What the spike adds comes and goes with the load: only the ratio of turns can be counted on.
    reading: (r, d) =>
      biasAt(d.need.trimLow_V, d.need.output_V, d.biasVoltage_V, d.parts.biasDiode.drop_V) - r.biasRipple_Vpp,
    rating: (d) => d.parts.switcher.biasVoltage_V.minimum,
    why: 'The chip loses its supply and starts again and again.',
    raise: 'One more bias turn, a larger bias capacitor, or a smaller trim range.',
  }),
  overConditions({
    id: 'switcher.bias-high',
    title: 'Bias voltage at the highest output',
    spot: 'bias',
    unit: 'V',
    band: 0.15,
    where: whileOutputUp,
    reading: (r, d) => biasAt(d.need.trimHigh_V, d.need.output_V, r.bias_V, d.parts.biasDiode.drop_V),
    rating: (d) => d.parts.switcher.biasVoltage_V.maximum,
    why: 'Leakage adds to it under load; above the rating chip and optocoupler are overstressed.',
    raise: 'One bias turn less, or a small resistor before the bias capacitor.',
  }),
  once({
    id: 'switcher.start',
    title: 'Lowest input that starts',
    spot: 'switcher',
    unit: 'V',
    band: 0.1,
    reading: (f) => f.startInput_V,
    rating: (d) => (d.need.source.kind === 'mains' ? d.need.source.minimum_Vrms : d.need.source.minimum_V),
    why: 'Below it the chip never starts.',
    raise: 'A chip that starts lower.',
  }),
]
