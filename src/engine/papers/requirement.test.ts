import { describe, expect, test } from 'vitest'
import { demoSupplies } from '../demo/index.ts'
import { assess } from '../limits/index.ts'
import { starterDrawer } from '../parts/starter/index.ts'
import type { Supply } from '../supply/supply.ts'
import { partsRows } from './parts-rows.ts'

const assessed = (supply: Supply) => {
  const result = assess(supply)
  if (!result.ok) throw new Error(supply.name)
  return result.value
}
const rows = demoSupplies().map((supply) => {
  const { evaluation, limits } = assessed(supply)
  return { supply, rows: partsRows(evaluation, limits, null) }
})
const of = (place: string, supply = 0): string =>
  rows[supply]!.rows.find((row) => row.spot === place)?.requirement ?? ''

describe('what a part must stand', () => {
  test('is a rating to ask for, with the room that the limits leave', () => {
    // 253 V mains: crest 358 V asks for the next capacitor sold, 400 V; varistor 275 V; fuse for 250 V.
    expect(of('bulkCapacitor')).toMatch(/voltage ≥ 400/)
    expect(of('varistor')).toMatch(/continuous voltage ≥ 275/)
    expect(of('fuse')).toMatch(/voltage ≥ 250/)
    // Three times the output current of 5 A: rule of the trade.
    expect(of('rectifier')).toMatch(/mean current ≥ 15/)
  })
  test('keeps the sense of least figures, and leaves out what is no figure of the part', () => {
    expect(of('reference')).toMatch(/works from a cathode voltage ≤/)
    for (const { rows: list } of rows)
      for (const row of list) expect(row.requirement, row.spot).not.toMatch(/duty|window|flux|life|valley/i)
  })
  test('is never more than what the part has, where every limit holds', () => {
    for (const { supply, rows: list } of rows) {
      const volts = (spot: string, words: string): number => {
        const text = list.find((row) => row.spot === spot)?.requirement ?? ''
        const found = new RegExp(`(?:^|; )${words} ≥ ([\\d.]+)`).exec(text)
        return found ? Number(found[1]) : Number.NaN
      }
      const own = (id: string | null): number => {
        const part = supply.parts.find((p) => p.id === id)
        if (part?.kind === 'diode' || part?.kind === 'bridge') return part.reverse_V
        return part?.kind === 'capacitor' ? part.voltage_V : 0
      }
      const { places } = supply.build
      expect(volts('rectifier', 'reverse voltage')).toBeLessThanOrEqual(own(places.rectifier))
      expect(volts('bridge', 'reverse voltage')).toBeLessThanOrEqual(own(places.bridge))
      expect(volts('bulkCapacitor', 'voltage')).toBeLessThanOrEqual(own(places.bulkCapacitor))
      expect(volts('outputCapacitor', 'voltage')).toBeLessThanOrEqual(own(places.outputCapacitor))
    }
  })
  test('counts the bleed as two of one preferred value, and says what a heatsink cools', () => {
    const bleed = rows[0]!.rows.find((row) => row.spot === 'bleed')
    expect(bleed?.amount).toBe('2')
    expect(rows[0]!.rows.find((row) => row.spot === 'switcherHeatsink')?.description).toMatch(/switcher U1/)
  })

  test('takes wire and tape by the length, and the core with its ferrite as one part', () => {
    for (const { supply, rows: list } of rows) {
      for (const spot of ['primaryWire', 'secondaryWire', 'biasWire', 'tape'])
        expect(list.find((row) => row.spot === spot)?.amount, spot).toMatch(/^\d+\.\d m$/)
      expect(list.some((row) => row.spot === 'material')).toBe(false)
      const pieces = list.find((row) => row.spot === 'outputCapacitor')?.amount
      expect(pieces).toBe(String(supply.build.outputCount))
    }
  })

  test('asks for as many of a part as all its places take', () => {
    const { supply, rows: list } = rows[0]!
    const part = supply.parts.find((p) => p.id === supply.build.places.outputCapacitor)!
    const drawer = (quantity: number) => ({ ...starterDrawer, entries: [{ part, quantity }] })
    const { evaluation, limits } = assessed(supply)
    const hand = (quantity: number) =>
      partsRows(evaluation, limits, drawer(quantity)).find((row) => row.spot === 'outputCapacitor')?.atHand
    expect(list.length).toBeGreaterThan(20)
    expect(hand(supply.build.outputCount)).toBe('have')
    expect(hand(supply.build.outputCount - 1)).toBe('short')
    expect(list.find((row) => row.spot === 'outputCapacitor')?.atHand).toBe('unasked')
  })

  test('lists margin tape where there are margins, and sleeving always', () => {
    rows.forEach(({ supply, rows: list }) => {
      const words = list.map((row) => row.description).join('\n')
      expect(words).toMatch(/Sleeving/)
      expect(/Margin tape/.test(words)).toBe(supply.build.transformer.insulation === 'margins')
    })
  })
})
