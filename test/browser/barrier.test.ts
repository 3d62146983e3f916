import { afterAll, beforeAll, expect, it } from 'vitest'
import {
  type Bench,
  expectQuiet,
  field,
  firstLimit,
  makeSupply,
  openBench,
  openTab,
  whenSaved,
} from './page.ts'

let bench: Bench
beforeAll(async () => {
  bench = await openBench()
})
afterAll(() => bench.close())

it('takes the board as measured, ranks it, and asks whether the output is earthed', async () => {
  const tab = await openTab(bench)
  const { page } = tab
  await makeSupply(page, 'Barrier')
  await page.getByRole('checkbox', { name: 'Output earthed' }).check()
  await page.evaluate(() => {
    location.hash = location.hash.replace(/(\/supply\/[^/]+).*/, '$1/mains')
  })
  const board = field(page, 'Shortest way along the board')
  await board.fill('3')
  await expect.poll(() => firstLimit(page)).toMatch(/Creepage along the board/)
  await board.fill('near')
  expect(await page.locator('.typed-error').innerText()).toMatch(/“near” is no length/)
  await board.fill('8 mm')
  await expect.poll(() => firstLimit(page)).not.toMatch(/Creepage along the board/)
  await board.press('Enter')
  await whenSaved(page)
  await page.reload()
  expect(await board.inputValue()).toMatch(/^8\smm$/)
  expect(await page.getByRole('checkbox', { name: 'Output earthed' }).isChecked()).toBe(true)
  expectQuiet(tab)
})
