import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Bench, benchWithSupply, expectQuiet, field, spaced, type Tab } from './page.ts'

let bench: Bench
let tab: Tab
beforeAll(async () => {
  ;({ bench, tab } = await benchWithSupply('Fields'))
})
afterAll(() => bench?.close())

describe('number fields', () => {
  it.each([
    ['Output voltage', '13,8', '13.8 V'],
    ['Output voltage', '12V0', '12 V'],
    ['Output current', '2500 mA', '2.5 A'],
    ['Ripple allowed', '0.08', '80 mV'],
    ['Hold-up', '10 ms', '10 ms'],
    ['Air around it', '104 °F', '40 °C'],
    ['Mains range', '230 V ±10 %', '230 V ±10 %'],
    ['Mains range', '230V', '230 V ±10 %'],
    ['Mains range', '195 to 265', '195–265 V'],
    ['Gap', '0,4 mm', '0.4 mm'],
    ['Clamp resistor', '22k', '22 kΩ'],
  ])('%s takes %s as %s', async (label, typed, shown) => {
    const input = field(tab.page, label)
    await input.fill(typed)
    await input.press('Tab')
    expect(spaced(await input.inputValue())).toBe(shown)
    expect(await input.getAttribute('aria-invalid')).toBe('false')
  })

  it('says what is wrong beside the field, keeps the text, and moves nothing', async () => {
    const { page } = tab
    const input = field(page, 'Output voltage')
    const rows = () =>
      page
        .locator('.field, .limit')
        .evaluateAll((all) => all.map((e) => Math.round(e.getBoundingClientRect().top)))
    await input.focus()
    const before = await rows()
    await input.fill('75 V')
    const described = await input.getAttribute('aria-describedby')
    expect(spaced(await page.locator(`[id="${described}"]`).innerText())).toBe(
      'Output voltage 75 V is over 60 V',
    )
    expect(await rows()).toEqual(before)
    await input.fill('75 parrots')
    expect(spaced(await page.locator(`[id="${described}"]`).innerText())).toContain(
      '“75 parrots” is no value in V',
    )
    expect(await rows()).toEqual(before)
    await page.getByText('One field is not a value yet').waitFor()

    // Another view and back: the text is still there, and the last good value is in use.
    await page.getByRole('button', { name: 'Drawer', exact: true }).click()
    await page.getByRole('heading', { name: 'Drawer' }).waitFor()
    await page.goBack()
    expect(await field(page, 'Output voltage').inputValue()).toBe('75 parrots')
    await field(page, 'Output voltage').press('Escape')
    expect(spaced(await field(page, 'Output voltage').inputValue())).toBe('12 V')
  })

  it('takes back whole numbers typed, not letter by letter', async () => {
    const { page } = tab
    const input = field(page, 'Primary turns')
    await input.focus()
    await page.keyboard.type('88')
    await page.keyboard.press('ArrowUp')
    expect(await input.inputValue()).toBe('89')
    await page.keyboard.press('Tab')
    await page.getByRole('button', { name: 'Undo' }).click()
    expect(await input.inputValue()).toBe('')
    expectQuiet(tab)
  })
})
