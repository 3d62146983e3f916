import { current, difference, type LinearForm, type Probe, voltage } from '../circuit/index.ts'
import type { StageParameters } from './parameters.ts'
import { firstNode, outputNode } from './power-stage.ts'

/** Where a probe or a current clamp goes, by name: voltages and winding currents of the stage. */
export function stageForms(p: StageParameters): Record<StageTrace, LinearForm> {
  return {
    drain_V: voltage('d'),
    primary_A: current('Rpri'),
    secondary_A: current('Rsec'),
    clamp_V: difference(voltage('c2'), voltage('bus')),
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
    bias_A: current('Dbias'),
    switch_W: { product: [voltage('d'), current('S1')] },
    rectifier_W: { product: [drop, current('Dsec')] },
    primaryCopper_W: { product: [difference(voltage('bus'), voltage('p1')), current('Rpri')] },
    core_W: { product: [difference(voltage('p2'), voltage('d')), current('Rcore')] },
    clamp_W:
      p.clamp.style === 'avalanche'
        ? { product: [difference(voltage('bus'), voltage('c2')), current('Dtvs')] }
        : { product: [difference(voltage('c2'), voltage('bus')), current('Rcl')] },
    clampDiode_W: { product: [difference(voltage('d'), voltage('c2')), current('Dcl')] },
    ...(p.choke ? { choke_A: current('Lchoke') } : {}),
  }
}
