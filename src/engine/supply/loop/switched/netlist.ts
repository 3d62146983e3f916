import type { Netlist } from '../../../circuit/index.ts'
import { feedbackElements } from './feedback.ts'
import type { SwitchedLoop } from './loop.ts'
import { dutyControl, peakControl, type Tone } from './modulator.ts'
import { loadElements, powerElements } from './power.ts'

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
