import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { readSupply } from '../../src/engine/file/file.ts'
import { type Bench, expectQuiet, field, makeSupply, openBench, openTab, whenSaved } from './page.ts'

let bench: Bench
let other: Bench
beforeAll(async () => {
  ;[bench, other] = await Promise.all([openBench(), openBench()])
})
afterAll(() => Promise.all([bench?.close(), other?.close()]))

const exportRecord = async (page: Page, to: string): Promise<void> => {
  await page.getByRole('button', { name: 'Papers', exact: true }).click()
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save the build record' }).click(),
  ])
  expect(file.suggestedFilename()).toBe('to-be-shared.record.html')
  await file.saveAs(to)
}

describe('a build record', () => {
  it('leaves one page, reads as a document in a clean profile, and comes back as the same file in another', async () => {
    const tab = await openTab(bench)
    const { page } = tab
    await makeSupply(page, 'To be shared', { output: '24', current: '2' })
    await field(page, 'Secondary turns').fill('14')
    await whenSaved(page)
    const record = join(bench.server.folder, 'to-be-shared.record.html')
    await exportRecord(page, record)
    expectQuiet(tab)
    const written = await readFile(join(bench.server.folder, 'to-be-shared.supply.json'), 'utf8')
    await tab.context.close()

    const reader = await other.browser.newContext({ locale: 'en-US' })
    const document = await reader.newPage()
    const asked: string[] = []
    reader.on('request', (request) => asked.push(request.url()))
    await document.goto(pathToFileURL(record).href)
    await document
      .getByRole('heading', { name: /Winding sheet/ })
      .first()
      .waitFor()
    expect(await document.locator('script, iframe, object, embed, link').count()).toBe(0)
    expect(asked).toEqual([pathToFileURL(record).href])
    await reader.close()

    const second = await openTab(other)
    await second.page.getByLabel('Open a file or record').setInputFiles(record)
    await second.page.locator('.work').waitFor()
    await whenSaved(second.page)
    const again = await readFile(join(other.server.folder, 'to-be-shared.supply.json'), 'utf8')
    expect(readSupply(again).ok).toBe(true)
    expect(again).toBe(written)
    expectQuiet(second)
    await second.context.close()
  })
})
