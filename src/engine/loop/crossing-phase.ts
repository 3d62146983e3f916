import type { FeedbackPath } from './feedback-path.ts'
import { pathAt } from './path-at.ts'
import { evaluate } from './polynomial.ts'
import type { PowerStage } from './power-stage.ts'

const mostTries = 12
/** Decades from the aim within which a crossing is looked for. */
const reach = 2.5
/** So near to a gain of 1, as a natural logarithm, the phase is that of the crossing within `nearby_deg`. */
const onCrossing = 3e-4
const nearby_deg = 0.1

/**
 * Phase margin at one crossing of a loop, or up to a tenth of a degree more; null where none is
 * found near the aim. The least over all crossings is no greater.
 */
export function crossingPhase_deg(stage: PowerStage, path: FeedbackPath, aimed_Hz: number): number | null {
  let log = Math.log(aimed_Hz)
  const start = log
  let slope = -1
  let before = 0
  let beforeLog = 0
  for (let k = 0; k < mostTries; k++) {
    gainAt(stage, path, Math.exp(log))
    const re = gain[0]!
    const im = gain[1]!
    const size = 0.5 * Math.log(re * re + im * im)
    if (Math.abs(size) < onCrossing) {
      const phase = (Math.atan2(-im, -re) * 180) / Math.PI
      return phase + nearby_deg
    }
    if (k > 0) {
      const found = (size - before) / (log - beforeLog)
      slope = found < -0.2 && found > -8 ? found : slope
    }
    before = size
    beforeLog = log
    log -= Math.max(-1, Math.min(1, size / slope))
    if (!(Math.abs(log - start) < reach * Math.LN10)) return null
  }
  return null
}

const gain = new Float64Array(2)
const sensed = new Float64Array(2)
const fed = new Float64Array(2)
const lanes = new Float64Array(4)

/** Loop gain of a corner at one frequency, into `gain`. */
function gainAt(stage: PowerStage, path: FeedbackPath, frequency_Hz: number): void {
  const { toFirst, toLoad, den } = stage
  evaluate({ num: path.senseTap === 'first' ? toFirst : toLoad, den }, frequency_Hz, sensed)
  evaluate({ num: path.ledTap === 'first' ? toFirst : toLoad, den }, frequency_Hz, fed)
  pathAt(path, frequency_Hz, lanes)
  gain[0] = lanes[0]! * sensed[0]! - lanes[1]! * sensed[1]! + lanes[2]! * fed[0]! - lanes[3]! * fed[1]!
  gain[1] = lanes[0]! * sensed[1]! + lanes[1]! * sensed[0]! + lanes[2]! * fed[1]! + lanes[3]! * fed[0]!
}
