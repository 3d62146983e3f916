import {
  current,
  difference,
  type Element,
  type Probe,
  scaled,
  voltage,
} from '../../../src/engine/circuit/index.ts'

export type Parameters = Readonly<Record<string, number>>

/** Power stage of the published flyback circuits (their parts, node names and values). */
export function stage(
  p: Parameters,
  initial: { out?: number; clamp?: number; junction?: number } = {},
): Element[] {
  const elements: Element[] = [
    { kind: 'voltage-source', name: 'Vin', a: 'in', b: '0', waveform: { kind: 'dc', value: p.Vin! } },
    { kind: 'resistor', name: 'Rpri', a: 'in', b: 'p1', resistance_ohm: p.Rpri! },
    { kind: 'inductor', name: 'Llk', a: 'p1', b: 'p2', inductance_H: p.Llk! },
    { kind: 'resistor', name: 'Rlk', a: 'p1', b: 'p2', resistance_ohm: p.Rlk! },
    { kind: 'inductor', name: 'Lm', a: 'p2', b: 'd', inductance_H: p.Lm! },
    {
      kind: 'ideal-transformer',
      name: 'T',
      windings: [
        { a: 'd', b: 'p2', turns: p.n! },
        { a: 's1', b: '0', turns: 1 },
      ],
    },
    { kind: 'resistor', name: 'Rcore', a: 's1', b: '0', resistance_ohm: p.Rcore! },
    { kind: 'resistor', name: 'Rsec', a: 's1', b: 's3', resistance_ohm: p.Rsec! },
    {
      kind: 'diode',
      name: 'Dsec',
      a: 's3',
      b: 'out',
      drop_V: p.sec_diode_vf!,
      slope_ohm: p.sec_diode_rd!,
      capacitance_F: p.Cj!,
      initial_V: initial.junction ?? 0,
    },
    { kind: 'resistor', name: 'Rsn', a: 's3', b: 'sn', resistance_ohm: p.Rsn! },
    {
      kind: 'capacitor',
      name: 'Csn',
      a: 'sn',
      b: 'out',
      capacitance_F: p.Csn!,
      initial_V: initial.junction ?? 0,
    },
    {
      kind: 'capacitor',
      name: 'Cout',
      a: 'out',
      b: 'oc',
      capacitance_F: p.Cout!,
      initial_V: initial.out ?? 0,
    },
    { kind: 'resistor', name: 'Resr', a: 'oc', b: '0', resistance_ohm: p.Resr! },
    {
      kind: 'switch',
      name: 'S1',
      a: 'd',
      b: '0',
      on_ohm: p.switch_ron!,
      off_ohm: p.switch_roff!,
      capacitance_F: p.Coss!,
    },
    { kind: 'diode', name: 'Dbody', a: '0', b: 'd', drop_V: p.body_diode_vf!, slope_ohm: p.body_diode_rd! },
    { kind: 'diode', name: 'Dcl', a: 'd', b: 'c2', drop_V: p.clamp_diode_vf!, slope_ohm: p.clamp_diode_rd! },
  ]
  if (p.Vtvs !== undefined)
    elements.push({
      kind: 'avalanche',
      name: 'Dtvs',
      a: 'in',
      b: 'c2',
      breakdown_V: p.Vtvs,
      breakdown_slope_ohm: p.Rtvs!,
      drop_V: 0.7,
      slope_ohm: 0.1,
    })
  else
    elements.push(
      {
        kind: 'capacitor',
        name: 'Ccl',
        a: 'c2',
        b: 'in',
        capacitance_F: p.Ccl!,
        initial_V: initial.clamp ?? 0,
      },
      { kind: 'resistor', name: 'Rcl', a: 'c2', b: 'in', resistance_ohm: p.Rcl! },
    )
  return elements
}

export const load = (ohm: number): Element => ({
  kind: 'resistor',
  name: 'Rload',
  a: 'out',
  b: '0',
  resistance_ohm: ohm,
})

/** The figures the published cases quote. Winding current, not switch current. */
export const stageProbes: Readonly<Record<string, Probe>> = {
  vout: voltage('out'),
  vds: voltage('d'),
  ipri: current('Rpri'),
  isec: scaled(-1, current('T', 1)),
  vka: difference(voltage('out'), voltage('s3')),
  icout: current('Resr'),
  iin: current('Vin'),
  vclamp: difference(voltage('c2'), voltage('in')),
}
