import { AxeBuilder } from '@axe-core/playwright'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Bench, benchWithSupply, expectQuiet, openTab, spaced, type Tab } from './page.ts'

let bench: Bench
let tab: Tab
beforeAll(async () => {
  ;({ bench, tab } = await benchWithSupply('Looped', { output: '24', current: '3' }))
  await tab.page.getByRole('button', { name: 'Loop', exact: true }).click()
  await tab.page.locator('.bode').waitFor()
})
afterAll(() => bench?.close())

const curve = () => tab.page.locator('.bode .line.of-gain').getAttribute('d')

describe('the loop', () => {
  it('names the worst corner and shows it for the condition chosen', async () => {
    const { page } = tab
    expect(spaced(await page.locator('.loop-worst').innerText())).toMatch(/phase margin at the worst corner/)
    const nominal = await curve()
    await page.getByRole('button', { name: 'lowest input, 10 % load', exact: true }).click()
    expect(await curve()).not.toBe(nominal)
    await page.locator('.plate-cell', { hasText: 'output shorted' }).click()
    await page.getByText('The loop is not judged here').waitFor()
    await page.getByRole('button', { name: 'nominal input, full load', exact: true }).click()
  })

  it('moves the curve along preferred values by keyboard, in one step of undo, with the one before behind it', async () => {
    const { page } = tab
    const slider = page.getByRole('slider', { name: /Compensation resistor/ })
    const first = await curve()
    const value = await slider.getAttribute('aria-valuetext')
    await slider.focus()
    for (let k = 0; k < 5; k += 1) await page.keyboard.press('ArrowRight')
    await expect.poll(curve).not.toBe(first)
    expect(await slider.getAttribute('aria-valuetext')).not.toBe(value)
    await page.locator('.bode .before').first().waitFor()
    await page.getByRole('button', { name: 'Undo' }).click()
    await expect.poll(curve).toBe(first)
    expect(await slider.getAttribute('aria-valuetext')).toBe(value)
  })

  it('suggests a network for what is asked, and uses it', async () => {
    const { page } = tab
    await page.getByLabel('Crossover wanted').fill('parrots')
    expect(await page.getByRole('button', { name: 'Suggest values' }).isDisabled()).toBe(true)
    await page.getByLabel('Crossover wanted').fill('1.5 kHz')
    await page.getByRole('button', { name: 'Suggest values' }).click()
    await page.getByText(/at the worst corner, crossover near/).waitFor()
    const wanted = spaced(await page.locator('.loop-suggested dd').nth(1).innerText())
    await page.getByRole('button', { name: 'Use these' }).click()
    const slider = page.getByRole('slider', { name: /Compensation resistor/ })
    await expect.poll(async () => spaced(await slider.getAttribute('aria-valuetext'))).toBe(wanted)
  })

  it('proves the curve with the switched circuit in a worker', async () => {
    const { page } = tab
    await page.getByRole('button', { name: 'Prove it' }).click()
    await page.locator('.proof circle').first().waitFor({ timeout: 30_000 })
    expect(await page.locator('.proof circle').count()).toBeGreaterThan(20)
    const said = spaced(await page.locator('.loop-proof').innerText())
    const [, gain, phase] = /within ([\d.]+) dB and ([\d.]+)° of the curve/.exec(said)!
    expect(Number(gain)).toBeLessThan(0.5)
    expect(Number(phase)).toBeLessThan(3)
    expect(await page.locator('.step .switched').count()).toBe(2)
  })

  it('reads a margin from counted ringing', async () => {
    const { page } = tab
    await page.getByLabel('Ringing at').fill('5 kHz')
    await page.getByLabel('Cycles counted').fill('4')
    expect(spaced(await page.locator('.loop-ringing').innerText())).toMatch(/Phase margin about 1\d° to \d+°/)
    await page.getByLabel('Cycles counted').fill('none')
    await page.getByText('A frequency such as 5 kHz').waitFor()
    expectQuiet(tab)
  })
})

describe.each(['light', 'dark'] as const)('in %s', (colorScheme) => {
  it('has nothing that axe objects to, and does not scroll sideways on a phone', async () => {
    const other = await openTab(bench, {
      colorScheme,
      reducedMotion: 'reduce',
      viewport: { width: 360, height: 740 },
    })
    await other.page.goto(`${bench.address}#/supply/looped/loop`)
    await other.page.locator('.bode').waitFor()
    const { violations } = await new AxeBuilder({ page: other.page }).include('.loop').analyze()
    expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(' | ')}`)).toEqual(
      [],
    )
    const over = await other.page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    )
    expect(over).toBe(0)
    expectQuiet(other)
    await other.context.close()
  })
})
