import type { StageCycleRun } from './cycle.ts'

/** Figures of a solved cycle, SI units, named as the readings of the closed form they stand beside. */
export interface CycleFigures {
  readonly duty: number
  readonly onTime_s: number
  /** At the end of the on-time. */
  readonly primaryPeak_A: number
  /** Of the winding, with the ring at turn-on that blanking hides from the limit. */
  readonly primarySpike_A: number
  /** Magnetising current at its least: below zero in the ring of discontinuous mode. */
  readonly magnetisingValley_A: number
  readonly primary_Arms: number
  readonly secondaryPeak_A: number
  readonly secondary_Arms: number
  readonly drainPeak_V: number
  /** Above the bulk: mean of a resistor-capacitor clamp, peak of an avalanche clamp. */
  readonly clamp_V: number
  readonly clamp_W: number
  readonly clampDiode_W: number
  readonly rectifierReversePeak_V: number
  readonly rectifierConduction_W: number
  readonly outputCapacitorRipple_Arms: number
  readonly firstRipple_Vpp: number
  readonly outputRipple_Vpp: number
  /** 0 without a choke. */
  readonly chokeRipple_App: number
  readonly bias_V: number
  /** Channel of the switch: conduction, and the drain capacitance at turn-on. */
  readonly switchChannel_W: number
  readonly core_W: number
  readonly linkagePeak_Vs: number
  readonly stage_W: number
  readonly output_V: number
  readonly output_A: number
  /** Of the stage alone, from bulk to load. */
  readonly efficiency: number
}

/** Flux linkage at a magnetising current, on the curve of straight pieces, Vs. */
function linkage(
  inductance_H: number,
  knees: readonly { readonly current_A: number; readonly beyond_H: number }[],
  current_A: number,
): number {
  let linkage_Vs = 0
  let from_A = 0
  let slope_H = inductance_H
  for (const knee of knees) {
    if (current_A <= knee.current_A) break
    linkage_Vs += slope_H * (knee.current_A - from_A)
    from_A = knee.current_A
    slope_H = knee.beyond_H
  }
  return linkage_Vs + slope_H * (current_A - from_A)
}

/** Reads the figures off a solved cycle. The on-time ends where the magnetising current peaks. */
export function cycleFigures(run: StageCycleRun): CycleFigures {
  const { statistics: q, parameters: p } = run
  const s = (name: string) => q[name]!
  const swing = (name: string) => s(name).maximum - s(name).minimum
  const start_s = run.state.time_s
  const onTime_s = (s('magnetising_A').timeOfMaximum_s - start_s) % run.period_s
  const stage_W = -p.bulk_V * s('input_A').average
  const output_V = s('output_V').average
  const output_A = s('load_A').average
  return {
    duty: onTime_s * p.frequency_Hz,
    onTime_s,
    primaryPeak_A: s('magnetising_A').maximum,
    primarySpike_A: s('primary_A').maximum,
    magnetisingValley_A: s('magnetising_A').minimum,
    primary_Arms: s('primary_A').rms,
    secondaryPeak_A: s('secondary_A').maximum,
    secondary_Arms: s('secondary_A').rms,
    drainPeak_V: s('drain_V').maximum,
    clamp_V: p.clamp.style === 'avalanche' ? s('clamp_V').maximum : s('clamp_V').average,
    clamp_W: s('clamp_W').average,
    clampDiode_W: s('clampDiode_W').average,
    rectifierReversePeak_V: s('reverse_V').maximum,
    rectifierConduction_W: s('rectifier_W').average,
    outputCapacitorRipple_Arms: s('outputCapacitor_A').rms,
    firstRipple_Vpp: swing('first_V'),
    outputRipple_Vpp: p.choke ? swing('output_V') : swing('first_V'),
    chokeRipple_App: q.choke_A ? swing('choke_A') : 0,
    bias_V: s('bias_V').average,
    switchChannel_W: s('switch_W').average,
    core_W: s('core_W').average,
    linkagePeak_Vs: linkage(p.magnetising_H, p.knees, s('magnetising_A').maximum),
    stage_W,
    output_V,
    output_A,
    efficiency: stage_W > 0 ? (output_V * output_A) / stage_W : 0,
  }
}
