import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Bench, expectQuiet, makeSupply, openBench, openTab } from './page.ts'

let bench: Bench
beforeAll(async () => {
  bench = await openBench()
  const tab = await openTab(bench)
  await makeSupply(tab.page, 'First', { output: '24', current: '3' })
  await tab.page.goto(bench.address)
  await makeSupply(tab.page, 'Second', { output: '5', current: '4' })
  await tab.page.locator('.save[data-state=saved]').waitFor()
  await tab.context.close()
})
afterAll(() => bench?.close())

const views: Record<string, (page: Page) => Promise<void>> = {
  shelf: async (page) => {
    await page.goto(`${bench.address}#/`)
    await page.locator('.shelf-first b').nth(1).waitFor()
  },
  'new supply': async (page) => {
    await page.goto(`${bench.address}#/`)
    await page.getByRole('button', { name: 'New supply' }).click()
    await page.getByRole('dialog').waitFor()
  },
  schematic: async (page) => {
    await page.goto(`${bench.address}#/supply/first/schematic`)
    await page.locator('.schematic').waitFor()
  },
  'a limit and a field explained': async (page) => {
    await page.goto(`${bench.address}#/supply/first/schematic?at=switcher`)
    await page.locator('.limit-head').first().click()
    await page.getByRole('button', { name: 'About Output voltage' }).click()
    await page.getByRole('textbox', { name: 'Output voltage', exact: true }).fill('75 V')
  },
  winding: async (page) => {
    await page.goto(`${bench.address}#/supply/first/winding`)
    await page.locator('.winding svg').first().waitFor()
  },
  readings: async (page) => {
    await page.goto(`${bench.address}#/supply/first/readings`)
    await page.getByRole('button', { name: 'Drain peak' }).click()
  },
  heat: async (page) => {
    await page.goto(`${bench.address}#/supply/first/heat`)
    await page.locator('.budget').first().waitFor()
  },
  'part picker': async (page) => {
    await page.goto(`${bench.address}#/supply/first`)
    await page.getByRole('button', { name: /^Choose Switcher:/ }).click()
    await page.locator('.picker-room').first().waitFor()
  },
  commands: async (page) => {
    await page.goto(`${bench.address}#/supply/first`)
    await page.locator('.work').waitFor()
    await page.keyboard.press('Control+k')
    await page.getByRole('dialog').waitFor()
  },
  drawer: async (page) => {
    await page.goto(`${bench.address}#/drawer`)
    await page.locator('.drawer-table').waitFor()
  },
  'a part of the drawer': async (page) => {
    await page.goto(`${bench.address}#/drawer`)
    await page
      .getByRole('button', { name: /^Edit / })
      .first()
      .click()
    await page.getByRole('dialog').waitFor()
  },
  compare: async (page) => {
    await page.goto(`${bench.address}#/compare/first/second`)
    await page.locator('.compare-table').nth(3).waitFor()
  },
  'nothing there': async (page) => {
    await page.goto(`${bench.address}#/supply/none`)
    await page.getByRole('link', { name: 'Go to the shelf' }).waitFor()
  },
}

describe.each(['light', 'dark'] as const)('every view in %s', (colorScheme) => {
  it.each(Object.keys(views))('%s has nothing that axe objects to', async (name) => {
    const tab = await openTab(bench, { colorScheme, reducedMotion: 'reduce' })
    await views[name]!(tab.page)
    const { violations } = await new AxeBuilder({ page: tab.page }).analyze()
    const found = violations.map(
      (v) =>
        `${v.id}: ${v.nodes
          .map((n) => n.target.join(' '))
          .slice(0, 3)
          .join(' | ')}`,
    )
    expect(found).toEqual([])
    if (name !== 'nothing there') expectQuiet(tab)
    await tab.context.close()
  })
})

describe.each([320, 360, 768, 1100])('at %i px', (width) => {
  it.each(['shelf', 'schematic', 'winding', 'readings', 'heat', 'drawer', 'compare'])(
    '%s fits without sideways scrolling of the page',
    async (name) => {
      const tab = await openTab(bench, { viewport: { width, height: 740 }, hasTouch: width < 700 })
      await views[name]!(tab.page)
      const { scroll, client } = await tab.page.evaluate(() => ({
        scroll: document.documentElement.scrollWidth,
        client: document.documentElement.clientWidth,
      }))
      expect(scroll).toBeLessThanOrEqual(client)
      expectQuiet(tab)
      await tab.context.close()
    },
  )
})

describe('on a phone', () => {
  it('keeps the answer in sight while the need is edited', async () => {
    const tab = await openTab(bench, {
      viewport: { width: 360, height: 740 },
      hasTouch: true,
      isMobile: true,
    })
    const { page } = tab
    await page.goto(`${bench.address}#/supply/second`)
    await page.getByRole('button', { name: 'Build', exact: true }).tap()
    await page.waitForTimeout(100)
    const verdict = await page.locator('.verdict-line').boundingBox()
    expect(verdict!.y).toBeGreaterThanOrEqual(0)
    expect(verdict!.y).toBeLessThan(120)
    await page.getByRole('button', { name: 'Limits', exact: true }).tap()
    await page.getByRole('heading', { name: 'What gives first' }).waitFor()
    expectQuiet(tab)
    await tab.context.close()
  })
})
