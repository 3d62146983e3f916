import { type Element, scaled, voltage } from '../../../circuit/index.ts'
import type { FlybackStage } from '../../../loop/index.ts'
import type { SwitchedLoop } from './loop.ts'

/** Bulk, leakage with its clamp, transformer, switch, rectifier and output filter, at rest. */
export function powerElements({ stage, point, bulkSteps }: SwitchedLoop): Element[] {
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

/** What hangs on the output, and what a load step adds to it. */
export function loadElements({ stage, loadStep }: SwitchedLoop): Element[] {
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
