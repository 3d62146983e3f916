import { describe, expect, it } from 'vitest'
import { answerBias, pathPolynomials, powerStage, responseAt } from '../../../src/engine/loop/index.ts'
import { roots } from '../../../src/engine/loop/roots.ts'

const ideal = {
  turnsRatio: 1,
  frequency_Hz: 100e3,
  rectifierDrop_V: 0,
  primaryResistance_ohm: 0,
  secondaryResistance_ohm: 0,
  load: { kind: 'resistor' as const },
}

describe('buck-boost example, voltage mode, continuous (Erickson and Maksimovic 2001, sect. 8.2.2, from memory)', () => {
  // D 0.6, R 10 ohm, Vg 30 V, L 160 uH, C 160 uF.
  const s = powerStage(
    {
      ...ideal,
      bulk_V: 30,
      primaryInductance_H: 160e-6,
      output_V: 45,
      output_A: 4.5,
      filter: { capacitance_F: 160e-6, capacitorResistance_ohm: 0, second: null },
    },
    { style: 'voltage-mode' },
  )
  if (!s.ok) throw new Error(s.message)

  it('prints duty 0.6, gain 187.5 V or 45.5 dB, f0 400 Hz, Q 4, zero 2.65 kHz', () => {
    expect(s.point.duty).toBeCloseTo(0.6, 6)
    const gain = responseAt({ num: s.toLoad, den: s.den }, 0.1)
    expect(gain.magnitude).toBeCloseTo(187.5, 3)
    expect(gain.gain_dB).toBeCloseTo(45.5, 1)
    // three and two printed digits
    expect(s.features.doublePole_Hz! / 400).toBeCloseTo(1, 1)
    expect(s.features.doublePoleQ).toBeCloseTo(4, 6)
    expect(s.features.rightHalfPlaneZero_Hz / 2650).toBeCloseTo(1, 2)
  })
})

describe('buck-boost in discontinuous mode (Erickson and Maksimovic 2001, sect. 11.2 and 11.3, from memory)', () => {
  // Gd0 = V/D, low pole 2/(R C), right-half-plane zero 2 fs/D, high pole 2 M fs/D with M the voltage ratio.
  const R = 50
  const s = powerStage(
    {
      ...ideal,
      bulk_V: 100,
      primaryInductance_H: 100e-6,
      output_V: 50,
      output_A: 1,
      filter: { capacitance_F: 100e-6, capacitorResistance_ohm: 0, second: null },
    },
    { style: 'voltage-mode' },
  )
  if (!s.ok) throw new Error(s.message)

  it('has the printed gain, poles and zero', () => {
    const { point } = s
    expect(point.mode).toBe('discontinuous')
    expect(point.duty).toBeCloseTo(Math.sqrt((2 * 100e-6 * 1e5 * 50) / 100 ** 2), 9)
    expect(responseAt({ num: s.toLoad, den: s.den }, 0.01).magnitude).toBeCloseTo(50 / point.duty, 4)
    expect(s.features.rightHalfPlaneZero_Hz).toBeCloseTo((2 * 1e5) / point.duty / (2 * Math.PI), 3)
    const r = roots(s.den)
    if (!r.ok) throw new Error(r.message)
    const poles = Array.from(r.re, (x) => -1000 * x).sort((a, b) => a - b)
    // 0.2 % and 1 %: the print gives each pole of the factored form alone, without the other's pull
    expect(Math.abs(poles[0]! / (2 / (2 * Math.PI * R * 100e-6)) - 1)).toBeLessThan(0.002)
    expect(poles[1]! / ((2 * 0.5 * 1e5) / point.duty / (2 * Math.PI))).toBeCloseTo(1, 2)
  })
})

describe('48 W off-line flyback, peak-current mode, continuous (TI SLUS458 design example)', () => {
  // 75 V bulk, 12 V 4 A, turns ratio 10, 1.5 mH, 110 kHz, 0.75 ohm sense and a gain of 3, 2200 uF, 43 mohm.
  const perVolt = 1 / (0.75 * 3)
  const stage = {
    ...ideal,
    bulk_V: 75,
    turnsRatio: 10,
    primaryInductance_H: 1.5e-3,
    frequency_Hz: 110e3,
    output_V: 12,
    output_A: 4,
    rectifierDrop_V: 0.6,
    filter: { capacitance_F: 2200e-6, capacitorResistance_ohm: 0.043, second: null },
  }
  const slope_A_per_s = 44.74e3 / 0.75
  const s = powerStage(stage, { style: 'peak-current', slope_A_per_s })
  if (!s.ok) throw new Error(s.message)

  it('has -58 degrees and -19.55 dB at 1.77 kHz (read in the text)', () => {
    const r = responseAt({ num: s.toLoad, den: s.den }, 1770)
    expect(Math.abs(r.phase_deg + 58)).toBeLessThan(1)
    // 1 dB: the print multiplies factors made with two different duties (0.3 dB) and leaves out the output step that
    // the capacitor's 43 mohm makes while the rectifier conducts (0.5 dB, seen in a switched circuit)
    expect(Math.abs(r.gain_dB + 20 * Math.log10(perVolt) + 19.55)).toBeLessThan(1)
  })

  it('has zeros at 1.68 and 7.07 kHz', () => {
    expect(s.features.esrZero_Hz / 1682).toBeCloseTo(1, 3)
    expect(Math.abs(s.features.rightHalfPlaneZero_Hz / 7070 - 1)).toBeLessThan(0.02)
  })

  it('has Q 1 at half the switching frequency with the printed slope compensation of 44.74 mV/us', () => {
    // 6 %: the print uses the up-slope of 37.5 mV/us and duty 0.627, this model's duty is 0.632
    expect(Math.abs(s.features.halfFrequencyQ! - 1)).toBeLessThan(0.06)
  })

  it('without slope compensation has gain 3.082 and pole 40.4 Hz (from memory, recomputed) and is subharmonic', () => {
    const bare = powerStage(stage, { style: 'peak-current', slope_A_per_s: 0 })
    if (!bare.ok) throw new Error(bare.message)
    const r = roots(bare.den)
    if (!r.ok) throw new Error(r.message)
    // 6 %, for the same two reasons
    const gain = responseAt({ num: bare.toLoad, den: bare.den }, 0.01).magnitude * perVolt
    expect(Math.abs(gain / 3.082 - 1)).toBeLessThan(0.06)
    const low = Math.min(...Array.from(r.re, (x, k) => Math.hypot(x, r.im[k]!) * 1000))
    expect(Math.abs(low / 40.37 - 1)).toBeLessThan(0.06)
    expect(bare.features.halfFrequencyQ!).toBeLessThan(0)
    expect(Array.from(r.re).filter((x) => x > 0)).toHaveLength(2)
  })
})

