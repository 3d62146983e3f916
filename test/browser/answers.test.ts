import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { smallDrawer } from '../property/search-drawer.ts'
import { type Bench, expectQuiet, field, makeSupply, openBench, openTab, spaced, type Tab } from './page.ts'

const drawer = smallDrawer([
  'switcher-700v-9r-dip',
  'switcher-700v-18r-dip',
  'core-rm12',
  'core-pq32-30',
  'core-ee16',
  'wire-0.236mm-grade-1',
  'wire-0.5mm-triple',
  'diode-schottky-100v-20a-dual',
  'diode-schottky-150v-10a-dual',
])

let bench: Bench
let tab: Tab
beforeAll(async () => {
  bench = await openBench({ drawer })
  tab = await openTab(bench)
})
afterAll(() => bench?.close())

const textOf = async (page: Page, selector: string) =>
  spaced(await page.locator(selector).first().innerText())
/** Asks anew, with every field as it stands at first. */
const ask = async (current: string) => {
  const { page } = tab
  await page.goto('about:blank')
  await page.goto(`${bench.address}#/answers`)
  await page.getByLabel('Output current').fill(current)
}
const settled = (page: Page) =>
  page.locator('.answers-state [role=status]', { hasText: /nothing outdoes|holds every limit/ }).waitFor()

describe('what the drawer answers', () => {
  it('shows answers with their differences, and opens one as a supply that holds', async () => {
    const { page } = tab
    await ask('2 A')
    await page.locator('.answer').first().waitFor()
    await settled(page)
    const answers = page.locator('.answer')
    expect(await answers.count()).toBe(await page.locator('.front-map [role=button]').count())
    for (const text of await page.locator('.answer-difference').allInnerTexts()) expect(text).toMatch(/\.$/)
    expect(await textOf(page, '.answers-thorough')).toMatch(/candidates: .+ Seed 1:/s)
    const core = await textOf(page, '.answer h3')
    // The point on the map is a button that the keyboard reaches.
    await page.locator('.front-map [role=button]').first().focus()
    await page.keyboard.press('Enter')
    await page.locator('.work').waitFor()
    expect(await textOf(page, '.counts')).toMatch(/\b0 over/)
    expect(await page.title()).toContain(`12 V 2 A on ${core}`)
  })

  it('says for every core and chip without an answer what stops it, and by how much', async () => {
    const { page } = tab
    await ask('2 A')
    await settled(page)
    await page.getByText(/^Why not the others \(\d+\)/).click()
    const reasons = (await page.locator('.why-list li').allInnerTexts()).map(spaced)
    expect(reasons.filter((text) => /^EE16 core set .+\.$/.test(text))).toHaveLength(1)
    expect(reasons.join(' ')).toMatch(/, at (most|least) .+; .+\./)
  })

  it('stops when told, keeps what it has, and goes on from there', async () => {
    const { page } = tab
    await ask('2 A')
    await page.getByText('More of the need').click()
    await page.getByLabel('How finely').selectOption('fine')
    await page.locator('.answers-main:not([data-stale]) .answer').first().waitFor()
    await page.getByRole('button', { name: 'Stop' }).click()
    expect(await textOf(page, '.answers-state [role=status]')).toMatch(/^Stopped; \d+ answers? so far/)
    const gone = () => page.getByRole('progressbar').evaluate((bar: HTMLProgressElement) => bar.value)
    const before = await gone()
    await page.getByRole('button', { name: 'Go on' }).click()
    await page.getByText(/^Looking: /).waitFor()
    expect(await gone()).toBeGreaterThanOrEqual(before)
    await page.locator('.answer').first().waitFor()
    await page.getByRole('button', { name: 'Stop' }).click()
  })

  it('says what is wrong with a need under its field, and what stops one that nothing meets', async () => {
    const { page } = tab
    await ask('parrots')
    expect(await textOf(page, '.form-error:not(:empty)')).toContain('parrots')
    expect(await page.locator('.answers-state').count()).toBe(0)
    await page.getByLabel('Output current').fill('80 A')
    await page.getByText('Output current 80 A is over 40 A').waitFor()
    await page.getByLabel('Output current').fill('6 A')
    await settled(page)
    expect(await textOf(page, '.answers-state [role=status]')).toBe(
      'Nothing of the drawer holds every limit.',
    )
    await page.locator('.why-list li', { hasText: 'RM12 core set' }).waitFor()
  })

  it('finds the most from one core and chip', async () => {
    const { page } = tab
    await ask('2 A')
    await page.getByLabel('Core', { exact: true }).selectOption({ label: 'RM12 core set' })
    await page.getByLabel('Switcher', { exact: true }).selectOption({ index: 0 })
    await page.getByRole('button', { name: 'Find the most' }).click()
    await page.locator('.most-power .answers-verdict, .most-power .answers-wrong').waitFor()
    expect(await textOf(page, '.most-power [role=status]')).toMatch(/W: .+ A at 12 V|hold every limit at no/)
  })

  it('says what an empty drawer lacks, and leads there', async () => {
    const empty = await openBench({ drawer: { ...drawer, entries: [] } })
    const { page, complaints } = await openTab(empty)
    await page.goto(`${empty.address}#/answers`)
    await page.getByText(/^The drawer holds no ferrite core: add one\.?$/).waitFor()
    await page.getByRole('link', { name: 'Go to the drawer' }).click()
    await page.getByRole('heading', { name: 'Drawer' }).waitFor()
    expect(complaints).toEqual([])
    await empty.close()
  })
})

