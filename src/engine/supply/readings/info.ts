import type { Spot } from '../refs.ts'

/** What a person needs to know about one reading. */
export interface ReadingInfo {
  readonly label: string
  /** SI unit as printed: V, A, W, H, T, s, Hz, m, °C; empty for a pure number. */
  readonly unit: string
  /** Part or end of the supply that the reading belongs to. */
  readonly spot: Spot
  readonly explain: {
    readonly what: string
    readonly why: string
    readonly equation: string
    readonly source: string
  }
}

const theory = 'circuit theory'

/** One row of the table of readings. */
export const reading = (
  spot: Spot,
  label: string,
  unit: string,
  what: string,
  why: string,
  equation: string,
  source = theory,
): ReadingInfo => ({ label, unit, spot, explain: { what, why, equation, source } })
