export type { BuildResult, Circuit } from './circuit.ts'
export { buildCircuit } from './circuit.ts'
export type { Controller, ControllerIo, Memory } from './controller.ts'
export type { LinearForm, Quantity } from './form.ts'
export { constant, current, difference, scaled, sum, voltage } from './form.ts'
export type {
  Avalanche,
  Capacitor,
  ControlledSource,
  CoupledInductors,
  CurrentSource,
  Diode,
  Element,
  IdealTransformer,
  Inductor,
  Netlist,
  Resistor,
  SaturatingInductor,
  SlowElement,
  SlowLaw,
  SlowMeans,
  SlowSpice,
  Switch,
  VoltageSource,
  Waveform,
} from './netlist.ts'
export type { NetlistProblem, RunFailure, RunFailureCode } from './problem.ts'
export { fixedDuty, naturalPwm, peakCurrent } from './pwm.ts'
export type {
  CircuitState,
  ControllerState,
  CycleColumns,
  EnergyAudit,
  Probe,
  RunLimits,
  Statistics,
  SteadyFailure,
  SteadyOptions,
  SteadyResult,
  SteadyRun,
  TransientOptions,
  TransientResult,
  TransientRun,
  Waveforms,
} from './run.ts'
export type { SpiceDeck, SpiceOptions } from './spice.ts'
export { spiceDeck } from './spice.ts'
export { steadyState } from './steady.ts'
export { transient } from './transient.ts'
