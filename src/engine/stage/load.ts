import type { Element } from '../circuit/index.ts'
import type { Need } from '../supply/need.ts'
import type { StageParameters } from './parameters.ts'
import { outputNode } from './power-stage.ts'

/** What hangs on the output. */
export type StageLoad =
  | { readonly kind: 'resistor'; readonly resistance_ohm: number }
  /** Constant above half a volt, as a bench load or electronics behind a linear regulator. */
  | { readonly kind: 'constant-current'; readonly current_A: number }
  /** Constant power above `knee_V`, the resistor knee²/P below: electronics behind a switching regulator. */
  | { readonly kind: 'constant-power'; readonly power_W: number; readonly knee_V: number }
  | { readonly kind: 'battery'; readonly voltage_V: number; readonly resistance_ohm: number }

/** Internal resistance of a battery and its leads, typical of a few ampere-hours; no source. */
const battery_ohm = 0.1

/** Load of a kind that takes a current at the output voltage. */
export function loadOf(kind: StageLoad['kind'], output_V: number, current_A: number): StageLoad {
  switch (kind) {
    case 'resistor':
      return { kind, resistance_ohm: output_V / Math.max(1e-6, current_A) }
    case 'constant-current':
      return { kind, current_A }
    case 'constant-power':
      return { kind, power_W: output_V * current_A, knee_V: 0.5 * output_V }
    case 'battery': {
      const resistance_ohm = Math.min(battery_ohm, (0.5 * output_V) / Math.max(1e-6, current_A))
      return { kind, voltage_V: output_V - current_A * resistance_ohm, resistance_ohm }
    }
  }
}

/** Load of the kind that a supply feeds. */
export const loadFor = (feeds: Need['feeds'], output_V: number, current_A: number): StageLoad =>
  loadOf(
    feeds === 'electronics' ? 'constant-current' : feeds === 'charging' ? 'battery' : 'resistor',
    output_V,
    current_A,
  )

const startBand_V = 0.5

/** Elements of a load between the output node, or another, and the return; `name` tells two loads apart. */
export function loadElements(
  p: StageParameters,
  load: StageLoad,
  name = 'load',
  node: string = outputNode(p),
): Element[] {
  switch (load.kind) {
    case 'resistor':
      return [{ kind: 'resistor', name: `R${name}`, a: node, b: '0', resistance_ohm: load.resistance_ohm }]
    case 'constant-current': {
      const gain = load.current_A / startBand_V
      const of = { kind: 'voltage', from: node, to: '0' } as const
      return [
        {
          kind: 'controlled-current',
          name: `G${name}`,
          a: node,
          b: '0',
          value: { terms: [{ gain, of }], offset: 0 },
          bends: [{ gain: -gain, of: { terms: [{ gain: 1, of }], offset: -startBand_V } }],
        },
      ]
    }
    case 'constant-power':
      return [
        {
          kind: 'slow',
          name: `P${name}`,
          a: node,
          b: '0',
          initial: [],
          step_s: 1e-4,
          hold: 0.1,
          // i = P/v as its tangent about the present voltage: 2 P/v - P v/v²
          law: (_own, _time, v) =>
            v <= load.knee_V
              ? { conductance_S: load.power_W / load.knee_V ** 2, current_A: 0 }
              : { conductance_S: -load.power_W / v ** 2, current_A: (2 * load.power_W) / v },
        },
      ]
    case 'battery':
      // a diode keeps an idle supply from being fed by the battery
      return [
        {
          kind: 'diode',
          name: `D${name}`,
          a: node,
          b: `${name}b`,
          drop_V: 0,
          slope_ohm: load.resistance_ohm,
        },
        {
          kind: 'voltage-source',
          name: `V${name}`,
          a: `${name}b`,
          b: '0',
          waveform: { kind: 'dc', value: load.voltage_V },
        },
      ]
  }
}
