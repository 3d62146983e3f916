import {
  constant,
  current,
  difference,
  type Element,
  type LinearForm,
  scaled,
  sum,
  voltage,
} from '../circuit/index.ts'
import { ledResistance, optocouplerPole } from '../loop/feedback-path.ts'
import { ledCurrentFor, ratioAt } from '../loop/transfer-ratio.ts'
import type { Design } from '../supply/design.ts'
import type { StageParameters } from './parameters.ts'
import { outputNode } from './power-stage.ts'

/**
 * Control pin: a shunt-regulating pin of a voltage-mode chip is of a few ohms and has the capacitor that such chips ask
 * for; a feedback pin of a peak-current chip pulls up through a few kilohms. Common practice, no source.
 */
const pinLoad_ohm = { 'voltage-mode': 20, 'peak-current': 5000 } as const
const pinCapacitor = { capacitance_F: 47e-6, series_ohm: 6.8 }
/** From the bias capacitor through the phototransistor into the pin. */
const collector_ohm = 150
/** A cathode draws its own current from about this voltage up. */
const cathodeWakes_V = 1

/** Every number of divider, reference and optocoupler, SI units. */
export interface FeedbackParameters {
  readonly top_ohm: number
  readonly bottom_ohm: number
  readonly input_A: number
  readonly reference_V: number
  readonly transconductance_S: number
  readonly referencePole_Hz: number
  readonly cathodeLeast_A: number
  readonly cathodeLeast_V: number
  readonly cathodeMost_A: number
  readonly led_ohm: number
  readonly ledBias_ohm: number
  readonly ledDrop_V: number
  readonly ledSlope_ohm: number
  readonly compensation_ohm: number
  readonly compensation_F: number
  readonly highFrequency_F: number
  readonly softFinish_F: number
  readonly transferRatio: number
  readonly optocouplerPole_Hz: number
  readonly sense: 'out' | 'load'
  readonly feed: 'out' | 'load'
}

/** `transferRatio` picks a corner of the optocoupler; typical when left out. */
export function feedbackParameters(
  d: Design,
  p: StageParameters,
  transferRatio?: number,
): FeedbackParameters {
  const { reference, optocoupler, trimmer } = d.parts
  const f = d.feedback
  const pin_A = (p.chip.fullPower_A + p.chip.zeroPower_A) / 2
  const rated = {
    ratio: transferRatio ?? optocoupler.transferRatio.typical,
    test_A: optocoupler.testCurrent_A,
  }
  // One ratio for the whole range of the control current: that in the middle of it.
  const ratio = ratioAt(rated, ledCurrentFor(rated, pin_A))
  return {
    top_ohm: f.dividerTop_ohm,
    bottom_ohm: f.dividerBottom_ohm + (trimmer?.resistance_ohm ?? 0) / 2,
    input_A: reference.inputCurrent_A,
    reference_V: reference.voltage_V.typical,
    transconductance_S: reference.gain / f.ledResistor_ohm,
    referencePole_Hz: reference.gainBandwidth_Hz / reference.gain,
    cathodeLeast_A: reference.minimumCathode_A,
    cathodeLeast_V: reference.minimumCathode_V,
    cathodeMost_A: reference.maximumCathode_A,
    led_ohm: f.ledResistor_ohm,
    ledBias_ohm: f.biasResistor_ohm,
    ledDrop_V: optocoupler.ledDrop_V,
    ledSlope_ohm: ledResistance(pin_A / ratio),
    compensation_ohm: f.compensationResistor_ohm,
    compensation_F: f.compensationCapacitor_F,
    highFrequency_F: f.highFrequencyCapacitor_F,
    softFinish_F: f.softFinishCapacitor_F,
    transferRatio: ratio,
    optocouplerPole_Hz: optocouplerPole(optocoupler, pinLoad_ohm[p.chip.style]),
    sense: f.senseAfterChoke ? outputNode(p) : 'out',
    feed: f.ledFeedAfterChoke ? outputNode(p) : 'out',
  }
}

/** Where the loop stands when it regulates: everything but the control current follows from it. */
export interface LoopStart {
  readonly output_V: number
  readonly control_A: number
}

/** Control current at which the chip asks for a share of its full power. */
export const controlCurrent_A = (p: StageParameters, share: number): number =>
  p.chip.zeroPower_A + (p.chip.fullPower_A - p.chip.zeroPower_A) * Math.min(1, Math.max(0, share))

