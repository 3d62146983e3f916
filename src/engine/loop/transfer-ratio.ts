import type { Optocoupler } from '../parts/part.ts'

/**
 * Transfer ratio of a phototransistor optocoupler below the LED current at which its class is stated:
 *
 *   ratio(I) = ratio(Itest) (I / Itest)^n,  n = 1/3,  I < Itest;  ratio(Itest) above.
 *
 * The gain of the phototransistor falls with its current. Parts of 100 to 200 % at 10 mA give some 45 to 70 % at 1 mA
 * (from memory, tables of such parts: least 34 %, typical 70 %, of a class with 150 % in the middle), and 15 to 30 %
 * where a chip asks for tens of microamperes. Good to a factor of 1.5 at a hundredth of the test current.
 */
const fall = 1 / 3

/** What a ratio belongs to: its value, and the LED current at which it holds. */
export interface RatedRatio {
  readonly ratio: number
  readonly test_A: number
}

/** Transfer ratio at an LED current: transistor current over LED current. */
export const ratioAt = ({ ratio, test_A }: RatedRatio, led_A: number): number =>
  led_A >= test_A ? ratio : ratio * (Math.max(0, led_A) / test_A) ** fall

/** LED current (A) that lets the transistor pass a current (A). */
export const ledCurrentFor = ({ ratio, test_A }: RatedRatio, transistor_A: number): number => {
  const atTest_A = ratio * test_A
  if (transistor_A >= atTest_A) return transistor_A / ratio
  return test_A * (Math.max(0, transistor_A) / atTest_A) ** (1 / (1 + fall))
}

/** Rise of the transistor current over a small rise of the LED current, at an LED current: d(I ratio)/dI. */
export const incrementalRatio = (rated: RatedRatio, led_A: number): number =>
  led_A >= rated.test_A ? rated.ratio : (1 + fall) * ratioAt(rated, led_A)

/** Transfer ratio of an optocoupler at 0 and at 80 °C over that at 25 °C; typical, no source. */
export const ratioWithHeat = { cold: 1.1, middle: 1, hot: 0.75 } as const

/** Least ratio that an optocoupler comes to: weak, hot and at the end of its life. */
export const weakestRatio = ({ transferRatio, ageing, testCurrent_A }: Optocoupler): RatedRatio => ({
  ratio: transferRatio.minimum * ratioWithHeat.hot * ageing,
  test_A: testCurrent_A,
})

export const typicalRatio = ({ transferRatio, testCurrent_A }: Optocoupler): RatedRatio => ({
  ratio: transferRatio.typical,
  test_A: testCurrent_A,
})

/** Greatest ratio of an optocoupler: strong, cold and new. */
export const strongestRatio = ({ transferRatio, testCurrent_A }: Optocoupler): RatedRatio => ({
  ratio: transferRatio.maximum * ratioWithHeat.cold,
  test_A: testCurrent_A,
})