describe('48 W off-line flyback of an older controller (TI SLUS270G, read in the text)', () => {
  // Right-half-plane zero 7.65 kHz (the inductance is chosen to give it), capacitor zero 6 kHz, -87 degrees at 1.9 kHz.
  const s = powerStage(
    {
      ...ideal,
      bulk_V: 75,
      turnsRatio: 10,
      primaryInductance_H: 1.44e-3,
      frequency_Hz: 110e3,
      output_V: 12,
      output_A: 4,
      rectifierDrop_V: 0.6,
      filter: {
        capacitance_F: 2200e-6,
        capacitorResistance_ohm: 1 / (2 * Math.PI * 6000 * 2200e-6),
        second: null,
      },
    },
    { style: 'peak-current', slope_A_per_s: 60e3 },
  )
  if (!s.ok) throw new Error(s.message)

  it('has -87 degrees at a crossover of a quarter of the right-half-plane zero', () => {
    expect(Math.abs(s.features.rightHalfPlaneZero_Hz / 7650 - 1)).toBeLessThan(0.02)
    expect(Math.abs(s.features.rightHalfPlaneZero_Hz / 4 - 1900)).toBeLessThan(40)
    // 2 degrees: printed to a degree, slope compensation not printed
    expect(Math.abs(responseAt({ num: s.toLoad, den: s.den }, 1900).phase_deg + 87)).toBeLessThan(2)
  })

  it('places the network zero at 190 Hz with 83.8 kohm and 10 nF, divider 9.5 k and 2.5 k at 1 mA', () => {
    const p = pathPolynomials({
      dividerTop_ohm: (12 - 2.5) / 1e-3,
      dividerBottom_ohm: 2.5 / 1e-3,
      compensationResistor_ohm: 83.8e3,
      compensationCapacitor_F: 10e-9,
      highFrequencyCapacitor_F: 0,
      ledResistor_ohm: 1000,
      biasResistor_ohm: Number.POSITIVE_INFINITY,
      softFinishCapacitor_F: 0,
      senseTap: 'first',
      ledTap: 'fixed',
      referenceGain: 1000,
      referenceGainBandwidth_Hz: 1e6,
      transferRatio: 1,
      led_A: 1e-3,
      optocouplerPole_Hz: 1e9,
      controlGain: 1,
      controlPole_Hz: 1e9,
    })
    const zero = roots(p.slow)
    if (!zero.ok) throw new Error(zero.message)
    expect(Math.abs((-zero.re[0]! * 1000) / 190 - 1)).toBeLessThan(0.01)
  })
})

describe('10 W discontinuous flyback, peak-current mode (TI SLUU087B p. 12, read)', () => {
  it('has its low pole at 2/(2 pi R C)', () => {
    const s = powerStage(
      {
        ...ideal,
        bulk_V: 48,
        turnsRatio: 3,
        primaryInductance_H: 50e-6,
        output_V: 5,
        output_A: 2,
        filter: { capacitance_F: 300e-6, capacitorResistance_ohm: 0.01, second: null },
      },
      { style: 'peak-current', slope_A_per_s: 0 },
    )
    if (!s.ok) throw new Error(s.message)
    expect(s.point.mode).toBe('discontinuous')
    const r = roots(s.den)
    if (!r.ok) throw new Error(r.message)
    const low = Math.min(...Array.from(r.re, (x) => -1000 * x))
    // 1 %: the capacitor's 10 mohm beside 2.5 ohm
    expect(Math.abs(low / (2 / (2 * Math.PI * 2.5 * 300e-6)) - 1)).toBeLessThan(0.01)
  })
})

describe('LED resistor of a shunt-reference loop (Basso, from memory, recomputed)', () => {
  // 12 V, 4.8 V over 20 kohm at the collector with 0.3 V left, transfer ratio 0.3, LED 1 V, reference 2.5 V, bias 1 mA.
  it('is at most 4.85 kohm', () => {
    const a = answerBias({
      output_V: 12,
      referenceVoltage_V: 2.5,
      cathodeMinimum_V: 2.5,
      cathodeMinimum_A: 1e-3,
      cathodeMaximum_A: 0.1,
      ledDrop_V: 1,
      ledMaximum_A: 0.05,
      // The example takes one ratio for every current: rated at less than is asked for.
      weakest: { ratio: 0.3, test_A: 1e-6 },
      strongest: { ratio: 1, test_A: 1e-6 },
      pinZeroPower_A: (4.8 - 0.3) / 20e3,
      pinFullPower_A: 10e-6,
      ledResistor_ohm: 1000,
      biasResistor_ohm: 1000,
    })
    expect(Math.abs(a.ledResistorMaximum_ohm / 4850 - 1)).toBeLessThan(0.003)
  })
})
