import { describe, expect, it, test } from 'vitest'
import {
  agedCapacitance,
  answerHarmonics,
  bleedPower,
  bulkInSurge_V,
  capacitorLife,
  classDLimit,
  dischargeTime,
  emissionLimit,
  estimateEmission,
  holdUpCapacitance,
  holdUpTime,
  hotThermistor,
  inductanceNeeded,
  inrush,
  largestBleed,
  largestYCapacitance,
  lifeByTenKelvin,
  pulseHarmonic,
  readFuse,
  storedEnergy,
  surgeThroughVaristor,
  switchingRipple,
  thermistorResistance,
  touchCurrent,
  warmRestartResistance,
} from './index.ts'

const ntc = {
  cold_ohm: 10,
  hot_ohm: 0.5,
  current_A: 2,
  beta_K: 3000,
  heatCapacity_J_per_K: 0.8,
  dissipation_W_per_K: 0.012,
}

describe('hold-up and discharge', () => {
  it('turn round into each other, and 68 uF from 375 V holds 4.8 J (reference supply)', () => {
    const t = holdUpTime(68e-6, 320, 90, 29)
    expect(holdUpCapacitance(t, 320, 90, 29)).toBeCloseTo(68e-6, 12)
    expect(storedEnergy(68e-6, 375)).toBeCloseTo(4.78, 2)
    expect(holdUpTime(68e-6, 80, 90, 29)).toBe(0)
  })

  it('takes 14 s at 100 kohm and 137 s at 1 Mohm from 375 to 50 V (reference supply; whole seconds printed)', () => {
    expect(Math.abs(dischargeTime(68e-6, 100e3, 375, 50) - 14)).toBeLessThan(0.5)
    expect(Math.abs(dischargeTime(68e-6, 1e6, 375, 50) - 137)).toBeLessThan(0.5)
    expect(bleedPower(375, 100e3)).toBeCloseTo(1.4, 1)
  })

  it('sizes an X bleed that is just in time', () => {
    const r = largestBleed(220e-9, 375, 60, 2)
    expect(dischargeTime(220e-9, r, 375, 60)).toBeCloseTo(2, 9)
  })
})

describe('touch current', () => {
  // 1, 2.2, 4.7 nF at 254 V 50 Hz: 0.08, 0.18, 0.38 mA (reference supply; two digits printed).
  it.each([
    [1, 0.08],
    [2.2, 0.18],
    [4.7, 0.38],
  ])('of %d nF is %d mA', (nF, mA) => {
    expect(Math.abs(touchCurrent(nF * 1e-9, 254, 50) * 1e3 - mA)).toBeLessThan(0.006)
  })

  it('turns round', () => {
    expect(touchCurrent(largestYCapacitance(0.25e-3, 254, 50), 254, 50)).toBeCloseTo(0.25e-3, 12)
  })
})

describe('capacitor life', () => {
  // 1000 h at 105 C lives 64000, 32000, 16000 h at 45, 55, 65 C (Cosel technical Q&A).
  it.each([
    [45, 64000],
    [55, 32000],
    [65, 16000],
  ])('at %d C is %d h', (t, h) => {
    expect(lifeByTenKelvin(1000, 105, t)).toBeCloseTo(h, 6)
  })

  it('counts ripple heating: full ripple at the rated temperature lives the rated life', () => {
    const part = { life_h: 2000, temperature_C: 105 }
    const load = { line_Arms: 0.3, switching_Arms: 0.8, ratedLine_Arms: 0.5, ratedSwitching_Arms: 1 }
    const l = capacitorLife(part, load, 105)
    expect(l.rippleUse).toBeCloseTo(1, 12)
    expect(l.life_h).toBeCloseTo(2000, 9)
    expect(capacitorLife(part, { ...load, switching_Arms: 0 }, 105).life_h).toBeGreaterThan(2000)
    expect(agedCapacitance(100e-6)).toBeCloseTo(80e-6, 12)
    expect(switchingRipple(0.45, 0.3)).toBeCloseTo(Math.sqrt(0.45 ** 2 - 0.09), 12)
  })
})

