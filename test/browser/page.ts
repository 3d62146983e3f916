import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core'
import { expect } from 'vitest'
import type { Drawer } from '../../src/engine/parts/part.ts'
import { launchBrowser } from '../support/browser.ts'
import { startTestServer, type TestServer } from '../support/server.ts'

/** One browser and one server over a folder of its own, for the tests of one file. */
export interface Bench {
  readonly browser: Browser
  readonly server: TestServer
  readonly address: string
  readonly close: () => Promise<void>
}

/** `GAPWRIGHT_PAGE` names another folder with a built page than the one of `npm run build`. */
export const openBench = async (options: { drawer?: Drawer } = {}): Promise<Bench> => {
  const page = process.env.GAPWRIGHT_PAGE
  const [browser, server] = await Promise.all([
    launchBrowser(),
    startTestServer(page ? { page, ...options } : options),
  ])
  return {
    browser,
    server,
    address: `http://127.0.0.1:${server.port}/`,
    close: async () => {
      await browser.close()
      await server.stop()
    },
  }
}

/** A tab that keeps what its console complains about. */
export interface Tab {
  readonly page: Page
  readonly context: BrowserContext
  readonly complaints: readonly string[]
}

export const openTab = async (
  bench: Bench,
  options: BrowserContextOptions = {},
  context?: BrowserContext,
): Promise<Tab> => {
  const own =
    context ??
    (await bench.browser.newContext({ locale: 'en-US', viewport: { width: 1440, height: 900 }, ...options }))
  const page = await own.newPage()
  const complaints: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
  await page.goto(bench.address)
  await page.getByRole('heading', { name: 'Shelf' }).waitFor()
  return { page, context: own, complaints }
}

/** Puts a supply for a need on the shelf and leaves it open. */
export const makeSupply = async (
  page: Page,
  name: string,
  { input = '195-265 V', output = '12 V', current = '2 A' } = {},
): Promise<void> => {
  await page.getByRole('button', { name: 'New supply' }).click()
  await page.getByLabel('Name', { exact: true }).fill(name)
  await page.getByLabel('Mains range').fill(input)
  await page.getByLabel('Output voltage').fill(output)
  await page.getByLabel('Output current').fill(current)
  await page.getByRole('button', { name: 'Put it on the shelf' }).click()
  await page.locator('.work').waitFor()
}

export const field = (page: Page, label: string) => page.getByRole('textbox', { name: label, exact: true })

/** Waits until the plate at the top says that all is saved. */
export const whenSaved = (page: Page) => page.locator('.save[data-state=saved]').waitFor()

/** A bench with a tab in which a new supply lies open, saved. */
export const benchWithSupply = async (
  name: string,
  need?: Parameters<typeof makeSupply>[2],
): Promise<{ readonly bench: Bench; readonly tab: Tab }> => {
  const bench = await openBench()
  const tab = await openTab(bench)
  await makeSupply(tab.page, name, need)
  await whenSaved(tab.page)
  return { bench, tab }
}

/** No-break spaces read as spaces. */
export const spaced = (text: string | null) => (text ?? '').replace(/\s/g, ' ')

export const firstLimit = async (page: Page) =>
  spaced(
    await page
      .locator('.limit')
      .first()
      .locator('.limit-title, .limit-margin')
      .allInnerTexts()
      .then((t) => t.join(' ')),
  )

export const expectQuiet = (tab: Tab) => expect(tab.complaints).toEqual([])
