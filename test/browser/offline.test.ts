import { copyFile, mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { readSupply } from '../../src/engine/file/file.ts'
import { launchBrowser } from '../support/browser.ts'
import { type PlainServer, plainServer, staticFolder } from '../support/static.ts'
import { expectQuiet, field, makeSupply, spaced, type Tab, whenSaved } from './page.ts'

let browser: Browser
let folder: string
let work = ''
beforeAll(async () => {
  ;[browser, folder, work] = await Promise.all([
    launchBrowser(),
    staticFolder(),
    mkdtemp(join(tmpdir(), 'gapwright-static-')),
  ])
}, 180_000)
afterAll(async () => {
  await browser?.close()
  if (work) await rm(work, { recursive: true, force: true })
})

const profile = (): Promise<BrowserContext> =>
  browser.newContext({ locale: 'en-US', viewport: { width: 1440, height: 900 } })

/** Opens the static page in a profile, and notes every address that is asked for. */
const openStatic = async (
  address: string,
  context: BrowserContext,
): Promise<Tab & { asked: Set<string> }> => {
  const asked = new Set<string>()
  context.on('request', (request) => {
    if (!/^(data|blob):/.test(request.url())) asked.add(request.url().split('#')[0]!)
  })
  const page = await context.newPage()
  const complaints: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
  await page.goto(address)
  // A first start opens on a supply of the demo, a later one on the shelf.
  const shelf = page.getByRole('heading', { name: 'Shelf' })
  await page.locator('.work').or(shelf).first().waitFor()
  await page.getByRole('link', { name: 'Gapwright' }).click()
  await shelf.waitFor()
  return { page, context, complaints, asked }
}

const download = async (page: Page, button: string): Promise<string> => {
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: button }).click(),
  ])
  return readFile(await file.path(), 'utf8')
}

/** The main job: need, edit, field and range in their workers, papers, saved, found again; then the file out. */
const mainJob = async (page: Page, name: string): Promise<string> => {
  await makeSupply(page, name, { output: '24', current: '2' })
  await page.locator('.verdict').waitFor()
  await field(page, 'Output current').fill('2.2')
  await whenSaved(page)
  await page.getByRole('button', { name: 'Transformer', exact: true }).click()
  await page.getByText('field solved').waitFor()
  await page.getByRole('button', { name: 'Answers', exact: true }).click()
  await page.locator('.range-map').waitFor()
  await page.getByRole('button', { name: 'Papers', exact: true }).click()
  await page.locator('.paper-winding-sheet').waitFor()
  await page.reload()
  await page.locator('.work').waitFor()
  expect(spaced(await field(page, 'Output current').inputValue())).toBe('2.2 A')
  await page.getByRole('link', { name: 'Gapwright' }).click()
  return download(page, `Save as a file ${name}`)
}

describe('the page as one file', () => {
  it('does the main job from a plain web server after the network is cut, and takes the file up elsewhere', async () => {
    const server = await plainServer(folder)
    const tab = await openStatic(server.address, await profile())
    await tab.page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
    await tab.page.waitForFunction(() => navigator.serviceWorker.controller !== null)
    await server.close()
    await tab.context.setOffline(true)
    await tab.page.reload()
    await tab.page.getByText('Charging wall: trolley float charger').first().waitFor()
    const text = await mainJob(tab.page, 'No network')
    const supply = readSupply(text)
    expect(supply.ok && supply.value.need.output_A).toBe(2.2)
    expect([...tab.asked].filter((address) => !address.startsWith(server.address))).toEqual([])
    expectQuiet(tab)
    await tab.context.close()

    const other = await startAgain()
    await other.page.getByLabel('Open a file or record').setInputFiles({
      name: 'no-network.supply.json',
      mimeType: 'application/json',
      buffer: Buffer.from(text),
    })
    await other.page.locator('.work').waitFor()
    await whenSaved(other.page)
    await other.page.getByRole('link', { name: 'Gapwright' }).click()
    expect(await download(other.page, 'Save as a file No network')).toBe(text)
    expectQuiet(other)
    await other.context.close()
    await other.server.close()
  })

  it('does the main job opened from a disk, with nothing beside it', async () => {
    const file = join(work, 'gapwright.html')
    await copyFile(join(folder, 'index.html'), file)
    const address = pathToFileURL(file).href
    const tab = await openStatic(address, await profile())
    await mainJob(tab.page, 'From a disk')
    expect([...tab.asked]).toEqual([address])
    expectQuiet(tab)
    await tab.context.close()
  })

  it('shows in a second tab what the first one saved, and overwrites nothing', async () => {
    const { server, page, context } = await startAgain()
    await makeSupply(page, 'Shared')
    await whenSaved(page)
    const two = await openStatic(server.address, context)
    await two.page.goto(`${server.address}#/supply/shared`)
    await two.page.locator('.work').waitFor()
    await field(page, 'Output current').fill('1.5')
    await whenSaved(page)
    await two.page.getByText('Another tab saved this; it is shown here now.').waitFor()
    expect(spaced(await field(two.page, 'Output current').inputValue())).toBe('1.5 A')

    // A tab that hears nothing of the others and saves what it has: it is told, and both contents stay.
    const deaf = await context.newPage()
    await deaf.addInitScript(() => Reflect.deleteProperty(globalThis, 'BroadcastChannel'))
    await deaf.goto(`${server.address}#/supply/shared`)
    await deaf.locator('.work').waitFor()
    await field(page, 'Output current').fill('1.6')
    await whenSaved(page)
    await field(deaf, 'Output current').fill('1.7')
    await deaf.getByText('Nothing has been overwritten.').first().waitFor()
    await deaf.getByRole('button', { name: 'Keep both' }).click()
    await deaf.locator('[data-value="Shared (edited here)"]').waitFor()
    await whenSaved(deaf)
    for (const [id, current] of [
      ['shared', '1.6 A'],
      ['shared-edited-here', '1.7 A'],
    ] as const) {
      await deaf.goto('about:blank')
      await deaf.goto(`${server.address}#/supply/${id}`)
      await deaf.locator('.work').waitFor()
      expect(spaced(await field(deaf, 'Output current').inputValue())).toBe(current)
    }
    await context.close()
    await server.close()
  })
})

/** A profile that has nothing, over a server of its own. */
async function startAgain(): Promise<Tab & { server: PlainServer }> {
  const server = await plainServer(folder)
  const tab = await openStatic(server.address, await profile())
  return { ...tab, server }
}
