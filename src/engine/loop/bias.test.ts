import { describe, expect, it } from 'vitest'
import { answerBias, type BiasQuestion, backFeed } from './bias.ts'

const question: BiasQuestion = {
  output_V: 12,
  referenceVoltage_V: 2.5,
  cathodeMinimum_V: 2.5,
  cathodeMinimum_A: 1e-3,
  cathodeMaximum_A: 0.1,
  ledDrop_V: 1.2,
  ledMaximum_A: 0.05,
  // Rated at less current than is asked for, so that the ratio is the same at every current.
  weakest: { ratio: 0.8 * 0.7, test_A: 1e-6 },
  strongest: { ratio: 1.6, test_A: 1e-6 },
  pinZeroPower_A: 6e-3,
  pinFullPower_A: 2e-3,
  ledResistor_ohm: 470,
  biasResistor_ohm: 1000,
}

describe('bias of reference and LED', () => {
  it('brackets the LED resistor by the circuit (Kirchhoff)', () => {
    const a = answerBias(question)
    const led = 6e-3 / (0.8 * 0.7)
    expect(a.ledMost_A).toBeCloseTo(led, 12)
    expect(a.ledResistorMaximum_ohm).toBeCloseTo((12 - 1.2 - 2.5) / (led + 1.2e-3), 9)
    expect(a.ledResistorMinimum_ohm).toBeCloseTo(8.3 / 0.05, 9)
    expect(a.ledLeast_A).toBeCloseTo(2e-3 / 1.6, 12)
    expect(a.biasResistorMaximum_ohm).toBeNull()
    expect(a.warnings).toHaveLength(0)
  })

  it('asks for a bias resistor when the LED alone starves the reference', () => {
    const a = answerBias({
      ...question,
      pinZeroPower_A: 0.4e-3,
      pinFullPower_A: 0.02e-3,
      biasResistor_ohm: 1e9,
    })
    expect(a.biasResistorMaximum_ohm).toBeCloseTo(1.2 / (1e-3 - 0.02e-3 / 1.6), 6)
    expect(a.warnings.join()).toMatch(/0\.01 mA, below its 1\.00 mA/)
  })

  it('warns of headroom at 3.3 V with a 2.5 V reference', () => {
    expect(answerBias({ ...question, output_V: 3.3 }).warnings.join()).toMatch(/headroom/)
    expect(answerBias({ ...question, output_V: 3.3 }).headroom_V).toBeCloseTo(-0.4, 9)
  })

  it('warns of an LED resistor that is too large', () => {
    expect(answerBias({ ...question, ledResistor_ohm: 2200 }).warnings.join()).toMatch(/above/)
  })

  it('predicts the back-feed test at one per cent either side of the set voltage', () => {
    const b = backFeed(question, 12)
    expect(b.dark_V).toBeCloseTo(11.88, 9)
    expect(b.lit_V).toBeCloseTo(12.12, 9)
    expect(b.lit_A).toBeCloseTo((12.12 - 1.2 - 2.5) / 470 - 1.2e-3, 9)
  })
})