/** One volt for each milliampere of control current, behind the chip's own pole. */
const controlNode = 'ctl'

/** What the chip's control asks for: duty, or peak amperes. */
export function commandForm(p: StageParameters): LinearForm {
  const { chip } = p
  const full = chip.style === 'voltage-mode' ? chip.maximumDuty : chip.limit_A
  const gain = full / (chip.zeroPower_A - chip.fullPower_A)
  return sum(constant(gain * chip.zeroPower_A), scaled(-gain * 1e-3, voltage(controlNode)))
}

/** Positive while nothing holds the chip back. */
export const askingForm = (p: StageParameters): LinearForm =>
  sum(
    constant(p.chip.fullPower_A + 0.02 * (p.chip.zeroPower_A - p.chip.fullPower_A)),
    scaled(-1e-3, voltage(controlNode)),
  )

const lag = (name: string, node: string, gain: LinearForm, pole_Hz: number, initial_V: number): Element[] => [
  { kind: 'controlled-current', name: `G${name}`, a: '0', b: node, value: gain },
  { kind: 'resistor', name: `R${name}`, a: node, b: '0', resistance_ohm: 1000 },
  {
    kind: 'capacitor',
    name: `C${name}`,
    a: node,
    b: '0',
    capacitance_F: 1 / (2 * Math.PI * pole_Hz * 1000),
    initial_V,
  },
]

/**
 * Divider, shunt reference, optocoupler and control pin. The reference sinks a current that rises with its input above
 * its threshold, at least what it needs itself, and cannot pull its cathode below its least voltage; the LED's current
 * times the transfer ratio, behind the pole of the optocoupler, flows from the bias capacitor (voltage mode) into the
 * control pin, as far as the bias voltage lets it. Nodes: `fb` reference input, `k` cathode, `ctl` control current.
 *
 * The switches that a fault needs are inserted by `switches`.
 */