describe('inrush', () => {
  const circuit = { crest_V: 323, capacitance_F: 68e-6, fixedResistance_ohm: 2, thermistor_C: 25 }
  it('into a fixed resistor has peak V/R, energy C V^2/2 and integral C V^2/(2 R)', () => {
    const r = inrush({ ...circuit, thermistor: null })
    expect(r.peak_A).toBeCloseTo(161.5, 9)
    expect(r.energy_J).toBeCloseTo(0.5 * 68e-6 * 323 ** 2, 12)
    expect(r.squareIntegral_A2s).toBeCloseTo(r.energy_J / 2, 12)
  })

  it('with a thermistor balances energy: heat in the thermistor is capacity times rise', () => {
    const r = inrush({ ...circuit, thermistor: ntc })
    expect(r.peak_A).toBeCloseTo(323 / 12, 9)
    const heat = r.energy_J - 2 * r.squareIntegral_A2s
    expect(ntc.heatCapacity_J_per_K * (r.thermistor_C - 25)).toBeCloseTo(heat, 3)
    expect(r.squareIntegral_A2s).toBeGreaterThan(r.energy_J / 12)
  })
})

describe('thermistor', () => {
  it('obeys the B relation and balances its heat', () => {
    expect(thermistorResistance(ntc, 25)).toBeCloseTo(10, 9)
    expect(thermistorResistance(ntc, 100)).toBeCloseTo(10 * Math.exp(3000 * (1 / 373.15 - 1 / 298.15)), 9)
    const hot = hotThermistor(ntc, 1, 40)
    expect(hot.power_W).toBeCloseTo(ntc.dissipation_W_per_K * (hot.temperature_C - 40), 6)
  })

  it('cools with its time constant', () => {
    const tau = 0.8 / 0.012
    expect(warmRestartResistance(ntc, 125, 25, tau)).toBeCloseTo(
      thermistorResistance(ntc, 25 + 100 / Math.E),
      9,
    )
    expect(warmRestartResistance(ntc, 125, 25, 1e5)).toBeCloseTo(10, 6)
  })
})

describe('fuse', () => {
  it('uses its current, melting integral and breaking capacity', () => {
    const part = { rated_A: 2, speed: 'slow' as const, meltingIntegral_A2s: 10, breaking_A: 35 }
    const r = readFuse(part, { current_Arms: 0.75, inrush_A2s: 1.5, prospective_A: 70, ambient_C: 25 })
    expect(r).toEqual({ currentUse: 0.5, pulseUse: 0.5, breakingUse: 2 })
    const hot = readFuse(part, { current_Arms: 0.75, inrush_A2s: 1.5, prospective_A: 70, ambient_C: 75 })
    expect(hot.currentUse).toBeCloseTo(0.5 / 0.9, 12)
  })
})

describe('harmonics', () => {
  it('has the class D limits of IEC 61000-3-2, never above class A (from memory)', () => {
    for (const [n, mA] of [
      [3, 3.4],
      [5, 1.9],
      [7, 1.0],
      [9, 0.5],
      [11, 0.35],
      [13, 3.85 / 13],
      [39, 3.85 / 39],
    ] as const)
      expect(classDLimit(n, 100)).toBeCloseTo(mA * 0.1, 9)
    expect(classDLimit(3, 900)).toBe(2.3)
  })

  it('of a half-cosine pulse add up to its rms (Parseval) and match a direct integral', () => {
    const width = 0.7
    let square = 0
    for (let n = 1; n < 2000; n += 2) square += pulseHarmonic(3, width, n) ** 2
    // rms of alternating half-cosines: Ip^2 w/(2 pi)
    expect(square).toBeCloseTo((9 * width) / (2 * Math.PI), 4)
    let sum = 0
    const steps = 20000
    for (let k = 0; k < steps; k++) {
      const x = -width / 2 + ((k + 0.5) * width) / steps
      sum += 3 * Math.cos((Math.PI * x) / width) * Math.cos(5 * x) * (width / steps)
    }
    expect(pulseHarmonic(3, width, 5)).toBeCloseTo((2 * sum) / Math.PI / Math.SQRT2, 6)
    expect(pulseHarmonic(3, Math.PI / 3, 3)).toBeCloseTo(pulseHarmonic(3, Math.PI / 3 + 1e-7, 3), 5)
  })

  it('answers the question for 60 W and for 100 W', () => {
    expect(answerHarmonics(2.4, 0.6, 60).limitsApply).toBe(false)
    const a = answerHarmonics(3, 0.52, 103)
    expect(a.limitsApply).toBe(true)
    expect(a.worstClassD.use).toBeGreaterThan(1)
    expect(a.worstClassA.use).toBeLessThan(1)
    expect(a.harmonics).toHaveLength(19)
  })
})

