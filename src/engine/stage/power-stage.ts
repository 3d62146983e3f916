import { constant, current, type Element, sum } from '../circuit/index.ts'
import type { CapacitorValues, DiodeValues, StageParameters, WindingValues } from './parameters.ts'

/** Ways in which a stage can be built wrong or have a dead part. */
export interface StageFaults {
  /** Secondary with start and finish swapped. */
  readonly secondaryReversed?: boolean
  /** The switch as a transistor that gives no more than some times its current limit, however hard it is pushed. */
  readonly switchSaturates?: boolean
}

/** Saturation current of the switch over the greatest current limit, and its slope there; typical, no source. */
const saturation = { times: 3, slope_ohm: 200 }

const resistor = (name: string, a: string, b: string, resistance_ohm: number): Element => ({
  kind: 'resistor',
  name,
  a,
  b,
  resistance_ohm,
})

const diode = (name: string, a: string, b: string, d: DiodeValues, initial_V = 0): Element => ({
  kind: 'diode',
  name,
  a,
  b,
  drop_V: d.drop_V,
  slope_ohm: d.slope_ohm,
  ...(d.capacitance_F > 0 ? { capacitance_F: d.capacitance_F, initial_V } : {}),
  ...(d.transit_s > 0 ? { transit_s: d.transit_s } : {}),
})

/** Capacitor with its series resistance: the inner node is `name` with a `c` added. */
const capacitor = (name: string, a: string, c: CapacitorValues, initial_V: number): Element[] => [
  resistor(`R${name}`, a, `${name}c`, c.resistance_ohm),
  { kind: 'capacitor', name: `C${name}`, a: `${name}c`, b: '0', capacitance_F: c.capacitance_F, initial_V },
]

/** Leakage with the resistance that damps it; nothing where there is none. */
const leakage = (name: string, a: string, b: string, w: WindingValues): Element[] =>
  w.leakage_H > 0
    ? [
        { kind: 'inductor', name: `Llk${name}`, a, b, inductance_H: w.leakage_H },
        resistor(`Rlk${name}`, a, b, w.damping_ohm),
      ]
    : []

/** Node at which the output is taken: behind the choke where there is one. */
export const outputNode = (p: StageParameters): 'load' | 'out' => (p.choke ? 'load' : 'out')

/** Node of the first output capacitor behind the inductance of its leads: what a scope limited to 20 MHz shows. */
export const firstNode = (p: StageParameters): 'oe' | 'out' => (p.output.inductance_H > 0 ? 'oe' : 'out')

/** Overdamped: its ring with the rectifier's capacitance is far above anything of interest. */
const outputLead = (p: StageParameters): Element[] =>
  p.output.inductance_H > 0
    ? [
        { kind: 'inductor', name: 'Lout', a: 'out', b: 'oe', inductance_H: p.output.inductance_H },
        resistor('Rlead', 'out', 'oe', 1),
      ]
    : []

/** How the stage stands at the first instant. */
export interface StageStart {
  readonly output_V: number
  readonly clamp_V: number
  readonly bias_V: number
  readonly choke_A: number
  readonly magnetising_A: number
}

export const coldStart: StageStart = { output_V: 0, clamp_V: 0, bias_V: 0, choke_A: 0, magnetising_A: 0 }

export const expectedStart = (p: StageParameters): StageStart => ({
  output_V: p.output_V,
  clamp_V: p.expected.clamp_V,
  bias_V: p.expected.bias_V,
  choke_A: p.output_A,
  magnetising_A: p.expected.valley_A,
})

/**
 * The power stage as elements. Nodes: `bus` bulk, `d` drain, `c2` clamp capacitor, `s3` anode of the rectifier, `out` first
 * output capacitor, `load` behind the choke, `bias` bias capacitor. Primary and secondary share the reference node,
 * which a transformer allows. `Rpri` and `Rsec` carry the winding currents, `Lm` the magnetising current.
 */
