import {
  type Controller,
  current,
  type Element,
  type LinearForm,
  type Netlist,
  scaled,
  sum,
  voltage,
} from '../../circuit/index.ts'
import {
  type FeedbackPath,
  type FlybackStage,
  ledResistance,
  type Modulator,
  type OperatingPoint,
} from '../../loop/index.ts'

/** One sine of the test signal that is added to duty or peak current. */
export interface Tone {
  readonly frequency_Hz: number
  readonly amplitude: number
  readonly phase_rad: number
}

/** A closed loop to be switched: power stage, modulator, feedback path, and where it rests. */
export interface SwitchedLoop {
  readonly stage: FlybackStage
  readonly modulator: Modulator
  readonly path: FeedbackPath
  readonly point: OperatingPoint
  /** Greatest duty, and with peak-current control the greatest peak of the primary current. */
  readonly mostDuty: number
  readonly mostPeak_A: number
  /** Extra current that the load draws over time, in straight lines; none when left out. */
  readonly loadStep?: readonly (readonly [time_s: number, current_A: number])[]
  /** Bulk voltage over time; the stage's when left out. */
  readonly bulkSteps?: readonly (readonly [time_s: number, voltage_V: number])[]
}

/** What feedback takes away from duty or peak current, against its rest value. */
export function takenAway({ path }: SwitchedLoop): LinearForm {
  return { terms: voltage('chip').terms.map((t) => ({ ...t, gain: path.controlGain })), offset: 0 }
}

/** Voltage at the load. */
export const loadVoltage = ({ stage }: SwitchedLoop): LinearForm =>
  voltage(stage.filter.second === null ? 'first' : 'load')

/**
 * The whole supply as a switched circuit: ideal switch and rectifier with their resistances, divider, shunt reference
 * of finite gain, compensation, optocoupler LED and its bias resistor, optocoupler and chip poles, modulator. No
 * leakage or stray capacitance: what the averaged model leaves out beyond that is what this circuit shows.
 * Knob `test` scales the tones; 0 is silent.
 */
export function switchedNetlist(loop: SwitchedLoop, tones: readonly Tone[]): Netlist {
  return {
    title: 'closed loop, switched',
    elements: [...powerElements(loop), ...loadElements(loop), ...feedbackElements(loop)],
    controllers: [
      loop.modulator.style === 'voltage-mode' ? dutyControl(loop, tones) : peakControl(loop, tones),
    ],
    knobs: { test: 0 },
  }
}

function powerElements({ stage, point, bulkSteps }: SwitchedLoop): Element[] {
  const { filter } = stage
  const feed = stage.leakage ? 'primary' : 'in'
  const start_A =
    point.mode === 'discontinuous'
      ? 0
      : point.primary_Apeak - (point.upSlope_A_per_s * point.duty) / stage.frequency_Hz
  const elements: Element[] = [
    {
      kind: 'voltage-source',
      name: 'bulk',
      a: 'in',
      b: '0',
      waveform: bulkSteps ? { kind: 'piecewise', points: bulkSteps } : { kind: 'dc', value: stage.bulk_V },
    },
    ...leakageElements(stage),
    {
      kind: 'inductor',
      name: 'magnetising',
      a: feed,
      b: 'drain',
      inductance_H: stage.primaryInductance_H - (stage.leakage?.inductance_H ?? 0),
      initial_A: start_A,
    },
    {
      kind: 'ideal-transformer',
      name: 'transformer',
      windings: [
        { a: 'drain', b: feed, turns: stage.turnsRatio },
        { a: 'anode', b: '0', turns: 1 },
      ],
    },
    {
      kind: 'switch',
      name: 'switch',
      a: 'drain',
      b: '0',
      on_ohm: Math.max(1e-4, stage.primaryResistance_ohm),
    },
    {
      kind: 'diode',
      name: 'rectifier',
      a: 'anode',
      b: 'first',
      drop_V: stage.rectifierDrop_V,
      slope_ohm: Math.max(1e-5, stage.secondaryResistance_ohm),
    },
    ...capacitorWith(
      'C1',
      'first',
      filter.capacitance_F,
      filter.capacitorResistance_ohm,
      point.firstCapacitor_V,
    ),
  ]
  const { second } = filter
  if (second)
    elements.push(
      {
        kind: 'resistor',
        name: 'chokeR',
        a: 'first',
        b: 'choke',
        resistance_ohm: Math.max(1e-6, second.resistance_ohm),
      },
      {
        kind: 'inductor',
        name: 'choke',
        a: 'choke',
        b: 'load',
        inductance_H: second.inductance_H,
        initial_A: stage.output_A,
      },
      ...capacitorWith('C2', 'load', second.capacitance_F, second.capacitorResistance_ohm, stage.output_V),
    )
  return elements
}

/** Leakage in line with the primary, and a clamp that holds the drain at its voltage above the bulk. */
function leakageElements({ leakage }: FlybackStage): Element[] {
  if (leakage === undefined) return []
  return [
    { kind: 'inductor', name: 'leakage', a: 'in', b: 'primary', inductance_H: leakage.inductance_H },
    { kind: 'diode', name: 'clamp diode', a: 'drain', b: 'clamp', drop_V: 0.7, slope_ohm: 0.1 },
    {
      kind: 'voltage-source',
      name: 'clamp',
      a: 'clamp',
      b: 'in',
      waveform: { kind: 'dc', value: leakage.clamp_V },
    },
  ]
}

