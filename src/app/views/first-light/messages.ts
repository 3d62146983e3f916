import type { FaultTable, Plan, TableLamp, ThermometerSpot } from '../../../engine/bench/index.ts'
import type { Lamp, Switcher } from '../../../engine/parts/part.ts'
import type { Supply } from '../../../engine/supply/supply.ts'

/** What the plan is made of; the bench log is not among it, so that readings do not make it anew. */
export interface PlanRequest {
  readonly id: number
  readonly ask: 'plan'
  readonly supply: Supply
  readonly owned: readonly string[]
  readonly lamps: readonly Lamp[]
  readonly smaller: Switcher | null
}

export interface TableRequest {
  readonly id: number
  readonly ask: 'table'
  /** As planned, nothing measured: faults are departures from the plan. */
  readonly supply: Supply
  readonly lamp: TableLamp
}

/** How a unit may behave behind the lamp. */
export const lampCases = ['healthy', 'restarts', 'shorted'] as const
export type LampCase = (typeof lampCases)[number]

/** Behind the lamp in time: equally spaced columns. */
export interface LampTrace {
  readonly time_s: Float64Array
  readonly bulk_V: Float64Array
  readonly filament_K: Float64Array
}

/** Temperatures after a cold start at full load. */
export interface WarmCurves {
  readonly time_s: Float64Array
  readonly curves: Readonly<Record<ThermometerSpot, Float64Array>>
  readonly settle_s: number
}

export interface PlanAnswer {
  readonly plan: Plan
  readonly traces: Readonly<Partial<Record<LampCase, LampTrace>>>
  readonly warm: WarmCurves | null
}

export type BenchReply =
  | { readonly id: number; readonly is: 'plan'; readonly answer: PlanAnswer }
  | { readonly id: number; readonly is: 'progress'; readonly done: number; readonly of: number }
  | { readonly id: number; readonly is: 'table'; readonly table: FaultTable }
  | { readonly id: number; readonly is: 'failed'; readonly message: string }
