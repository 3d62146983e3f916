import { readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { drawerText } from '../../src/engine/file/file.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import { type Bench, expectQuiet, openBench, openTab } from './page.ts'

let bench: Bench
beforeAll(async () => {
  bench = await openBench()
})
afterAll(() => bench?.close())

describe('the drawer', () => {
  it('edits, copies, takes out, undoes, and goes through CSV and back', async () => {
    const tab = await openTab(bench)
    const { page } = tab
    await page.getByRole('button', { name: 'Drawer', exact: true }).click()
    await page.getByRole('button', { name: /^Fuses/ }).click()
    const rows = page.locator('.drawer-table tbody tr')
    const count = await rows.count()
    await page
      .getByRole('button', { name: /^Copy as new/ })
      .first()
      .click()
    const sheet = page.getByRole('dialog')
    await sheet.getByLabel('Name').fill('Fuse from the box')
    await sheet.getByLabel(/^Rated/).fill('three')
    await sheet.getByRole('button', { name: 'Keep' }).click()
    expect(await sheet.locator('.form-error', { hasText: 'three' }).count()).toBe(1)
    await sheet.getByLabel(/^Rated/).fill('3.15 A')
    await sheet.getByRole('button', { name: 'Keep' }).click()
    await sheet.waitFor({ state: 'detached' })
    expect(await rows.count()).toBe(count + 1)
    await page.getByRole('button', { name: 'Take out: Fuse from the box' }).click()
    expect(await rows.count()).toBe(count)
    await page.getByRole('contentinfo').getByRole('button', { name: 'Undo' }).click()
    expect(await rows.count()).toBe(count + 1)

    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as CSV' }).click(),
    ])
    const csv = await download.path()
    await page.getByRole('button', { name: 'Take out: Fuse from the box' }).click()
    await page
      .getByLabel('Add from a file')
      .setInputFiles({ name: 'bad.csv', mimeType: 'text/csv', buffer: Buffer.from('kind,id\nfuse,x y\n') })
    await page.getByText('bad.csv was not taken in; nothing has changed.').waitFor()
    expect(await rows.count()).toBe(count)
    await page.getByLabel('Add from a file').setInputFiles(csv)
    await page.getByText(/parts read/).waitFor()
    expect(await rows.count()).toBe(count + 1)
    await page.locator('.save[data-state=saved]').waitFor()
    await page.reload()
    await page.getByRole('button', { name: /^Fuses/ }).click()
    expect(await rows.count()).toBe(count + 1)
    expectQuiet(tab)
    await tab.context.close()
  })

  it('names part, field and what is wanted in a drawer file that was edited by hand, and leaves the file alone', async () => {
    const content = JSON.parse(drawerText(starterDrawer))
    const { part } = content.entries.find((e: { part: { kind: string } }) => e.part.kind === 'switcher')
    delete part.drainVoltage_V
    const text = JSON.stringify(content)
    const said = /drainVoltage_V: is missing in "700 V, .+"; wanted is a value in V, such as 700/
    const tab = await openTab(bench)
    const { page } = tab
    await page.goto(`${bench.address}#/drawer`)
    await page
      .getByLabel('Add from a file')
      .setInputFiles({ name: 'mine.json', mimeType: 'application/json', buffer: Buffer.from(text) })
    await page.getByText('mine.json was not taken in; nothing has changed.').waitFor()
    await page.getByText(said).waitFor()
    await page.locator('.drawer-table tbody tr').first().waitFor()

    const own = await openBench()
    try {
      const file = join(own.server.folder, 'drawer.json')
      await writeFile(file, text)
      const other = await openTab(own)
      await other.page.goto(`${own.address}#/answers`)
      await other.page.getByRole('alert').getByText(said).waitFor()
      await other.page.goto(`${own.address}#/drawer`)
      await other.page.getByRole('alert').getByText(said).waitFor()
      await other.page
        .getByRole('button', { name: /^Take out: / })
        .first()
        .click()
      await other.page.locator('.save:not([data-state=saved])').waitFor()
      expect(await readFile(file, 'utf8')).toBe(text)
    } finally {
      await own.close()
    }
    await tab.context.close()
  })
})