describe('conducted emission', () => {
  const source = {
    frequency_Hz: 100e3,
    pulse_A: 0.85,
    duty: 0.4,
    bulkResistance_ohm: 0.6,
    bulkInductance_H: 20e-9,
    swing_V: 400,
    edge_s: 80e-9,
    windingCapacitance_F: 50e-12,
    strayCapacitance_F: 0,
    outputToEarth_F: 100e-12,
  }
  const none = { differentialInductance_H: 0, xCapacitance_F: 0, commonInductance_H: 0, yCapacitance_F: 0 }

  it('has the class B quasi-peak line of CISPR 32 (from memory)', () => {
    expect(emissionLimit(150e3)).toBe(66)
    expect(emissionLimit(500e3)).toBeCloseTo(56, 9)
    expect(emissionLimit(1e6)).toBe(56)
    expect(emissionLimit(10e6)).toBe(60)
    expect(emissionLimit(100e3)).toBeNull()
  })

  it('unfiltered differential level is half the harmonic on the capacitor, by hand', () => {
    const e = estimateEmission(source, none)
    const amplitude = (2 * 0.85) / (Math.PI * 2) / Math.SQRT2
    const volts = amplitude * Math.hypot(0.6, 2 * Math.PI * 200e3 * 20e-9)
    // 100 ohm beside 0.6 ohm: 0.05 dB
    expect(Math.abs(e.points[0]!.differential_dBuV - 20 * Math.log10((0.5 * volts) / 1e-6))).toBeLessThan(
      0.06,
    )
  })

  it('falls 40 dB a decade through choke and X capacitor, and the needed choke just suffices', () => {
    const filter = { ...none, xCapacitance_F: 100e-9, yCapacitance_F: 2.2e-9, commonInductance_H: 10e-3 }
    const needed = inductanceNeeded('differential', source, filter)!
    const e = estimateEmission(source, { ...filter, differentialInductance_H: needed })
    expect(e.differentialMargin_dB).toBeGreaterThanOrEqual(6)
    expect(e.differentialMargin_dB).toBeLessThan(6.01)
    const low = estimateEmission(source, { ...filter, differentialInductance_H: 1e-3 }).points
    const drop = low[0]!.differential_dBuV - low[18]!.differential_dBuV
    // 200 kHz to 2 MHz: 40 dB from the filter, 20 dB from the harmonics' envelope, less as the capacitor turns inductive
    expect(drop).toBeGreaterThan(54)
    expect(drop).toBeLessThan(61)
    expect(inductanceNeeded('common', source, filter)).not.toBeNull()
  })
})

describe('surge', () => {
  it('closes the generator loop', () => {
    const part = { clampVoltage_V: 710, clampCurrent_A: 50 }
    const s = surgeThroughVaristor(part, 1000, 230)
    expect(s.current_A * 2 + s.letThrough_V).toBeCloseTo(1000 + 230 * Math.SQRT2, 6)
    expect(s.letThrough_V).toBeCloseTo(710 * (s.current_A / 50) ** (1 / 30), 6)
  })

  // Circuit laws in small steps: source, resistance, inductance and capacitor in series for the time of the wave.
  test.each([
    [740, 375, 33e-6, 1, 235e-6],
    [740, 375, 68e-6, 3, 0],
    [1375, 375, 22e-6, 12, 50e-6],
    [740, 375, 150e-6, 0.2, 100e-6],
  ])('lifts the bulk no higher than it says: %f V before a crest of %f V', (across_V, crest_V, C, R, L) => {
    const found_V = bulkInSurge_V({ crest_V, across_V, capacitance_F: C, series_ohm: R, series_H: L })
    let v = crest_V
    let i = 0
    const dt = 2e-9
    for (let t = 0; t < 50e-6; t += dt) {
      if (L > 0) i += ((across_V - v - R * i) / L) * dt
      else i = (across_V - v) / R
      v += (i / C) * dt
    }
    // the generator's charge is bounded too: 10 mC
    expect(found_V).toBeGreaterThan(Math.min(v, crest_V + 0.01 / C) - 0.5)
    // and no more than twice the lift of the circuit
    expect(found_V - crest_V).toBeLessThan(2.2 * (v - crest_V))
  })
})
