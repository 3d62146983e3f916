import type { RunFailure, RunFailureCode } from './problem.ts'

/** Thrown inside a run, returned as a failure by whatever was asked to run. */
export class RunStop extends Error {
  readonly code: RunFailureCode
  constructor(code: RunFailureCode, message: string) {
    super(message)
    this.code = code
  }
}

/** A stop as a result; any other error is thrown on. */
export function asFailure(error: unknown, time_s: number): RunFailure {
  if (error instanceof RunStop) return { ok: false, code: error.code, message: error.message, time_s }
  throw error
}
