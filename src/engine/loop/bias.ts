import { requireBetween } from '../quantity/require.ts'
import { ledCurrentFor, type RatedRatio } from './transfer-ratio.ts'

export interface BiasQuestion {
  readonly output_V: number
  readonly referenceVoltage_V: number
  /** Least cathode voltage at which the reference still regulates, and least cathode current. */
  readonly cathodeMinimum_V: number
  readonly cathodeMinimum_A: number
  readonly cathodeMaximum_A: number
  readonly ledDrop_V: number
  readonly ledMaximum_A: number
  /** Least and greatest transfer ratio that the optocoupler comes to with spread, heat and age. */
  readonly weakest: RatedRatio
  readonly strongest: RatedRatio
  /** Control-pin current at zero and at full power, whichever order they come in. */
  readonly pinZeroPower_A: number
  readonly pinFullPower_A: number
  readonly ledResistor_ohm: number
  readonly biasResistor_ohm: number
}

export interface BiasAnswer {
  /** Largest LED resistor that still turns the chip fully down with the least transfer ratio. */
  readonly ledResistorMaximum_ohm: number
  /** Smallest LED resistor that keeps LED and reference inside their current ratings with the cathode pulled down. */
  readonly ledResistorMinimum_ohm: number
  /** Largest bias resistor that still feeds the cathode its minimum with the LED nearly dark; null: LED alone does. */
  readonly biasResistorMaximum_ohm: number | null
  /** Voltage left for the LED resistor at the least cathode voltage. */
  readonly headroom_V: number
  readonly ledMost_A: number
  readonly ledLeast_A: number
  readonly cathodeLeast_A: number
  readonly warnings: readonly string[]
}

/**
 * Currents of the reference and the optocoupler's LED.
 *
 * LED current asked: pin current over transfer ratio there. Greatest at the larger pin current and the least ratio:
 * Rled <= (Vo - Vled - Vk,min)/(I + Vled/Rb). Least at the smaller pin current and the largest ratio; the bias resistor
 * across the LED adds Vled/Rb, so Rb <= Vled/(Ik,min - Iled,least). Derived from the circuit; figures of the parts are
 * their makers'.
 */
export function answerBias(q: BiasQuestion): BiasAnswer {
  requireBetween('output_V', q.output_V, 0.1, 1000, 'V')
  requireBetween('weakest.ratio', q.weakest.ratio, 1e-4, 100)
  requireBetween('ledResistor_ohm', q.ledResistor_ohm, 0.001, 1e9, 'ohm')
  const cathode_V = Math.max(q.cathodeMinimum_V, q.referenceVoltage_V)
  const headroom_V = q.output_V - q.ledDrop_V - cathode_V
  const pinMost = Math.max(q.pinZeroPower_A, q.pinFullPower_A)
  const pinLeast = Math.min(q.pinZeroPower_A, q.pinFullPower_A)
  const ledMost_A = ledCurrentFor(q.weakest, pinMost)
  const ledLeast_A = ledCurrentFor(q.strongest, pinLeast)
  const bias_A = q.ledDrop_V / q.biasResistor_ohm
  const cathodeLeast_A = ledLeast_A + bias_A
  const shortfall = q.cathodeMinimum_A - ledLeast_A
  const strongest = Math.min(q.ledMaximum_A, q.cathodeMaximum_A)
  const ledResistorMaximum_ohm = Math.max(0, headroom_V / (ledMost_A + bias_A))
  const warnings: string[] = []
  if (headroom_V < 1)
    warnings.push(
      `only ${headroom_V.toFixed(2)} V of headroom is left for the LED resistor at ${q.output_V} V: use a lower reference or a separate rail`,
    )
  if (q.ledResistor_ohm > ledResistorMaximum_ohm)
    warnings.push(
      `LED resistor ${q.ledResistor_ohm} ohm is above ${ledResistorMaximum_ohm.toFixed(0)} ohm: a weak or aged optocoupler cannot turn the chip down, the output rises at no load`,
    )
  if (shortfall > 0 && cathodeLeast_A < q.cathodeMinimum_A)
    warnings.push(
      `the reference gets ${(cathodeLeast_A * 1e3).toFixed(2)} mA, below its ${(q.cathodeMinimum_A * 1e3).toFixed(2)} mA: gain is lost and the output creeps with load`,
    )
  return {
    ledResistorMaximum_ohm,
    ledResistorMinimum_ohm: Math.max(0, headroom_V / strongest),
    biasResistorMaximum_ohm: shortfall > 0 ? q.ledDrop_V / shortfall : null,
    headroom_V,
    ledMost_A,
    ledLeast_A,
    cathodeLeast_A,
    warnings,
  }
}

export interface BackFeed {
  /** Output voltage, fed from a bench supply with the mains off, below which the LED is surely dark, above which lit. */
  readonly dark_V: number
  readonly lit_V: number
  /** LED current with the cathode pulled fully down just above the set voltage. */
  readonly lit_A: number
}

/**
 * Back-feed test of the reference and LED: the divider decides at `set_V`; one per cent either way is far beyond the
 * reference's linear range at DC (1 % of the set voltage times its gain exceeds any cathode swing).
 */
export function backFeed(q: BiasQuestion, set_V: number): BackFeed {
  const headroom_V = Math.max(0, 1.01 * set_V - q.ledDrop_V - Math.max(q.cathodeMinimum_V, 0))
  return {
    dark_V: 0.99 * set_V,
    lit_V: 1.01 * set_V,
    lit_A: Math.max(0, headroom_V / q.ledResistor_ohm - q.ledDrop_V / q.biasResistor_ohm),
  }
}