export function feedbackElements(
  p: StageParameters,
  f: FeedbackParameters,
  start: LoopStart | null,
  switches: { readonly sense?: boolean; readonly led?: boolean; readonly cathode?: boolean } = {},
): Element[] {
  const led_A = start ? start.control_A / f.transferRatio : 0
  const bias_A = start ? f.ledDrop_V / f.ledBias_ohm : 0
  const cathode_V = start
    ? Math.max(
        f.cathodeLeast_V,
        start.output_V - f.ledDrop_V - f.ledSlope_ohm * led_A - f.led_ohm * (led_A + bias_A),
      )
    : 0
  const extra_A = Math.max(0, led_A + bias_A - f.cathodeLeast_A)
  const compensation_V = start ? cathode_V - f.reference_V : 0
  const control_V = start ? start.control_A * 1e3 : 0
  const cathode = voltage('k')
  const wake_S = f.cathodeLeast_A / cathodeWakes_V
  // reference: transconductance behind its pole, limited to what it can sink; 1 V for each milliampere
  const asked = scaled(f.transconductance_S, sum(voltage('fb'), constant(-f.reference_V)))
  const elements: Element[] = [
    {
      kind: 'resistor',
      name: 'Rtop',
      a: switches.sense ? 'sense' : f.sense,
      b: 'fb',
      resistance_ohm: f.top_ohm,
    },
    { kind: 'resistor', name: 'Rbottom', a: 'fb', b: '0', resistance_ohm: f.bottom_ohm },
    { kind: 'current-source', name: 'Ifb', a: 'fb', b: '0', waveform: { kind: 'dc', value: f.input_A } },
    {
      kind: 'controlled-current',
      name: 'Gref',
      a: '0',
      b: 'kx',
      value: constant(0),
      bends: [
        { gain: 1, of: asked },
        { gain: -1, of: sum(asked, constant(-f.cathodeMost_A)) },
      ],
    },
    { kind: 'resistor', name: 'Rkx', a: 'kx', b: '0', resistance_ohm: 1000 },
    {
      kind: 'capacitor',
      name: 'Ckx',
      a: 'kx',
      b: '0',
      capacitance_F: 1 / (2 * Math.PI * f.referencePole_Hz * 1000),
      initial_V: extra_A * 1e3,
    },
    {
      kind: 'controlled-current',
      name: 'Gk',
      a: 'k',
      b: '0',
      value: sum(scaled(1e-3, voltage('kx')), scaled(wake_S, cathode)),
      bends: [{ gain: -wake_S, of: sum(cathode, constant(-cathodeWakes_V)) }],
    },
    // the cathode stops at its least voltage, or at the feed where that is lower
    {
      kind: 'controlled-voltage',
      name: 'Ekmin',
      a: 'kmin',
      b: '0',
      value: voltage(f.feed),
      bends: [{ gain: -1, of: sum(voltage(f.feed), constant(-f.cathodeLeast_V)) }],
    },
    { kind: 'diode', name: 'Dkmin', a: 'kmin', b: 'k', drop_V: 0, slope_ohm: 1 },
    // the cathode has a little capacitance of its own
    {
      kind: 'capacitor',
      name: 'Ck',
      a: 'k',
      b: '0',
      capacitance_F: Math.max(100e-12, f.softFinish_F),
      initial_V: cathode_V,
    },
    { kind: 'resistor', name: 'Rz', a: 'k', b: 'cz', resistance_ohm: f.compensation_ohm },
    {
      kind: 'capacitor',
      name: 'Cz',
      a: 'cz',
      b: 'fb',
      capacitance_F: f.compensation_F,
      initial_V: compensation_V,
    },
    ...(f.highFrequency_F > 0
      ? [
          {
            kind: 'capacitor' as const,
            name: 'Chf',
            a: 'k',
            b: 'fb',
            capacitance_F: f.highFrequency_F,
            initial_V: compensation_V,
          },
        ]
      : []),
    { kind: 'resistor', name: 'Rled', a: switches.led ? 'feed' : f.feed, b: 'la', resistance_ohm: f.led_ohm },
    { kind: 'diode', name: 'Dled', a: 'la', b: 'k', drop_V: f.ledDrop_V, slope_ohm: f.ledSlope_ohm },
    { kind: 'resistor', name: 'Rledbias', a: 'la', b: 'k', resistance_ohm: f.ledBias_ohm },
    ...lag('opto', 'opto', scaled(f.transferRatio, current('Dled')), f.optocouplerPole_Hz, control_V),
    ...(p.chip.style === 'voltage-mode' ? fedPin(p, control_V) : []),
    ...lag(
      'ctl',
      controlNode,
      p.chip.style === 'voltage-mode'
        ? scaled(1 / pinLoad_ohm['voltage-mode'], voltage('pin'))
        : scaled(1e-3, voltage('opto')),
      p.chip.pole_Hz,
      control_V,
    ),
  ]
  if (switches.sense)
    elements.push({ kind: 'switch', name: 'Ssense', a: f.sense, b: 'sense', on_ohm: 0.01, closed: true })
  if (switches.led)
    elements.push({ kind: 'switch', name: 'Sled', a: f.feed, b: 'feed', on_ohm: 0.01, closed: true })
  if (switches.cathode) elements.push({ kind: 'switch', name: 'Scathode', a: 'k', b: '0', on_ohm: 0.1 })
  return elements
}

/** Phototransistor fed from the bias capacitor, and the pin with its capacitor. */
function fedPin(p: StageParameters, control_V: number): Element[] {
  const ohm = pinLoad_ohm['voltage-mode']
  const wanted = scaled(1e-3, voltage('opto'))
  const pin_V = control_V * 1e-3 * ohm
  return [
    // what the bias voltage can drive through the transistor, in milliamperes as volts
    {
      kind: 'controlled-voltage',
      name: 'Eavail',
      a: 'avail',
      b: '0',
      value: constant(0),
      bends: [{ gain: 1e3 / collector_ohm, of: sum(voltage('bias'), constant(-p.chip.pin_V)) }],
    },
    {
      kind: 'controlled-current',
      name: 'Gpin',
      a: '0',
      b: 'pin',
      value: wanted,
      bends: [{ gain: -1, of: difference(wanted, scaled(1e-3, voltage('avail'))) }],
    },
    { kind: 'controlled-current', name: 'Gbias', a: 'bias', b: '0', value: current('Gpin') },
    { kind: 'resistor', name: 'Rpin', a: 'pin', b: '0', resistance_ohm: ohm },
    { kind: 'resistor', name: 'Rpinc', a: 'pin', b: 'pinc', resistance_ohm: pinCapacitor.series_ohm },
    {
      kind: 'capacitor',
      name: 'Cpin',
      a: 'pinc',
      b: '0',
      capacitance_F: pinCapacitor.capacitance_F,
      initial_V: pin_V,
    },
  ]
}
