/** What is wrong with a netlist: one entry a fault, naming elements, nodes, the value and the limit. */
export interface NetlistProblem {
  readonly code:
    | 'bad-value'
    | 'duplicate-name'
    | 'unknown-name'
    | 'floating-node'
    | 'voltage-loop'
    | 'current-cutset'
    | 'coupling'
    | 'singular'
  readonly message: string
  readonly elements: readonly string[]
  readonly nodes: readonly string[]
}

/** Why a run stopped short of its end. */
export type RunFailureCode =
  | 'cancelled'
  | 'event-budget'
  | 'step-budget'
  | 'chattering'
  | 'no-consistent-state'
  | 'singular'
  | 'diverged'
  | 'bad-option'

export interface RunFailure {
  readonly ok: false
  readonly code: RunFailureCode
  readonly message: string
  /** Simulated time reached, s. */
  readonly time_s: number
}
