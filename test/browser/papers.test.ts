import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Bench, benchWithSupply, expectQuiet, openTab, type Tab } from './page.ts'

let bench: Bench
let tab: Tab
beforeAll(async () => {
  ;({ bench, tab } = await benchWithSupply('Papers', { output: '12', current: '2' }))
  await tab.page.getByRole('button', { name: 'Papers', exact: true }).click()
  await tab.page.locator('.papers .paper').waitFor()
})
afterAll(() => bench?.close())

const sheet = (name: string) =>
  tab.page.locator('.papers-tools').getByRole('button', { name, exact: true }).click()

describe('a paper printed from the page', () => {
  it('keeps its label, which the styles of the page must not hide', async () => {
    const { page } = tab
    await sheet('Label')
    await page.emulateMedia({ media: 'print' })
    expect(await page.locator('.paper .plate').first().isVisible()).toBe(true)
    await page.emulateMedia({ media: null })
  })

  it('gives its cautions the whole width', async () => {
    const { page } = tab
    for (const name of ['Winding sheet', 'Power-up', 'Board notes']) {
      await sheet(name)
      await page.emulateMedia({ media: 'print' })
      const width = (selector: string) =>
        page
          .locator(selector)
          .first()
          .evaluate((e) => e.getBoundingClientRect().width)
      await page.locator('.paper .caution').first().waitFor()
      expect(await width('.paper .caution'), name).toBeCloseTo(await width('.paper > header'), 0)
      await page.emulateMedia({ media: null })
    }
    expectQuiet(tab)
  })
})

describe('on a phone', () => {
  it('an address that names the papers opens at the papers, and what is wider says that it slides', async () => {
    const phone = await openTab(bench, { viewport: { width: 320, height: 640 }, hasTouch: true })
    const { page } = phone
    await page.goto(tab.page.url())
    await page.locator('.papers .paper').waitFor()
    const topOf = (selector: string) => page.locator(selector).evaluate((e) => e.getBoundingClientRect().top)
    expect(await topOf('#bench')).toBeGreaterThanOrEqual(0)
    expect(await topOf('#bench')).toBeLessThan(320)
    await page.getByRole('button', { name: 'Schematic', exact: true }).first().click()
    await page.getByText('More to the right').waitFor()
    await page.locator('.sheet-scroll').evaluate((e) => e.scrollTo({ left: e.scrollWidth }))
    await page.getByText('More to the left').waitFor()
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320)
    expectQuiet(phone)
    await phone.context.close()
  })
})
