import { describe, expect, test } from 'vitest'
import { starterDrawer } from '../../../src/engine/parts/starter/index.ts'
import { rangeMap, retarget } from '../../../src/engine/search/index.ts'
import { r1 } from '../r1/r1.ts'

const at = (output_V: number, output_A: number) => {
  const result = retarget(r1({}), starterDrawer, output_V, output_A)
  if (!result.ok) throw new Error(result.problems[0]!.message)
  return result.value
}
const byHand = (output_V: number) => ({
  reflected_V: ((output_V + 0.6) * 63) / 8,
  reverse_V: output_V + (375 * 8) / 63,
  bias_V: ((14 + 0.7) * (output_V + 0.6)) / 12.6 - 0.7,
})

describe('R1 at another output', () => {
  // Worked with a crest of 375 V and a drop of 0.6 V; crest, drop and whole bias turns of the model differ by a few per cent.
  test.each([5, 12, 15, 24])('%d V: reflected voltage, reverse voltage and bias follow', (output_V) => {
    const { moved } = at(output_V, 24 / Math.max(12, output_V))
    const hand = byHand(output_V)
    expect(Math.abs(moved!.reflectedVoltage_V / hand.reflected_V - 1)).toBeLessThan(0.02)
    expect(Math.abs(moved!.drainPlateau_V / (375 + hand.reflected_V) - 1)).toBeLessThan(0.02)
    expect(Math.abs(moved!.rectifierReverse_V / hand.reverse_V - 1)).toBeLessThan(0.02)
    expect(Math.abs(moved!.bias_V / hand.bias_V - 1)).toBeLessThan(0.06)
  })

  test('5 V starves the chip: its bias will not hold, whatever the divider', () => {
    const { verdict, broken } = at(5, 2)
    expect(['rewind', 'none']).toContain(verdict)
    const bias = broken.find((limit) => limit.id === 'switcher.bias-low')!
    expect(bias.reading).toBeLessThan(bias.rating)
  })

  test('24 V overfeeds the bias and asks for more duty than the chip has', () => {
    const { verdict, broken } = at(24, 1)
    expect(verdict).not.toBe('divider')
    const ids = broken.map((limit) => limit.id)
    expect(ids).toContain('switcher.bias-high')
    expect(ids).toContain('switcher.duty')
  })

  test('a little up or down takes the divider alone', () => {
    for (const output_V of [11, 13]) {
      const { verdict, changed, judged } = at(output_V, 1.6)
      expect(verdict).toBe('divider')
      expect(changed).toEqual([])
      const { dividerTop_ohm: top, dividerBottom_ohm: bottom } = judged!.supply.build.feedback
      expect(Math.abs((2.5 * (1 + top! / bottom!)) / output_V - 1)).toBeLessThan(0.02)
    }
  })
})

describe('the range map of R1', () => {
  const map = rangeMap(r1({}), starterDrawer)
  if (!map.ok) throw new Error(map.problems[0]!.message)
  const { volts, amps, cells } = map.value
  const cell = (column: number, row: number) => cells[row * volts.length + column]!

  test('what serves a current serves every smaller one', () => {
    for (let column = 0; column < volts.length; column++)
      for (let row = 1; row < amps.length; row++)
        if (cell(column, row).verdict === 'divider') expect(cell(column, row - 1).verdict).toBe('divider')
  })

  test('low voltages are bound by the bias, and every region names its limit', () => {
    expect(cells).toHaveLength(volts.length * amps.length)
    expect(cell(0, 3).verdict).toBe('none')
    expect(cell(0, 3).limit?.id).toBe('switcher.bias-low')
    expect(cells.some((c) => c.verdict === 'divider')).toBe(true)
    for (const c of cells) expect(c.limit?.title.length).toBeGreaterThan(3)
  })

  test('a cell says what the whole supply says there', () => {
    for (const [column, row] of [
      [8, 4],
      [9, 9],
      [14, 6],
    ] as const) {
      const { verdict } = at(volts[column]!, amps[row]!)
      const onMap = cell(column, row).verdict
      if (onMap === 'divider') expect(verdict).toBe('divider')
      else expect(verdict).not.toBe('divider')
    }
  })
})
