import {
  answerBias,
  type BackFeed,
  type BiasAnswer,
  type BiasQuestion,
  backFeed,
  ledCurrentFor,
  ratioAt,
  strongestRatio,
  weakestRatio,
} from '../../loop/index.ts'
import type { Design } from '../design.ts'
import { dividedOutput_V, pinCurrents } from '../resolve/feedback.ts'
import { type Lean, transferRatioAt } from './lean.ts'

/** Currents of LED and reference with one optocoupler, at no power and at full power. */
export interface BiasRow {
  readonly lean: Lean
  /** At its test current, and at the LED currents of this chip, where it is less. */
  readonly transferRatio: number
  readonly ratioNoPower: number
  readonly ratioFullPower: number
  readonly ledNoPower_A: number
  readonly ledFullPower_A: number
  /** Least current through the reference, and the cathode voltage at the greatest LED current. */
  readonly cathodeLeast_A: number
  readonly cathodeLeast_V: number
  /** The cathode stays where the reference can pull, with enough current. */
  readonly holds: boolean
}

export interface BiasTable {
  readonly answer: BiasAnswer
  readonly backFeed: BackFeed
  readonly rows: readonly BiasRow[]
}

const rowLeans: readonly Lean[] = [
  { temperature: 'hot', aged: true, transferRatio: 'minimum' },
  { temperature: 'middle', aged: false, transferRatio: 'minimum' },
  { temperature: 'middle', aged: false, transferRatio: 'typical' },
  { temperature: 'cold', aged: false, transferRatio: 'maximum' },
]

/** LED and reference currents of a design over the optocoupler's spread, and what a back-feed test must show. */
export function biasOf(d: Design): BiasTable {
  const { need, parts, feedback } = d
  const { optocoupler, reference, switcher } = parts
  const pin = pinCurrents(switcher.control)
  const question: BiasQuestion = {
    output_V: need.output_V,
    referenceVoltage_V: reference.voltage_V.typical,
    cathodeMinimum_V: reference.minimumCathode_V,
    cathodeMinimum_A: reference.minimumCathode_A,
    cathodeMaximum_A: reference.maximumCathode_A,
    ledDrop_V: optocoupler.ledDrop_V,
    ledMaximum_A: optocoupler.ledMaximum_A,
    weakest: weakestRatio(optocoupler),
    strongest: strongestRatio(optocoupler),
    pinZeroPower_A: pin.zero_A,
    pinFullPower_A: pin.full_A,
    ledResistor_ohm: feedback.ledResistor_ohm,
    biasResistor_ohm: feedback.biasResistor_ohm,
  }
  const set_V = dividedOutput_V(
    reference.voltage_V.typical,
    feedback.dividerTop_ohm,
    feedback.dividerBottom_ohm + (parts.trimmer?.resistance_ohm ?? 0) / 2,
    reference.inputCurrent_A,
  )
  const bias_A = optocoupler.ledDrop_V / feedback.biasResistor_ohm
  return {
    answer: answerBias(question),
    backFeed: backFeed(question, set_V),
    rows: rowLeans.map((lean) => {
      const transferRatio = transferRatioAt(optocoupler, lean)
      const rated = { ratio: transferRatio, test_A: optocoupler.testCurrent_A }
      const ledNoPower_A = ledCurrentFor(rated, pin.zero_A)
      const ledFullPower_A = ledCurrentFor(rated, pin.full_A)
      const most_A = Math.max(ledNoPower_A, ledFullPower_A)
      const cathodeLeast_A = Math.min(ledNoPower_A, ledFullPower_A) + bias_A
      const cathodeLeast_V =
        need.output_V - optocoupler.ledDrop_V - feedback.ledResistor_ohm * (most_A + bias_A)
      return {
        lean,
        transferRatio,
        ratioNoPower: ratioAt(rated, ledNoPower_A),
        ratioFullPower: ratioAt(rated, ledFullPower_A),
        ledNoPower_A,
        ledFullPower_A,
        cathodeLeast_A,
        cathodeLeast_V,
        holds:
          cathodeLeast_A >= reference.minimumCathode_A &&
          cathodeLeast_V >= Math.max(reference.minimumCathode_V, 0),
      }
    }),
  }
}
