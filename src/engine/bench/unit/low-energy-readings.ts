import { ratioAt } from '../../loop/index.ts'
import { dividedOutput_V } from '../../supply/resolve/feedback.ts'
import type { Readings } from './readings.ts'
import type { Unit } from './unit.ts'

/** Current limit that the bench supply is set to for back-feeding the output. */
export const feedLimit_A = 0.1
/** Most that the output is raised above its set point while back-fed, as a part of it. */
const sweepTop = 1.35
const dark_ohm = 5e7

/** Output voltage that the divider sets as this unit is built; null where the divider is open or reads nothing. */
export function setPoint_V(unit: Unit): number | null {
  const { design: d, parts } = unit
  if (parts.dividerTop === 'open') return null
  const trimmer_ohm = (d.parts.trimmer?.resistance_ohm ?? 0) / 2
  const bottom_ohm = parts.dividerBottom === 'open' ? 1e9 : d.feedback.dividerBottom_ohm + trimmer_ohm
  return dividedOutput_V(
    d.parts.reference.voltage_V.typical,
    d.feedback.dividerTop_ohm,
    bottom_ohm,
    d.parts.reference.inputCurrent_A,
  )
}

/** Whether the path from output to control pin is broken, stuck pulling, or works. */
export function feedbackPath(unit: Unit): 'works' | 'open' | 'stuck' {
  const { parts } = unit
  if (parts.transistor === 'short' || parts.reference === 'short') return 'stuck'
  const broken = [parts.led, parts.transistor, parts.reference, parts.dividerTop].some(
    (state) => state === 'open' || state === 'reversed',
  )
  return broken ? 'open' : 'works'
}

/**
 * What a bench supply at the output shows with the mains off: at which voltage the LED comes on, its current, and what
 * the optocoupler's transistor does. LED current with the cathode pulled down: (V - Vled - Vk)/Rled - Vled/Rbias.
 */
export function lowEnergyReadings(unit: Unit, planned_V: number): Readings {
  const { design: d, parts: state } = unit
  const { optocoupler, reference } = d.parts
  const set_V = setPoint_V(unit)
  const ledGood = state.led === 'good'
  const leaks = state.rectifier === 'short' || state.rectifier === 'reversed'
  const shorted = state.outputCapacitor === 'short'
  const indicator_A =
    d.parts.indicator && d.indicatorResistor_ohm > 0
      ? Math.max(0, 0.9 * planned_V - d.parts.indicator.drop_V) / d.indicatorResistor_ohm
      : 0
  const idle_A = (0.9 * planned_V) / (d.feedback.dividerTop_ohm + d.feedback.dividerBottom_ohm) + indicator_A
  const ledAt = (output_V: number): number => {
    const stuck = state.reference === 'short'
    const pulled = state.reference === 'good' && set_V !== null && output_V >= set_V
    if (!ledGood || !(stuck || pulled)) return 0
    const cathode_V = stuck ? 0.1 : reference.minimumCathode_V
    const through_A = (output_V - optocoupler.ledDrop_V - cathode_V) / d.feedback.ledResistor_ohm
    return Math.max(0, through_A - optocoupler.ledDrop_V / d.feedback.biasResistor_ohm)
  }
  const rated = { ratio: unit.transferRatio, test_A: optocoupler.testCurrent_A }
  const transistor = (led_A: number): number => {
    if (state.transistor === 'short') return 1
    if (state.transistor !== 'good') return dark_ohm
    return 1 / (1 / dark_ohm + led_A * ratioAt(rated, led_A))
  }
  const lit_V = 1.03 * planned_V
  const lit_A = ledAt(lit_V)
  const fed = !leaks && !shorted
  const lights_V = state.reference === 'short' ? 0.3 * planned_V : set_V
  const lights = fed && ledGood && state.reference !== 'open' && lights_V !== null
  const resistor_V =
    lit_A > 0 ? d.feedback.ledResistor_ohm * (lit_A + optocoupler.ledDrop_V / d.feedback.biasResistor_ohm) : 0
  const starved = unit.starved ? 12 : 1
  return {
    'low.feed-current': fed ? idle_A : feedLimit_A,
    'low.lights-at': lights && lights_V <= sweepTop * planned_V ? lights_V : null,
    'low.led-lit': fed ? resistor_V : null,
    'low.opto-dark': fed ? transistor(ledAt(0.9 * planned_V)) : transistor(0),
    'low.opto-lit': fed ? transistor(lit_A) : null,
    'low.span': lights ? 0.008 * planned_V * starved : null,
    'low.transfer':
      ledGood && state.transistor === 'good' ? ratioAt(rated, lit_A > 0 ? lit_A : rated.test_A) : null,
    'low.reference-volts':
      !fed || set_V === null
        ? null
        : (reference.voltage_V.typical * planned_V) / Math.max(set_V, 0.2 * planned_V),
    'low.cathode-current': fed
      ? (unit.starved ? 0.35 : 1) *
        Math.max(reference.minimumCathode_A, optocoupler.ledDrop_V / d.feedback.biasResistor_ohm)
      : null,
  }
}
