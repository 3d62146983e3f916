/**
 * What a fault makes of one reading: a number with how far it may lie off (as a part of itself, one standard
 * deviation), or how likely each answer is.
 */
export type Trace =
  | { readonly kind: 'number'; readonly value: number; readonly spread: number }
  | { readonly kind: 'state'; readonly chances: Readonly<Record<string, number>> }

/** Readings by check id; a check that cannot be reached with a fault is left out. */
export type Signature = Readonly<Record<string, Trace>>

/** One fault as it shows on this very supply. */
export interface FaultRow {
  readonly id: string
  readonly title: string
  /** `simulated`: all from the engine's models of the changed supply; `mixed`; `knowledge`: experience of the trade. */
  readonly basis: 'simulated' | 'mixed' | 'knowledge'
  /** Checks whose readings are experience of the trade and not computed. */
  readonly fromKnowledge: readonly string[]
  /** How often it is met against the others, before anything is read. */
  readonly weight: number
  readonly signature: Signature
  /** What tells it from its look-alikes. */
  readonly telling: string
  readonly remedy: string
  /** What it endangers while power is on; empty where nothing. */
  readonly danger: string
}

export interface FaultTable {
  /** Row 0 is the healthy supply. */
  readonly rows: readonly FaultRow[]
  /** Fingerprint of the inputs, for caching. */
  readonly key: string
}

/** A reading handed to the fault finder: a number in SI units, or the id of an answer. */
export interface Symptom {
  readonly check: string
  readonly value: number | string
}
