import {
  type Controller,
  constant,
  current,
  difference,
  type Element,
  fixedDuty,
  type Netlist,
  naturalPwm,
  peakCurrent,
  scaled,
  sum,
  voltage,
} from '../../../src/engine/circuit/index.ts'
import { load, type Parameters, stage } from './stage.ts'

/** Open-loop stage at fixed duty into a resistor. */
export function openLoop(p: Parameters): Netlist {
  return {
    title: 'open-loop flyback',
    elements: [...stage(p), load(p.Rload!)],
    knobs: { duty: p.D! },
    controllers: [fixedDuty({ name: 'pwm', drives: 'S1', period_s: 1 / p.fs!, dutyKnob: 'duty' })],
  }
}

/** A switch closed between two times. */
const closedBetween = (drives: string, from_s: number, to_s: number): Controller => ({
  name: `${drives} timing`,
  watches: {},
  memory: {},
  start: (io) => {
    io.timerAt('close', from_s)
    io.timerAt('open', to_s)
  },
  react: (event, io) => io.set(drives, event === 'close'),
})

const controlCurrent = voltage('ic')

/** Duty wanted by the control current: 0.65 at 2 mA, falling 0.20 per mA. */
export const dutyForm = sum(constant(0.65 + 0.2 * 2), scaled(-0.2, controlCurrent))

/** Voltage-mode loop through shunt reference and optocoupler, with a load step. */
export function closedLoop(p: Parameters): Netlist {
  const out = voltage('out')
  const wanted = sum(constant(4), scaled(-p.Aref!, sum(voltage('fb'), constant(-2.5))))
  const loop: Element[] = [
    { kind: 'resistor', name: 'R1', a: 'out', b: 'fb', resistance_ohm: p.R1! },
    { kind: 'resistor', name: 'Rlow', a: 'fb', b: '0', resistance_ohm: p.Rlow! },
    { kind: 'resistor', name: 'R2', a: 'k', b: 'cz', resistance_ohm: p.R2! },
    { kind: 'capacitor', name: 'C1', a: 'cz', b: 'fb', capacitance_F: p.C1!, initial_V: 0.95 },
    { kind: 'capacitor', name: 'Cp', a: 'k', b: 'fb', capacitance_F: p.Cp!, initial_V: 0.95 },
    // max(wanted, 2)
    {
      kind: 'controlled-voltage',
      name: 'Emax',
      a: 'm',
      b: '0',
      value: constant(2),
      bends: [{ gain: 1, of: sum(wanted, constant(-2)) }],
    },
    // min(that, v(out))
    {
      kind: 'controlled-voltage',
      name: 'Emin',
      a: 'kd',
      b: '0',
      value: out,
      bends: [{ gain: -1, of: difference(out, voltage('m')) }],
    },
    { kind: 'resistor', name: 'Rkx', a: 'kd', b: 'kx', resistance_ohm: 1000 },
    { kind: 'capacitor', name: 'Ckx', a: 'kx', b: '0', capacitance_F: 159.155e-9, initial_V: 3.45 },
    { kind: 'controlled-voltage', name: 'Ek', a: 'k', b: '0', value: voltage('kx') },
    {
      kind: 'controlled-current',
      name: 'Gopto',
      a: '0',
      b: 'ic',
      value: constant(0),
      bends: [{ gain: 1 / p.Rled!, of: sum(out, constant(-1.2), scaled(-1, voltage('k'))) }],
    },
    { kind: 'resistor', name: 'Ropto', a: 'ic', b: '0', resistance_ohm: 1000 },
    { kind: 'capacitor', name: 'Copto', a: 'ic', b: '0', capacitance_F: 15.9155e-9, initial_V: 4.9 },
    { kind: 'switch', name: 'Sload', a: 'out', b: 'rl', on_ohm: 1e-6, off_ohm: 1e8 },
    { kind: 'resistor', name: 'Rheavy', a: 'rl', b: '0', resistance_ohm: 5.3333333 },
    { kind: 'resistor', name: 'Rlight', a: 'out', b: '0', resistance_ohm: p.Rlight! },
  ]
  return {
    title: 'closed-loop flyback',
    elements: [...stage(p, { out: 12, clamp: 130, junction: -12 }), ...loop],
    controllers: [
      naturalPwm({ name: 'pwm', drives: 'S1', period_s: 1 / p.fs!, duty: dutyForm, most: 0.65 }),
      closedBetween('Sload', 6.0005e-3, 13.0005e-3),
    ],
  }
}

/** Cycle-by-cycle current limit into an overload. */
export function currentLimited(p: Parameters, ohm: number): Netlist {
  return {
    title: 'overloaded flyback',
    elements: [...stage(p), load(ohm)],
    knobs: { limit: p.Ilim! },
    controllers: [
      peakCurrent({
        name: 'limit',
        drives: 'S1',
        period_s: 1 / p.fs!,
        senses: 'Rpri',
        limitKnob: 'limit',
        blanking_s: p.LEB!,
        most: p.Dmax!,
      }),
    ],
  }
}