function capacitorWith(name: string, node: string, C: number, r: number, initial_V: number): Element[] {
  if (r < 1e-9) return [{ kind: 'capacitor', name, a: node, b: '0', capacitance_F: C, initial_V }]
  return [
    { kind: 'resistor', name: `${name}r`, a: node, b: `${name}n`, resistance_ohm: r },
    { kind: 'capacitor', name, a: `${name}n`, b: '0', capacitance_F: C, initial_V },
  ]
}

function loadElements({ stage, loadStep }: SwitchedLoop): Element[] {
  const node = stage.filter.second === null ? 'first' : 'load'
  const { output_A, output_V, load } = stage
  const elements: Element[] = []
  switch (load.kind) {
    case 'resistor':
      elements.push({
        kind: 'resistor',
        name: 'drain on output',
        a: node,
        b: '0',
        resistance_ohm: output_V / output_A,
      })
      break
    case 'constant-current':
      elements.push({
        kind: 'current-source',
        name: 'drain on output',
        a: node,
        b: '0',
        waveform: { kind: 'dc', value: output_A },
      })
      break
    case 'constant-power':
      elements.push({
        kind: 'controlled-current',
        name: 'drain on output',
        a: node,
        b: '0',
        value: { ...scaled(-output_A / output_V, voltage(node)), offset: 2 * output_A },
      })
      break
    case 'battery':
      elements.push(
        {
          kind: 'resistor',
          name: 'drain on output',
          a: node,
          b: 'battery',
          resistance_ohm: load.resistance_ohm,
        },
        {
          kind: 'voltage-source',
          name: 'battery',
          a: 'battery',
          b: '0',
          waveform: { kind: 'dc', value: output_V - output_A * load.resistance_ohm },
        },
      )
  }
  if (loadStep)
    elements.push({
      kind: 'current-source',
      name: 'load step',
      a: node,
      b: '0',
      waveform: { kind: 'piecewise', points: loadStep },
    })
  return elements
}

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

function feedbackElements(loop: SwitchedLoop): Element[] {
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

/** Value and slope of the test signal. */
function testSignal(tones: readonly Tone[], time_s: number): { value: number; slope_per_s: number } {
  let value = 0
  let slope = 0
  for (const { frequency_Hz, amplitude, phase_rad } of tones) {
    const w = 2 * Math.PI * frequency_Hz
    value += amplitude * Math.sin(w * time_s + phase_rad)
    slope += amplitude * w * Math.cos(w * time_s + phase_rad)
  }
  return { value, slope_per_s: slope }
}

/**
 * The test signal as a straight line through its value at the expected end of the on-time, so that it bends less than
 * a thousandth of its amplitude where the comparison is made.
 */
function testLine(
  tones: readonly Tone[],
  scale: number,
  start_s: number,
  end_s: number,
): { value: number; slope_per_s: number } {
  if (scale === 0) return { value: 0, slope_per_s: 0 }
  const { value, slope_per_s } = testSignal(tones, end_s)
  return { value: scale * (value - slope_per_s * (end_s - start_s)), slope_per_s: scale * slope_per_s }
}

/** Natural sampling: on at the clock, off when the ramp passes the duty asked for. */
function dutyControl(loop: SwitchedLoop, tones: readonly Tone[]): Controller {
  const period_s = 1 / loop.stage.frequency_Hz
  const rest = loop.point.duty
  return {
    name: 'modulator',
    watches: { over: takenAway(loop) },
    memory: { on_s: rest * period_s, since_s: 0 },
    start: (io) => io.timerAt('clock', 0),
    react: (event, io) => {
      if (event === 'clock') {
        io.timerAt('clock', io.time_s + period_s)
        const test = testLine(tones, io.knob('test'), io.time_s, io.time_s + (io.recall('on_s') as number))
        const offset = -rest - test.value
        if (io.read('over') + offset >= 0) return
        io.remember('since_s', io.time_s)
        io.set('switch', true)
        io.arm('over', { offset, slope_per_s: 1 / period_s - test.slope_per_s })
        io.timerAt('most', io.time_s + loop.mostDuty * period_s)
        return
      }
      io.remember('on_s', io.time_s - (io.recall('since_s') as number))
      io.set('switch', false)
      io.disarm('over')
      io.cancel('most')
    },
  }
}

/** On at the clock, off when the primary current with slope compensation passes the peak asked for. */
function peakControl(loop: SwitchedLoop, tones: readonly Tone[]): Controller {
  const { point, modulator } = loop
  const period_s = 1 / loop.stage.frequency_Hz
  const slope = modulator.style === 'peak-current' ? modulator.slope_A_per_s : 0
  const rest_A = point.primary_Apeak + slope * point.duty * period_s
  return {
    name: 'modulator',
    watches: { over: sum(current('switch'), takenAway(loop)), limit: current('switch') },
    memory: { on_s: point.duty * period_s, since_s: 0 },
    start: (io) => io.timerAt('clock', 0),
    react: (event, io) => {
      if (event === 'clock') {
        io.timerAt('clock', io.time_s + period_s)
        const test = testLine(tones, io.knob('test'), io.time_s, io.time_s + (io.recall('on_s') as number))
        if (io.read('over') - rest_A - test.value >= 0) return
        io.remember('since_s', io.time_s)
        io.set('switch', true)
        io.arm('over', { offset: -rest_A - test.value, slope_per_s: slope - test.slope_per_s })
        io.arm('limit', { offset: -loop.mostPeak_A, slope_per_s: 0 })
        io.timerAt('most', io.time_s + loop.mostDuty * period_s)
        return
      }
      io.remember('on_s', io.time_s - (io.recall('since_s') as number))
      io.set('switch', false)
      io.disarm('over')
      io.disarm('limit')
      io.cancel('most')
    },
  }
}
