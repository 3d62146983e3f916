import type { ExcessLoss } from '../../converter/harmonics.ts'

/** Everything between bulk and load that burns power in one cycle, and the currents that make it do so. */
export interface StageLosses {
  readonly share: number
  readonly primary_Arms: number
  /** Share of the period for which the rectifier conducts, with losses on the way taken off. */
  readonly secondaryDuty: number
  readonly secondaryPeak_A: number
  readonly secondaryValley_A: number
  readonly secondary_Arms: number
  readonly onResistance_ohm: number
  readonly switchConduction_W: number
  readonly switchTransition_W: number
  readonly switchCapacitive_W: number
  readonly control_W: number
  readonly swing_Tpp: number
  /** Core loss while pulses come; times `share` it is the core loss. */
  readonly corePulse_W: number
  readonly core_W: number
  readonly primaryCopper_W: number
  /** Skin and proximity part in one cycle; times `share` it is in the copper losses. */
  readonly excess: ExcessLoss
  readonly secondaryCopper_W: number
  readonly biasCopper_W: number
  /** Part of the peak current that the leakage brings to the clamp. */
  readonly handedShare: number
  readonly clamp_V: number
  readonly leakageEnergy_W: number
  readonly clamp_W: number
  readonly clampDiode_W: number
  readonly rectifierReverse_V: number
  readonly rectifierConduction_W: number
  readonly rectifierSwitching_W: number
  readonly snubber_W: number
  readonly outputRipple_Arms: number
  readonly outputCapacitor_W: number
  readonly firstRipple_Vpp: number
  readonly chokeInductance_H: number
  readonly chokeRipple_App: number
  readonly choke_W: number
  readonly secondCapacitor_W: number
  readonly bulkSwitching_Arms: number
  readonly bulkSwitching_W: number
  readonly biasDiode_W: number
  readonly total_W: number
}

/** Losses that are written over from step to step. */
export type LossRecord = { -readonly [K in keyof StageLosses]: StageLosses[K] }

export const newLosses = (): LossRecord => ({
  share: 0,
  primary_Arms: 0,
  secondaryDuty: 0,
  secondaryPeak_A: 0,
  secondaryValley_A: 0,
  secondary_Arms: 0,
  onResistance_ohm: 0,
  switchConduction_W: 0,
  switchTransition_W: 0,
  switchCapacitive_W: 0,
  control_W: 0,
  swing_Tpp: 0,
  corePulse_W: 0,
  core_W: 0,
  primaryCopper_W: 0,
  excess: { primary_W: 0, secondary_W: 0 },
  secondaryCopper_W: 0,
  biasCopper_W: 0,
  handedShare: 1,
  clamp_V: 0,
  leakageEnergy_W: 0,
  clamp_W: 0,
  clampDiode_W: 0,
  rectifierReverse_V: 0,
  rectifierConduction_W: 0,
  rectifierSwitching_W: 0,
  snubber_W: 0,
  outputRipple_Arms: 0,
  outputCapacitor_W: 0,
  firstRipple_Vpp: 0,
  chokeInductance_H: 0,
  chokeRipple_App: 0,
  choke_W: 0,
  secondCapacitor_W: 0,
  bulkSwitching_Arms: 0,
  bulkSwitching_W: 0,
  biasDiode_W: 0,
  total_W: 0,
})
