import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Bench, expectQuiet, makeSupply, openBench, openTab, type Tab } from './page.ts'

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

/** Opens a view afresh, so that no sheet of the one before is left open. */
const open = async (page: Page, hash: string) => {
  await page.goto('about:blank')
  await page.goto(`${bench.address}${hash}`)
}

const views: Record<string, (page: Page) => Promise<void>> = {
  shelf: async (page) => {
    await open(page, '#/')
    await page.locator('.shelf-first b').nth(1).waitFor()
  },
  'new supply': async (page) => {
    await open(page, '#/')
    await page.getByRole('button', { name: 'New supply' }).click()
    await page.getByRole('dialog').waitFor()
  },
  schematic: async (page) => {
    await open(page, '#/supply/first/schematic')
    await page.locator('.schematic').waitFor()
  },
  'a limit and a field explained': async (page) => {
    await open(page, '#/supply/first/schematic?at=switcher')
    await page.locator('.limit-head').first().click()
    await page.getByRole('button', { name: 'About Output voltage' }).click()
    await page.getByRole('textbox', { name: 'Output voltage', exact: true }).fill('75 V')
  },
  transformer: async (page) => {
    await open(page, '#/supply/first/winding')
    await page.locator('#bench svg:not(.icon)').first().waitFor()
  },
  loop: async (page) => {
    await open(page, '#/supply/first/loop')
    await page.locator('.loop svg').first().waitFor()
  },
  waveforms: async (page) => {
    await open(page, '#/supply/first/waveforms')
    await page.locator('.wave-bench').waitFor()
  },
  'a proof': async (page) => {
    await open(page, '#/supply/first/waveforms')
    await page.getByRole('button', { name: 'Proof', exact: true }).click()
    await page.getByRole('button', { name: 'Prove every corner' }).click()
    await page.getByText(/^36 corners in /).waitFor()
    await page.locator('.proof-corners .reading-name').first().click()
  },
  'a run in time': async (page) => {
    await open(page, '#/supply/first/waveforms')
    await page.getByRole('button', { name: 'Runs in time' }).click()
    await page.getByRole('button', { name: 'Run: Secondary reversed' }).click()
    await page.locator('.run-outcome').waitFor()
  },
  papers: async (page) => {
    await open(page, '#/supply/first/papers')
    await page.locator('.paper').waitFor()
  },
  readings: async (page) => {
    await open(page, '#/supply/first/readings')
    await page.getByRole('button', { name: 'Drain peak' }).click()
  },
  heat: async (page) => {
    await open(page, '#/supply/first/heat')
    await page.locator('.budget').first().waitFor()
  },
  'part picker': async (page) => {
    await open(page, '#/supply/first')
    await page.getByRole('button', { name: /^Choose Switcher:/ }).click()
    await page.locator('.picker-room').first().waitFor()
  },
  commands: async (page) => {
    await open(page, '#/supply/first')
    await page.locator('.work').waitFor()
    await page.keyboard.press('Control+k')
    await page.getByRole('dialog').waitFor()
  },
  drawer: async (page) => {
    await open(page, '#/drawer')
    await page.locator('.drawer-table').waitFor()
  },
  'a part of the drawer': async (page) => {
    await open(page, '#/drawer')
    await page
      .getByRole('button', { name: /^Edit / })
      .first()
      .click()
    await page.getByRole('dialog').waitFor()
  },
  answers: async (page) => {
    await open(page, '#/answers')
    await page.locator('.answer').first().waitFor()
  },
  'range of a supply': async (page) => {
    await open(page, '#/supply/first/answers')
    await page.locator('.range-map').waitFor()
  },
  'substitutes for a part': async (page) => {
    await open(page, '#/supply/first/answers')
    await page.getByRole('button', { name: 'Substitutes', exact: true }).click()
    await page.locator('.answers-table tbody tr').first().waitFor()
  },
  compare: async (page) => {
    await open(page, '#/compare/first/second')
    await page.locator('.compare-table').nth(3).waitFor()
  },
  'nothing there': async (page) => {
    await open(page, '#/supply/none')
    await page.getByRole('link', { name: 'Go to the shelf' }).waitFor()
  },
}

describe.each(['light', 'dark'] as const)('every view in %s', (colorScheme) => {
  let tab: Tab
  beforeAll(async () => {
    tab = await openTab(bench, { colorScheme, reducedMotion: 'reduce' })
  })
  afterAll(() => tab?.context.close())

  it.each(Object.keys(views))('%s has nothing that axe objects to', async (name) => {
    await views[name]!(tab.page)
    const { violations } = await new AxeBuilder({ page: tab.page }).analyze()
    expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(' | ')}`)).toEqual(
      [],
    )
  })
})

describe.each([320, 360, 768, 1100])('at %i px', (width) => {
  it('no view scrolls the page sideways', async () => {
    const tab = await openTab(bench, { viewport: { width, height: 740 }, hasTouch: width < 700 })
    for (const name of [
      'shelf',
      'schematic',
      'transformer',
      'readings',
      'heat',
      'loop',
      'waveforms',
      'a proof',
      'a run in time',
      'papers',
      'drawer',
      'answers',
      'range of a supply',
      'substitutes for a part',
      'compare',
    ]) {
      await views[name]!(tab.page)
      const over = await tab.page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      )
      expect({ name, over }).toEqual({ name, over: 0 })
    }
    expectQuiet(tab)
    await tab.context.close()
  })
})

describe('on a phone', () => {
  it('keeps the answer in sight while the need is edited', async () => {
    const tab = await openTab(bench, {
      viewport: { width: 360, height: 740 },
      hasTouch: true,
      isMobile: true,
    })
    const { page } = tab
    await open(page, '#/supply/second')
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
