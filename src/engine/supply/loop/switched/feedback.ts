import { current, type Element, scaled, voltage } from '../../../circuit/index.ts'
import { ledResistance } from '../../../loop/index.ts'
import type { SwitchedLoop } from './loop.ts'

/** Voltage of the LED at its working current; only its difference from rest matters. */
const led_V = 1.2

/** Where the tap of a lane is, and its voltage at rest. */
function tap(
  { stage, point }: SwitchedLoop,
  at: 'first' | 'load' | 'fixed',
): { node: string; rest_V: number } {
  if (at === 'first') return { node: 'first', rest_V: point.firstCapacitor_V }
  return { node: stage.filter.second === null ? 'first' : 'load', rest_V: stage.output_V }
}

/** Divider, reference with its compensation, optocoupler, pin and chip poles, at rest. */
export function feedbackElements(loop: SwitchedLoop): Element[] {
  const { path } = loop
  const sense = tap(loop, path.senseTap)
  const feed = tap(loop, path.ledTap === 'fixed' ? 'load' : path.ledTap)
  const share = path.dividerBottom_ohm / (path.dividerTop_ohm + path.dividerBottom_ohm)
  const rest_V = sense.rest_V * share
  const rd = ledResistance(path.led_A)
  const hasBias = Number.isFinite(path.biasResistor_ohm)
  const branch_A = path.led_A + (hasBias ? led_V / path.biasResistor_ohm : 0)
  const cathode_V = feed.rest_V - led_V - path.ledResistor_ohm * branch_A
  const control_A = path.transferRatio * path.led_A
  const [opto_Hz, chip_Hz] = parted(path.optocouplerPole_Hz, path.controlPole_Hz)
  const own_s = path.referenceGain / (2 * Math.PI * path.referenceGainBandwidth_Hz)
  const soft_s = path.ledResistor_ohm * path.softFinishCapacitor_F
  const elements: Element[] = [
    { kind: 'resistor', name: 'divider top', a: sense.node, b: 'sense', resistance_ohm: path.dividerTop_ohm },
    { kind: 'resistor', name: 'divider bottom', a: 'sense', b: '0', resistance_ohm: path.dividerBottom_ohm },
    {
      kind: 'controlled-voltage',
      name: 'reference',
      a: 'ref1',
      b: '0',
      value: {
        ...scaled(-path.referenceGain, voltage('sense')),
        offset: cathode_V + path.referenceGain * rest_V,
      },
    },
    ...lag('reference pole', 'ref1', 'ref2', own_s, cathode_V),
    ...(soft_s > 0
      ? [
          buffer('reference buffer', 'ref2', 'ref3'),
          ...lag('soft finish', 'ref3', 'ref4', soft_s, cathode_V),
          buffer('cathode', 'ref4', 'cathode'),
        ]
      : [buffer('cathode', 'ref2', 'cathode')]),
    {
      kind: 'resistor',
      name: 'Rc',
      a: 'sense',
      b: 'comp',
      resistance_ohm: Math.max(1e-3, path.compensationResistor_ohm),
    },
    {
      kind: 'capacitor',
      name: 'Cc',
      a: 'comp',
      b: 'cathode',
      capacitance_F: path.compensationCapacitor_F,
      initial_V: rest_V - cathode_V,
    },
    { kind: 'resistor', name: 'Rled', a: feed.node, b: 'led', resistance_ohm: path.ledResistor_ohm },
    { kind: 'resistor', name: 'led slope', a: 'led', b: 'led drop', resistance_ohm: rd },
    {
      kind: 'voltage-source',
      name: 'led drop',
      a: 'led drop',
      b: 'cathode',
      waveform: { kind: 'dc', value: led_V - rd * path.led_A },
    },
    {
      kind: 'controlled-current',
      name: 'optocoupler',
      a: '0',
      b: 'opto',
      value: { ...scaled(path.transferRatio, current('led slope')), offset: -control_A },
    },
    { kind: 'resistor', name: 'opto load', a: 'opto', b: '0', resistance_ohm: 1 },
    {
      kind: 'capacitor',
      name: 'opto pole',
      a: 'opto',
      b: '0',
      capacitance_F: 1 / (2 * Math.PI * opto_Hz),
      initial_V: 0,
    },
    ...pinElements(loop),
    buffer('pin buffer', 'pin', 'pin buffered'),
    ...lag('chip pole', 'pin buffered', 'chip', 1 / (2 * Math.PI * chip_Hz), 0),
  ]
  if (path.ledTap === 'fixed') {
    const at = elements.findIndex((e) => e.name === 'Rled')
    elements[at] = { ...(elements[at] as Extract<Element, { kind: 'resistor' }>), a: 'rail' }
    elements.push({
      kind: 'voltage-source',
      name: 'rail',
      a: 'rail',
      b: '0',
      waveform: { kind: 'dc', value: feed.rest_V },
    })
  }
  if (path.highFrequencyCapacitor_F > 0)
    elements.push({
      kind: 'capacitor',
      name: 'Ch',
      a: 'sense',
      b: 'cathode',
      capacitance_F: path.highFrequencyCapacitor_F,
      initial_V: rest_V - cathode_V,
    })
  if (hasBias)
    elements.push({
      kind: 'resistor',
      name: 'bias',
      a: 'led',
      b: 'cathode',
      resistance_ohm: path.biasResistor_ohm,
    })
  return elements
}

/** The control pin, its capacitor beside it, fed with the optocoupler's current; `pin` follows the pin's own current. */
function pinElements({ path }: SwitchedLoop): Element[] {
  const c = path.controlCapacitor
  if (c === undefined) return [buffer('pin', 'opto', 'pin')]
  return [
    { kind: 'controlled-current', name: 'into pin', a: '0', b: 'pin in', value: voltage('opto') },
    { kind: 'resistor', name: 'pin slope', a: 'pin in', b: '0', resistance_ohm: c.pin_ohm },
    { kind: 'resistor', name: 'C4r', a: 'pin in', b: 'C4n', resistance_ohm: Math.max(1e-6, c.series_ohm) },
    { kind: 'capacitor', name: 'C4', a: 'C4n', b: '0', capacitance_F: c.capacitance_F, initial_V: 0 },
    {
      kind: 'controlled-voltage',
      name: 'pin',
      a: 'pin',
      b: '0',
      value: scaled(1 / c.pin_ohm, voltage('pin in')),
    },
  ]
}

/** Two poles that nearly coincide, moved 3 % apart about their mean: a double pole is hard on the circuit's modes. */
function parted(a_Hz: number, b_Hz: number): [number, number] {
  if (Math.abs(Math.log(a_Hz / b_Hz)) > 0.06) return [a_Hz, b_Hz]
  const middle = Math.sqrt(a_Hz * b_Hz)
  return [middle * 1.03, middle / 1.03]
}

const buffer = (name: string, from: string, to: string): Element => ({
  kind: 'controlled-voltage',
  name,
  a: to,
  b: '0',
  value: voltage(from),
})

/** First-order lag with time constant `tau_s` and output at rest. */
const lag = (name: string, from: string, to: string, tau_s: number, rest_V: number): Element[] => [
  { kind: 'resistor', name: `${name} R`, a: from, b: to, resistance_ohm: 1000 },
  { kind: 'capacitor', name: `${name} C`, a: to, b: '0', capacitance_F: tau_s / 1000, initial_V: rest_V },
]
