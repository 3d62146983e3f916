import { readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Bench, field, makeSupply, openBench, openTab, spaced, whenSaved } from './page.ts'

let bench: Bench
beforeAll(async () => {
  bench = await openBench()
})
afterAll(() => bench?.close())

describe('one supply in two places', () => {
  it('shows in the second tab what the first one saved', async () => {
    const one = await openTab(bench)
    await makeSupply(one.page, 'Shared')
    await whenSaved(one.page)
    const two = await openTab(bench, {}, one.context)
    await two.page.goto(`${bench.address}#/supply/shared`)
    await two.page.locator('.work').waitFor()
    await field(one.page, 'Output current').fill('1.5')
    await whenSaved(one.page)
    await two.page.getByText('Another tab saved this; it is shown here now.').waitFor()
    expect(spaced(await field(two.page, 'Output current').inputValue())).toBe('1.5 A')
    await one.context.close()
  })

  it('overwrites nothing that changed underneath, and keeps both on request', async () => {
    const tab = await openTab(bench)
    const { page } = tab
    await makeSupply(page, 'Contested')
    await whenSaved(page)
    const file = join(bench.server.folder, 'contested.supply.json')
    const theirs = (await readFile(file, 'utf8')).replace('"output_A": 2', '"output_A": 1')
    await writeFile(file, theirs)
    await field(page, 'Output current').fill('1.8')
    await page.getByText('Nothing has been overwritten.').waitFor()
    expect(await readFile(file, 'utf8')).toBe(theirs)
    await page.getByRole('button', { name: 'Keep both' }).click()
    await page.locator('[data-value="Contested (edited here)"]').waitFor()
    expect(spaced(await field(page, 'Output current').inputValue())).toBe('1.8 A')
    await page.goto(`${bench.address}#/supply/contested`)
    await page.locator('.work').waitFor()
    expect(spaced(await field(page, 'Output current').inputValue())).toBe('1 A')
    await tab.context.close()
  })
})
