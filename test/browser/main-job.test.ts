import { readdir } from 'node:fs/promises'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import {
  type Bench,
  expectQuiet,
  field,
  firstLimit,
  makeSupply,
  openBench,
  openTab,
  spaced,
  whenSaved,
} from './page.ts'

let bench: Bench
beforeAll(async () => {
  bench = await openBench()
})
afterAll(() => bench?.close())

describe('the main job', () => {
  it('goes from a need to a supply that holds, is changed, mended, saved and found again', async () => {
    const tab = await openTab(bench)
    const { page } = tab
    await makeSupply(page, 'Tool wall', { output: '24', current: '3' })
    await page.getByRole('heading', { name: /gives first\./ }).waitFor()

    // A need that the parts cannot meet breaks a limit, and says which.
    await field(page, 'Output current').fill('5,5 A')
    await page.locator('.verdict[data-state=over]').waitFor()
    const broken = await firstLimit(page)
    await field(page, 'Output current').fill('3 A')
    await page.locator('.verdict[data-state=over]').waitFor({ state: 'detached' })
    expect(await firstLimit(page)).not.toBe(broken)

    // A free choice is fixed by typing and given back by emptying the field.
    const secondary = field(page, 'Secondary turns')
    const chosen = Number(await secondary.getAttribute('placeholder'))
    expect(chosen).toBeGreaterThan(0)
    await secondary.fill(String(chosen + 3))
    await page.getByRole('button', { name: 'Let the tool choose Secondary turns' }).waitFor()
    await page
      .locator('.figures-wound dd')
      .first()
      .filter({ hasText: `: ${chosen + 3} :` })
      .waitFor()
    await secondary.fill('')
    await page.getByRole('button', { name: 'Fix Secondary turns where it is' }).waitFor()

    // A part is taken from the drawer; what it would do stands beside it.
    await page.getByRole('button', { name: /^Choose Rectifier:/ }).click()
    const sheet = page.getByRole('dialog')
    await sheet.getByLabel('Find by name or rating').fill('45 V 3 A')
    await sheet.locator('.picker-room[data-state=over]').first().waitFor()
    await sheet.getByRole('button', { name: /^Use / }).first().click()
    await expect.poll(() => firstLimit(page), { timeout: 20_000 }).toMatch(/Rectifier/)
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByText(/^Undone: Rectifier/).waitFor()
    await expect.poll(() => firstLimit(page), { timeout: 20_000 }).not.toMatch(/Rectifier/)

    await whenSaved(page)
    const before = await page.locator('.limits').innerText()
    await page.reload()
    await page.locator('.work').waitFor()
    expect(await field(page, 'Output current').inputValue().then(spaced)).toBe('3 A')
    expect(await page.locator('.limits').innerText()).toBe(before)
    expect(await readdir(bench.server.folder)).toContain('tool-wall.supply.json')
    expectQuiet(tab)
    await tab.context.close()
  })

  it('leads from a limit to the field that mends it, and from a part of the schematic to what is known of it', async () => {
    const tab = await openTab(bench)
    const { page } = tab
    await makeSupply(page, 'Leads')
    const limit = page.locator('.limit', { hasText: 'Drain voltage' }).first()
    await limit.locator('.limit-head').click()
    await limit.getByRole('button', { name: /^Go to U1/ }).click()
    await page.waitForFunction(() =>
      document.activeElement?.getAttribute('aria-label')?.startsWith('Choose Switcher'),
    )
    await page.locator('.schematic .part[data-spot=rectifier]').focus()
    await page.keyboard.press('Enter')
    const card = page.getByRole('complementary', { name: 'Rectifier' })
    await card.waitFor()
    expect(await card.innerText()).toContain('Rectifier reverse peak')
    expect(page.url()).toContain('at=rectifier')
    await page.getByRole('button', { name: 'Readings', exact: true }).click()
    await page.getByRole('button', { name: 'Primary peak current' }).click()
    expect(await page.locator('.reading-more').innerText()).toContain('Sets flux and leakage energy')
    await page.getByRole('button', { name: 'Heat', exact: true }).click()
    await page.locator('.budget tbody td').first().waitFor()
    const shares = await page.locator('.budget').first().locator('tbody td:last-child').allInnerTexts()
    const sum = shares.reduce((total, text) => total + Number.parseFloat(text), 0)
    expect(Math.abs(sum - 100)).toBeLessThan(3) // whole percents, about twenty of them
    expectQuiet(tab)
    await tab.context.close()
  })

  it('keeps several supplies: copies, compares, removes and puts back', async () => {
    const tab = await openTab(bench)
    const { page } = tab
    await makeSupply(page, 'Twin', { output: '5', current: '4' })
    await whenSaved(page)
    await page.getByRole('button', { name: 'Shelf', exact: true }).click()
    await page.getByRole('button', { name: 'Duplicate Twin', exact: true }).click()
    await page.getByRole('heading', { name: 'Twin (copy)' }).click()
    await field(page, 'Output current').fill('3')
    await whenSaved(page)
    await page.goto(`${bench.address}#/compare/twin/twin-copy`)
    const row = page.locator('.compare-table tr', { hasText: 'Output current' }).first()
    expect(spaced(await row.innerText())).toMatch(/4 A.*3 A/)
    await page.goto(bench.address)
    await page.getByRole('button', { name: 'Delete Twin (copy)' }).click()
    await page.getByText('Twin (copy) is off the shelf.').waitFor()
    await page.getByRole('contentinfo').getByRole('button', { name: 'Undo' }).click()
    await page.getByRole('heading', { name: 'Twin (copy)' }).waitFor()
    expectQuiet(tab)
    await tab.context.close()
  })
})
