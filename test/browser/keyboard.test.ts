import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Bench, expectQuiet, openBench, openTab, spaced, whenSaved } from './page.ts'

let bench: Bench
beforeAll(async () => {
  bench = await openBench()
})
afterAll(() => bench?.close())

const command = async (page: Page, words: string) => {
  await page.keyboard.press('Control+k')
  await page.getByRole('combobox', { name: 'Find a command' }).waitFor()
  await page.keyboard.type(words)
  await page.keyboard.press('Enter')
}

const focused = (page: Page) =>
  page.evaluate(() => {
    const at = document.activeElement
    return (
      at?.getAttribute('aria-label') ??
      (at as HTMLInputElement | null)?.labels?.[0]?.textContent ??
      at?.id ??
      ''
    )
  })

const onLimit = (page: Page) => page.evaluate(() => document.activeElement?.matches('.limit-head') === true)

/** Presses Tab until something of that name has the focus. */
const tabTo = async (page: Page, name: RegExp) => {
  for (let presses = 0; presses < 120; presses += 1) {
    if (name.test(await focused(page))) return
    await page.keyboard.press('Tab')
  }
  throw new Error(`Tab never reached ${name}`)
}

describe('by keyboard alone', () => {
  it('does the main job', async () => {
    const tab = await openTab(bench)
    const { page } = tab
    await command(page, 'new supply')
    await tabTo(page, /^Name$/)
    await page.keyboard.type('Keys only')
    await page.keyboard.press('Tab')
    await page.keyboard.press('Tab')
    await page.keyboard.type('24 V')
    await page.keyboard.press('Tab')
    await page.keyboard.type('2 A')
    await page.keyboard.press('Enter')
    await page.locator('.work').waitFor()

    await page.keyboard.press('Alt+2')
    expect(await focused(page)).toBe('need')
    await tabTo(page, /^Output current$/)
    await page.keyboard.type('2.2')
    await page.keyboard.press('Alt+3')
    await tabTo(page, /^Choose Rectifier:/)
    await page.keyboard.press('Enter')
    await page.getByRole('dialog').waitFor()
    expect(await focused(page)).toBe('Find by name or rating')
    await page.keyboard.press('Escape')
    expect(await focused(page)).toMatch(/^Choose Rectifier:/)

    await page.keyboard.press('Alt+1')
    for (let presses = 0; presses < 5 && !(await onLimit(page)); presses += 1)
      await page.keyboard.press('Tab')
    await page.keyboard.press('Enter')
    await page.locator('.limit-detail').waitFor()

    await command(page, 'show heat')
    await page.getByRole('heading', { name: 'Where the power goes' }).waitFor()
    await page.keyboard.press('Control+z')
    await page.getByText('Undone: Output current').waitFor()
    await page.keyboard.press('Control+Shift+z')
    await page.keyboard.press('Control+s')
    await whenSaved(page)
    await page.reload()
    await page.locator('.work').waitFor()
    expect(
      spaced(await page.getByRole('textbox', { name: 'Output current', exact: true }).inputValue()),
    ).toBe('2.2 A')
    expectQuiet(tab)
    await tab.context.close()
  })
})
