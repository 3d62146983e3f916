import { describe, expect, it } from 'vitest'
import { drawer, type Part } from '../part.ts'
import { starterDrawer } from './index.ts'

const parts = starterDrawer.entries.map((entry) => entry.part)
const ofKind = <K extends Part['kind']>(kind: K) =>
  parts.filter((part): part is Extract<Part, { kind: K }> => part.kind === kind)

describe('starter drawer', () => {
  it('obeys the schema of a drawer, each part with its source', () => {
    expect(drawer.parse(starterDrawer)).toEqual(starterDrawer)
    expect(parts.filter((part) => !part.source)).toEqual([])
  })

  it('holds every kind, and enough of those that decide a supply', () => {
    const shapes = new Set(ofKind('core').map((core) => core.shape))
    expect([...shapes].sort()).toEqual(['E', 'EE', 'EER', 'EF', 'EFD', 'EI', 'ER', 'ETD', 'PQ', 'RM'])
    expect(ofKind('core').length).toBeGreaterThanOrEqual(40)
    expect(ofKind('material').length).toBe(4)
    expect(ofKind('switcher').length).toBeGreaterThanOrEqual(8)
    expect(new Set(parts.map((part) => part.kind)).size).toBe(25)
    const wires = new Set(ofKind('wire').map((wire) => wire.construction))
    expect([...wires].sort()).toEqual(['enamelled', 'foil', 'litz', 'triple-insulated'])
  })

  it('orders switchers: less resistance, more current, more power, more capacitance, cooler case', () => {
    const three = ofKind('switcher').filter((part) => part.pins === 3)
    for (const [i, larger] of three.entries()) {
      const smaller = three[i - 1]
      expect(larger.onResistance100_ohm / larger.onResistance25_ohm).toBeCloseTo(1.68, 1)
      expect(larger.drainVoltage_V).toBe(700)
      if (!smaller) continue
      expect(larger.onResistance25_ohm).toBeLessThan(smaller.onResistance25_ohm)
      expect(larger.currentLimit_A.minimum).toBeGreaterThan(smaller.currentLimit_A.minimum)
      expect(larger.ratedPowerWide_W).toBeGreaterThan(smaller.ratedPowerWide_W)
      expect(larger.outputCapacitance_F).toBeGreaterThan(smaller.outputCapacitance_F)
      expect(larger.junctionToCase_K_per_W).toBeLessThanOrEqual(smaller.junctionToCase_K_per_W)
    }
    const powers = ofKind('switcher').flatMap((part) => [part.ratedPowerWide_W, part.ratedPower230_W])
    expect([Math.min(...powers), Math.max(...powers)]).toEqual([7, 150])
    // common practice, no source: the 150 W class chip of a three-pin package has about 2.5 ohm
    const top = three.find((part) => part.ratedPower230_W === 150)
    expect(top?.onResistance25_ohm).toBeCloseTo(2.5, 1)
  })

  it('has a rectifier for 3.3 to 48 V at 100 V reflected and 375 V bulk, with a quarter to spare', () => {
    for (const output_V of [3.3, 5, 9, 12, 13.8, 15, 19, 24, 36, 48]) {
      const reverse_V = 1.25 * ((375 / 100) * (output_V + 0.6) + output_V)
      for (const output_A of [0.5, 1, Math.min(10, 150 / output_V)]) {
        const fit = ofKind('diode').filter((d) => d.reverse_V >= reverse_V && d.average_A >= 3 * output_A)
        expect(
          fit.some((d) => d.technology !== 'standard'),
          `${output_V} V ${output_A} A`,
        ).toBe(true)
      }
    }
  })

  it('has output capacitors up to 100 V and bulk capacitors of 2 uF for each watt up to 150 W', () => {
    const electrolytic = ofKind('capacitor').filter((part) => part.technology === 'electrolytic')
    for (const output_V of [3.3, 5, 12, 24, 48, 60]) {
      const fit = electrolytic.filter((part) => part.voltage_V >= 1.2 * output_V && part.voltage_V <= 100)
      expect(Math.max(...fit.map((part) => part.ripple100kHz_A))).toBeGreaterThan(1.5)
    }
    const bulk = electrolytic.filter((part) => part.voltage_V >= 400)
    expect(bulk.some((part) => part.capacitance_F >= 2e-6 * 150)).toBe(true)
    expect(Math.min(...bulk.map((part) => part.capacitance_F))).toBeLessThanOrEqual(10e-6)
  })

  it('has safety capacitors of every class and none that claims one without being rated for it', () => {
    const classes = new Set(ofKind('capacitor').map((part) => part.safetyClass))
    expect(classes).toEqual(new Set([undefined, 'X1', 'X2', 'Y1', 'Y2']))
    for (const part of ofKind('capacitor'))
      if (part.safetyClass) expect(part.voltage_V).toBeGreaterThanOrEqual(250)
  })

  it('gives a ripple rating and resistance that go together: larger can, less resistance, more ripple', () => {
    for (const voltage_V of [10, 25, 50]) {
      const cans = ofKind('capacitor').filter(
        (p) => p.id.startsWith('capacitor-lowesr') && p.voltage_V === voltage_V,
      )
      for (const [i, can] of cans.entries())
        if (i > 0) {
          expect(can.resistance_ohm).toBeLessThan(cans[i - 1]!.resistance_ohm)
          expect(can.ripple100kHz_A).toBeGreaterThan(cans[i - 1]!.ripple100kHz_A)
        }
    }
  })

  it('clamps above breakdown, within the pulse power of the class', () => {
    for (const part of ofKind('avalanche')) {
      expect(part.clampVoltage_V).toBeGreaterThan(part.breakdown_V.maximum)
      const pulse_W = part.clampVoltage_V * part.clampCurrent_A
      expect(part.name).toContain(`${Math.round(pulse_W / 100) * 100} W pulse`)
    }
  })

  it('drops more forward voltage the more reverse voltage a Schottky diode stands', () => {
    const at = (reverse_V: number) =>
      Math.min(
        ...ofKind('diode')
          .filter((d) => d.technology === 'schottky' && d.reverse_V === reverse_V)
          .map((d) => d.drop_V),
      )
    const drops = [45, 60, 100, 150, 200].map(at)
    expect(drops).toEqual([...drops].sort((a, b) => a - b))
    expect(drops[0]).toBeLessThan(drops[4]! / 1.5)
  })
})