describe('what a supply answers', () => {
  beforeAll(async () => {
    await tab.page.goto(bench.address)
    await makeSupply(tab.page, 'Asked', { output: '12', current: '2' })
    await tab.page.getByRole('button', { name: 'Answers', exact: true }).click()
  })
  const part = (name: string) => tab.page.getByRole('button', { name, exact: true }).click()

  it('maps what the build can serve, names what binds, and tells what an output takes', async () => {
    const { page } = tab
    await part('Range')
    await page.locator('.range-map').waitFor()
    const binds = await page.locator('.range-binds li').allInnerTexts()
    expect(binds.length).toBeGreaterThan(1)
    const named = (await page.locator('.range-map .map-limit').allTextContents()).join(' ')
    expect(binds.some((title) => named.includes(title.split(' ')[0]!))).toBe(true)
    await page.locator('.range-map rect[data-spot="2 15"]').click()
    await page.locator('.answers-verdict').waitFor()
    await page.getByLabel('Output voltage').last().fill('12 V')
    await page.getByLabel('Output current').last().fill('1 A')
    await page.getByText('The divider alone does it.').waitFor()
    await page.getByText('In words').click()
    expect(await page.locator('.answers-table tbody tr').count()).toBeGreaterThan(10)
  })

  it('ranks substitutes, and takes one over as a step that can be undone', async () => {
    const { page } = tab
    await part('Substitutes')
    await page.getByLabel('Place', { exact: true }).selectOption({ label: 'Switcher' })
    const row = page.locator('.answers-table tbody tr').first()
    await row.waitFor()
    const name = await row.locator('th').innerText()
    await row.getByRole('button').click()
    await page.getByText(`Now: ${name}.`).waitFor()
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByText(`Now: ${name}.`).waitFor({ state: 'detached' })
  })

  it('mends what does not hold by the cheapest change', async () => {
    const { page } = tab
    await part('What would mend it')
    await page.getByText('Every limit holds; there is nothing to mend.').waitFor()
    const gap = field(page, 'Gap')
    const gap_mm = Number.parseFloat((await gap.getAttribute('placeholder')) ?? '')
    await gap.fill(`${(0.4 * gap_mm).toFixed(3)} mm`)
    const mended = page.locator('.mend').first()
    await mended.waitFor({ timeout: 50_000 })
    await mended.getByRole('button').click()
    await page.getByText('Every limit holds; there is nothing to mend.').waitFor()
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByText('Every limit holds; there is nothing to mend.').waitFor()
  })

  it('finds one core and chip for several needs', async () => {
    const { page } = tab
    await part('Family')
    await page.getByRole('button', { name: 'Find what serves most' }).click()
    await page.locator('.family').first().waitFor()
    expect(await textOf(page, '.family')).toMatch(/core set/)
    expectQuiet(tab)
  })
})
