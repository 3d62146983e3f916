import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Bench, expectQuiet, makeSupply, openBench, openTab, type Tab } from './page.ts'

let bench: Bench
let tab: Tab
beforeAll(async () => {
  bench = await openBench()
  tab = await openTab(bench)
  await makeSupply(tab.page, 'Papers', { output: '12', current: '2' })
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
