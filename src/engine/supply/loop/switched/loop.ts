import { type LinearForm, voltage } from '../../../circuit/index.ts'
import type { FeedbackPath, FlybackStage, Modulator, OperatingPoint } from '../../../loop/index.ts'

/** A closed loop to be switched: power stage, modulator, feedback path, and where it rests. */
export interface SwitchedLoop {
  readonly stage: FlybackStage
  readonly modulator: Modulator
  readonly path: FeedbackPath
  readonly point: OperatingPoint
  /** Greatest duty, and with peak-current control the greatest peak of the primary current. */
  readonly mostDuty: number
  readonly mostPeak_A: number
  /** Extra current that the load draws over time, in straight lines; none when left out. */
  readonly loadStep?: readonly (readonly [time_s: number, current_A: number])[]
  /** Bulk voltage over time; the stage's when left out. */
  readonly bulkSteps?: readonly (readonly [time_s: number, voltage_V: number])[]
}

/** What feedback takes away from duty or peak current, against its rest value. */
export function takenAway({ path }: SwitchedLoop): LinearForm {
  return { terms: voltage('chip').terms.map((t) => ({ ...t, gain: path.controlGain })), offset: 0 }
}

/** Voltage at the load. */
export const loadVoltage = ({ stage }: SwitchedLoop): LinearForm =>
  voltage(stage.filter.second === null ? 'first' : 'load')