/** Bridge, bulk capacitor and constant-power load on a sine, through a resistor and perhaps a lamp. */
export function mains(p: Parameters, loadFrom_s: number, lamp: boolean): Netlist {
  const bridge = (name: string, a: string, b: string): Element => ({
    kind: 'diode',
    name,
    a,
    b,
    drop_V: p.bridge_diode_vf!,
    slope_ohm: p.bridge_diode_rd!,
  })
  const elements: Element[] = [
    {
      kind: 'voltage-source',
      name: 'Vac',
      a: 'ac0',
      b: '0',
      waveform: {
        kind: 'sine',
        offset: 0,
        amplitude: p.Vrms! * Math.SQRT2,
        frequency_Hz: p.fl!,
        phase_rad: (p.ph! * Math.PI) / 180,
      },
    },
    { kind: 'resistor', name: 'Rs', a: 'ac0', b: lamp ? 'la' : 'ac3', resistance_ohm: p.Rs! },
    bridge('D1', 'ac3', 'bp'),
    bridge('D2', '0', 'bp'),
    bridge('D3', 'bn', 'ac3'),
    bridge('D4', 'bn', '0'),
    { kind: 'resistor', name: 'Rref', a: 'bn', b: '0', resistance_ohm: 1e8 },
    { kind: 'resistor', name: 'Rrefp', a: 'bp', b: '0', resistance_ohm: 1e8 },
    { kind: 'capacitor', name: 'Cb', a: 'bp', b: 'bn', capacitance_F: p.Cb! },
    {
      kind: 'slow',
      name: 'load',
      a: 'bp',
      b: 'bn',
      initial: [],
      step_s: 2e-4,
      hold: 0.1,
      // i = P v / max(v, Vq)^2, applied over 1 ms from loadFrom_s
      law: (_, time_s, v) => {
        const share = loadFrom_s < 0 ? 1 : Math.min(1, Math.max(0, (time_s - loadFrom_s) / 1e-3))
        const power = p.P! * share
        const knee = p.Vq!
        return v <= knee
          ? { conductance_S: power / knee ** 2, current_A: 0 }
          : { conductance_S: -power / v ** 2, current_A: (2 * power) / v }
      },
    },
  ]
  if (lamp)
    elements.push({
      kind: 'slow',
      name: 'lamp',
      a: 'la',
      b: 'ac3',
      initial: [p.T0!],
      step_s: 2e-4,
      hold: 1e-4,
      law: ([kelvin]) => ({ conductance_S: 1 / (p.Rhot! * (kelvin! / p.Thot!) ** p.ex!), current_A: 0 }),
      rate: ([kelvin], { power_W }) => [
        (power_W - (p.Plamp! * (kelvin! ** 4 - p.T0! ** 4)) / (p.Thot! ** 4 - p.T0! ** 4)) / p.Cth!,
      ],
    })
  return { title: 'mains front end', elements }
}

/** Ideal switched flyback with its duty modulated by a sine, natural sampling. */
export function modulated(p: Parameters): Netlist {
  const sine = (
    name: string,
    node: string,
    offset: number,
    amplitude: number,
    phase_rad: number,
  ): Element => ({
    kind: 'voltage-source',
    name,
    a: node,
    b: '0',
    waveform: { kind: 'sine', offset, amplitude, frequency_Hz: p.fm!, phase_rad },
  })
  return {
    title: 'modulated flyback',
    elements: [
      { kind: 'voltage-source', name: 'Vin', a: 'in', b: '0', waveform: { kind: 'dc', value: p.Vin! } },
      { kind: 'resistor', name: 'Rpri', a: 'in', b: 'p2', resistance_ohm: p.Rpri! },
      { kind: 'inductor', name: 'Lm', a: 'p2', b: 'd', inductance_H: p.Lm!, initial_A: 1.6 },
      {
        kind: 'ideal-transformer',
        name: 'T',
        windings: [
          { a: 'd', b: 'p2', turns: p.n! },
          { a: 's1', b: '0', turns: 1 },
        ],
      },
      { kind: 'resistor', name: 'Rsec', a: 's1', b: 's3', resistance_ohm: p.Rsec! },
      { kind: 'diode', name: 'Dsec', a: 's3', b: 'out', drop_V: p.sec_diode_vf!, slope_ohm: p.sec_diode_rd! },
      { kind: 'capacitor', name: 'Cout', a: 'out', b: 'oc', capacitance_F: p.Cout!, initial_V: 12 },
      { kind: 'resistor', name: 'Resr', a: 'oc', b: '0', resistance_ohm: p.Resr! },
      load(p.Rload!),
      { kind: 'switch', name: 'S1', a: 'd', b: '0', on_ohm: p.switch_ron!, off_ohm: p.switch_roff! },
      { kind: 'resistor', name: 'Rdm', a: 's1', b: '0', resistance_ohm: 1e5 },
      sine('Vmod', 'mod', p.D!, p.Am!, 0),
      sine('Vsin', 'sin', 0, 1, 0),
      sine('Vcos', 'cos', 0, 1, Math.PI / 2),
    ],
    controllers: [
      naturalPwm({ name: 'pwm', drives: 'S1', period_s: 1 / p.fs!, duty: voltage('mod'), most: 0.9 }),
    ],
  }
}

export const mainsProbes = {
  vb: difference(voltage('bp'), voltage('bn')),
  iac: current('Rs'),
  pin: { product: [voltage('ac0'), current('Rs')] as const },
  plamp: { product: [difference(voltage('la'), voltage('ac3')), current('Rs')] as const },
}
