import { constant, current, difference, type LinearForm, type Probe, sum, voltage } from '../circuit/index.ts'
import type { StageParameters } from './parameters.ts'
import { firstNode, outputNode } from './power-stage.ts'

/** Voltage of the clamp above the bulk: of its capacitor, or of the drain less the steering diode's drop. */
export const clampVoltage = (p: StageParameters): LinearForm =>
  p.clamp.style === 'avalanche'
    ? sum(difference(voltage('d'), voltage('bus')), constant(-p.clampDiode.drop_V))
    : difference(voltage('c2'), voltage('bus'))

/** Where a probe or a current clamp goes, by name: voltages and winding currents of the stage. */
export function stageForms(p: StageParameters): Record<StageTrace, LinearForm> {
  return {
    drain_V: voltage('d'),
    primary_A: current('Rpri'),
    secondary_A: current('Rsec'),
    clamp_V: clampVoltage(p),
    reverse_V: difference(voltage('out'), voltage('s3')),
    first_V: voltage(firstNode(p)),
    output_V: voltage(outputNode(p)),
    bias_V: voltage('bias'),
    magnetising_A: current('Lm'),
  }
}

export const stageTraces = [
  'drain_V',
  'primary_A',
  'secondary_A',
  'clamp_V',
  'reverse_V',
  'first_V',
  'output_V',
  'bias_V',
  'magnetising_A',
] as const
export type StageTrace = (typeof stageTraces)[number]

/** Current into whatever hangs on the output: what the rectifier or the choke brings less what the capacitor takes. */
const loadCurrent = (p: StageParameters): LinearForm =>
  p.choke ? difference(current('Rchoke'), current('Rsecond')) : difference(current('Rsec'), current('Rout'))

/** Everything that the figures of a cycle are read from. */
export function stageProbes(p: StageParameters): Record<string, Probe> {
  const drop = difference(voltage('s3'), voltage('out'))
  return {
    ...stageForms(p),
    input_A: current('Vin'),
    load_A: loadCurrent(p),
    outputCapacitor_A: current('Rout'),
    switch_W: { product: [voltage('d'), current('S1')] },
    rectifier_W: { product: [drop, current('Dsec')] },
    core_W: { product: [difference(voltage('p2'), voltage('d')), current('Rcore')] },
    clamp_W: {
      product: [clampVoltage(p), p.clamp.style === 'avalanche' ? current('Dcl') : current('Rcl')],
    },
    clampDiode_W: {
      product:
        p.clamp.style === 'avalanche'
          ? [constant(p.clampDiode.drop_V), current('Dcl')]
          : [difference(voltage('d'), voltage('c2')), current('Dcl')],
    },
    ...(p.choke ? { choke_A: current('Lchoke') } : {}),
  }
}