export function powerStage(
  p: StageParameters,
  start: StageStart = coldStart,
  faults: StageFaults = {},
): Element[] {
  const { primary, secondary, bias } = p
  const secondaryInner = secondary.leakage_H > 0 ? 's2' : 's1'
  const biasInner = bias.leakage_H > 0 ? 'b2' : 'b1'
  const reverse = faults.secondaryReversed === true
  const elements: Element[] = [
    { kind: 'voltage-source', name: 'Vin', a: 'bus', b: '0', waveform: { kind: 'knob', knob: 'bulk_V' } },
    resistor('Rpri', 'bus', 'p1', primary.resistance_ohm),
    ...leakage('pri', 'p1', 'p2', primary),
    {
      kind: 'saturating-inductor',
      name: 'Lm',
      a: 'p2',
      b: 'd',
      inductance_H: p.magnetising_H,
      knees: p.knees,
      initial_A: start.magnetising_A,
    },
    resistor('Rcore', 'p2', 'd', p.core_ohm),
    {
      kind: 'ideal-transformer',
      name: 'T',
      windings: [
        { a: 'd', b: 'p2', turns: primary.turns },
        { a: reverse ? '0' : 's1', b: reverse ? 's1' : '0', turns: secondary.turns },
        { a: 'b1', b: '0', turns: bias.turns },
      ],
    },
    {
      kind: 'switch',
      name: 'S1',
      a: 'd',
      b: faults.switchSaturates === true ? 'source' : '0',
      on_ohm: p.switch.on_ohm,
      capacitance_F: p.switch.capacitance_F,
      initial_V: p.bulk_V,
    },
    ...(faults.switchSaturates === true
      ? [
          {
            kind: 'controlled-voltage' as const,
            name: 'Esat',
            a: 'source',
            b: '0',
            value: constant(0),
            bends: [
              {
                gain: saturation.slope_ohm,
                of: sum(current('Esat'), constant(-saturation.times * p.chip.limit_A)),
              },
            ],
          },
        ]
      : []),
    { kind: 'diode', name: 'Dbody', a: '0', b: 'd', drop_V: 0.7, slope_ohm: 0.05 },
    ...clamp(p, start.clamp_V),

    ...leakage('sec', 's1', secondaryInner, secondary),
    resistor('Rsec', secondaryInner, 's3', secondary.resistance_ohm),
    diode('Dsec', 's3', 'out', p.rectifier, -start.output_V),
    ...(p.snubber
      ? [
          resistor('Rsnub', 's3', 'sn', p.snubber.resistor_ohm),
          {
            kind: 'capacitor' as const,
            name: 'Csnub',
            a: 'sn',
            b: 'out',
            capacitance_F: p.snubber.capacitor_F,
            initial_V: -start.output_V,
          },
        ]
      : []),
    ...outputLead(p),
    ...capacitor(
      'out',
      firstNode(p),
      p.output,
      start.output_V + start.choke_A * (p.choke?.resistance_ohm ?? 0),
    ),
    ...(p.choke && p.second
      ? [
          {
            kind: 'saturating-inductor' as const,
            name: 'Lchoke',
            a: 'out',
            b: 'ch',
            inductance_H: p.choke.inductance_H,
            knees: p.choke.knees,
            initial_A: start.choke_A,
          },
          resistor('Rchoke', 'ch', 'load', p.choke.resistance_ohm),
          ...capacitor('second', 'load', p.second, start.output_V),
        ]
      : []),

    ...leakage('bias', 'b1', biasInner, bias),
    resistor('Rbiaswinding', biasInner, 'b3', bias.resistance_ohm),
    diode('Dbias', 'b3', 'bias', { ...p.biasDiode, capacitance_F: 0, transit_s: 0 }),
    ...capacitor('bias', 'bias', p.biasCapacitor, start.bias_V),
  ]
  return elements
}

/** An avalanche device and its steering diode in series conduct together: they are one diode of both drops. */
function clamp(p: StageParameters, start_V: number): Element[] {
  if (p.clamp.style === 'avalanche')
    return [
      {
        kind: 'diode',
        name: 'Dcl',
        a: 'd',
        b: 'bus',
        drop_V: p.clamp.breakdown_V + p.clampDiode.drop_V,
        slope_ohm: p.clamp.slope_ohm + p.clampDiode.slope_ohm,
      },
    ]
  return [
    diode('Dcl', 'd', 'c2', { ...p.clampDiode, capacitance_F: 0, transit_s: 0 }),
    {
      kind: 'capacitor',
      name: 'Ccl',
      a: 'c2',
      b: 'bus',
      capacitance_F: p.clamp.capacitor_F,
      initial_V: start_V,
    },
    resistor('Rcl', 'c2', 'bus', p.clamp.resistor_ohm),
  ]
}

/** The chip's supply drawn from the bias capacitor, as the resistor that takes it at the bias voltage. */
export const chipDraw = (p: StageParameters, share = 1): Element =>
  resistor('Rchip', 'bias', '0', p.expected.bias_V / (share * p.chipSupply_A))

/** A source that holds the command of the chip at a knob. */
export const commandSource: Element = {
  kind: 'voltage-source',
  name: 'Vcommand',
  a: 'command',
  b: '0',
  waveform: { kind: 'knob', knob: 'command' },
}
