import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import {
  type Bench,
  benchWithSupply,
  expectQuiet,
  makeSupply,
  openTab,
  spaced,
  type Tab,
  whenSaved,
} from './page.ts'

let bench: Bench
let tab: Tab
beforeAll(async () => {
  ;({ bench, tab } = await benchWithSupply('Lit', { output: '12', current: '2' }))
})
afterAll(() => bench?.close())

const part = async (page: Page, name: string, id = 'lit') => {
  await page.goto(`${bench.address}#/supply/${id}/first-light?at=${name}`)
  await page.locator('.first-light .parts').waitFor()
  await page.locator('.fl-stages, .fl-finder, .fl-noise, .fl-log').first().waitFor()
}
const reading = (page: Page, what: string) =>
  page.getByRole('textbox', { name: `Reading: ${what}`, exact: true })
const type = async (page: Page, what: string, text: string) => {
  await reading(page, what).fill(text)
  await reading(page, what).press('Enter')
}
const card = (page: Page, id: string) => page.locator(`[id="check-${id}"]`)
const openStage = async (page: Page, id: string) => {
  const head = page.locator(`#stage-${id} .fl-stage-head`)
  if ((await head.getAttribute('aria-expanded')) !== 'true') await head.click()
}

describe('the power-up plan', () => {
  it('has a number with a band, or an answer, for every check, and no live stage is open', async () => {
    const { page } = tab
    await part(page, 'plan')
    const stages = page.locator('.fl-stage')
    expect(await stages.count()).toBeGreaterThanOrEqual(13)
    for (const live of await page.locator('.fl-stage:has(.fl-live)').all())
      expect(await live.getAttribute('data-state')).toBe('locked')
    const expected = await page.locator('#stage-cold .fl-expect b').allInnerTexts()
    await openStage(page, 'sign-off')
    expect(await page.locator('#stage-sign-off .fl-stage-tick').isDisabled()).toBe(true)
    expect(expected.length).toBeGreaterThan(10)
    for (const text of expected) expect(text.trim()).not.toBe('')
    expectQuiet(tab)
  })

  it('says how to take a reading with what is owned, else what is risked', async () => {
    const { page } = tab
    await part(page, 'plan')
    await openStage(page, 'transformer')
    const inductance = card(page, 'transformer.inductance')
    await inductance.getByText('Skipped.').waitFor()
    const setUp = page.locator('.fl-setup')
    if ((await setUp.getAttribute('open')) === null) await setUp.locator('summary').click()
    await page.getByLabel('LCR meter').check()
    await reading(page, 'Primary inductance, all else open').waitFor()
    expectQuiet(tab)
  })

  it('takes readings as people write them, and flags at once what is out of line', async () => {
    const { page } = tab
    await part(page, 'plan')
    await openStage(page, 'cold')
    await type(page, 'Voltage left on the bulk capacitor', '0,3')
    await card(page, 'cold.discharged').getByText('In band').waitFor()
    await type(page, 'Plug to bridge, one line', 'OL')
    await card(page, 'cold.input-ohm').getByText('High', { exact: true }).first().waitFor()
    await card(page, 'cold.input-ohm').locator('.fl-result b', { hasText: 'OL' }).waitFor()
    await type(page, 'Plug to bridge, one line', 'lots')
    await page.getByText('“lots” is no value').waitFor()
    await reading(page, 'Plug to bridge, one line').fill('')
    await type(page, 'Across the bulk capacitor', '0.9k')
    await card(page, 'cold.bulk-ohm').getByText('No power.').waitFor()
    await page.locator('.fl-flags[data-stop]', { hasText: 'Across the bulk capacitor' }).waitFor()
    // A stage with a reading that says stop cannot be ticked.
    expect(await page.locator('#stage-cold .fl-stage-tick').isDisabled()).toBe(true)
    expectQuiet(tab)
  })

  it('keeps readings with date and time in the supply, and gives them back after a reload', async () => {
    const { page } = tab
    await part(page, 'plan')
    await whenSaved(page)
    await page.reload()
    await part(page, 'log')
    const rows = await page.locator('.fl-log li').allInnerTexts()
    expect(rows).toHaveLength(3)
    expect(spaced(rows[0]!)).toMatch(/\d{4}-\d\d-\d\d \d\d:\d\d\s+Across the bulk capacitor\s+900 Ω/)
    expectQuiet(tab)
  })

  it('unlocks the next stage by ticks, live ones only after the unpowered ones', async () => {
    const { page } = tab
    await part(page, 'plan')
    await openStage(page, 'cold')
    await type(page, 'Across the bulk capacitor', '1 Mohm')
    await type(page, 'Plug to bridge, one line', '9')
    for (const id of ['cold', 'transformer', 'low-energy']) {
      await openStage(page, id)
      await page.locator(`#stage-${id} .fl-stage-tick`).click()
      await page.locator(`#stage-${id}[data-state=done]`).waitFor()
    }
    await page.locator('#stage-lamp[data-state=open]').waitFor()
    await openStage(page, 'lamp')
    // Nothing live is left before it was discharged and read.
    const tickLamp = page.locator('#stage-lamp .fl-stage-tick')
    expect(await tickLamp.isDisabled()).toBe(true)
    await page.locator('#stage-lamp').getByLabel('Unplugged, discharged, read').check()
    expect(await tickLamp.isDisabled()).toBe(false)
    await page.locator('#stage-low-energy .fl-stage-head').click()
    await page.getByRole('button', { name: 'Take the tick back' }).click()
    await page.locator('#stage-lamp[data-state=locked]').waitFor()
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.locator('#stage-lamp[data-state=open]').waitFor()
    expectQuiet(tab)
  })

  it('shows bulk and filament behind the lamp over seconds, in words too', async () => {
    const { page } = tab
    await part(page, 'plan')
    await openStage(page, 'lamp')
    const words = () => page.locator('svg.plot.lamp').getAttribute('aria-label').then(spaced)
    expect(await words()).toMatch(/healthy: bulk ends at 3\d\d V/)
    await page.getByRole('button', { name: 'Shorted behind it' }).click()
    // 230 V on a lamp of 230 V: it burns at its full 2800 K.
    expect(await words()).toMatch(/shorted behind it: bulk ends at .*filament gets to 2[78]\d\d K \(full\)/)
    expectQuiet(tab)
  })

  it('offers a measured transformer as built, with instrument, frequency and accuracy, and judges it', async () => {
    const { page } = tab
    await part(page, 'plan')
    await openStage(page, 'transformer')
    const inductance = card(page, 'transformer.inductance')
    const planned = spaced(await inductance.locator('.fl-expect').innerText())
    const [, value, unit] = /about ([\d.]+) (mH|µH)/.exec(planned)!
    await type(page, 'Primary inductance, all else open', value!)
    await inductance.getByText('lacks its unit').waitFor()
    await type(page, 'Primary inductance, all else open', `${value} ${unit}`)
    await inductance.getByRole('textbox', { name: /^±/ }).fill('1')
    await inductance.getByRole('button', { name: 'Keep as built' }).click()
    await inductance.getByText(/Kept as built:.*LCR meter at\s10\skHz ±\s1\s%/).waitFor()
    await page.locator('#stage-transformer .gate[data-verdict=accept]').waitFor()
    expectQuiet(tab)
  })

  it('offers insulation as built with its test voltage, and a few volts are judged as such', async () => {
    const { page } = tab
    await part(page, 'plan')
    await openStage(page, 'transformer')
    const what = 'Primary and core to secondary'
    const insulation = card(page, 'transformer.insulation')
    await type(page, what, '3 GΩ')
    await insulation.getByRole('textbox', { name: `Test voltage: ${what}` }).fill('9 V')
    await insulation.getByRole('button', { name: 'Keep as built' }).click()
    await insulation.getByText(/Kept as built:.*at\s9\sV ±/).waitFor()
    await page.locator('#stage-transformer .gate[data-verdict=adjust]', { hasText: 'gross faults' }).waitFor()
    expectQuiet(tab)
  })
})

describe('the fault finder', () => {
  it('ranks a shorted switch first from readings, and asks for what tells the leaders apart', async () => {
    const { page } = tab
    await page.goto(bench.address)
    await makeSupply(page, 'Broken', { output: '12', current: '2' })
    await whenSaved(page)
    await part(page, 'finder', 'broken')
    await page.getByText(/faults, each read off this very supply/).waitFor()
    await page.getByRole('searchbox', { name: 'Add a symptom or a reading' }).fill('drain to primary return')
    await type(page, 'Drain to primary return', '2')
    await page.locator('.fl-ranking').waitFor()
    expect(await page.locator('.fl-cause-title').first().innerText()).toMatch(/short/i)
    await page.locator('.fl-outcomes tr').nth(1).waitFor()
    const next = await page.locator('.fl-answer-columns .fl-check h4').innerText()
    expect(next).not.toMatch(/Drain to primary return/)
    // A reading left out no longer counts.
    await page.getByRole('checkbox', { name: 'Count: Drain to primary return' }).uncheck()
    await page.locator('.fl-ranking').waitFor({ state: 'detached' })
    expectQuiet(tab)
  })

  it('has its table at once when it comes back, kept by the browser', async () => {
    const { page } = tab
    await page.reload()
    await part(page, 'finder', 'broken')
    await page.getByText(/faults, each read off this very supply/).waitFor({ timeout: 4000 })
    expect(await page.evaluate(async () => (await indexedDB.databases()).map((d) => d.name))).toContain(
      'gapwright-bench',
    )
    expectQuiet(tab)
  })

  it('leads from a sound to what it is', async () => {
    const { page } = tab
    await part(page, 'noise')
    for (let k = 0; k < 8 && (await page.locator('.fl-question').count()) > 0; k += 1)
      await page.locator('.fl-question .fl-answer').first().click()
    await page.locator('.fl-verdict .fl-urgency').waitFor()
    await page.getByRole('button', { name: 'From the beginning' }).click()
    await page.locator('.fl-question').waitFor()
    expectQuiet(tab)
  })
})

describe('the mains side', () => {
  it('answers bulk, inrush, emission, harmonics and barrier for this supply', async () => {
    const { page } = tab
    await page.goto(`${bench.address}#/supply/lit/mains`)
    await page.locator('.mains').waitFor()
    const labels = await page
      .locator('.mains svg[role=img]')
      .evaluateAll((all) => all.map((s) => s.getAttribute('aria-label') ?? ''))
    expect(labels).toHaveLength(4)
    expect(spaced(labels[0]!)).toMatch(/crest 3\d\d V at the highest/)
    await page.getByText('is not above 75 W').waitFor()
    const common = () => page.locator('.mains svg.lines .second').nth(1).getAttribute('d')
    const floating = await common()
    await page.getByRole('button', { name: 'Output earthed', exact: true }).click()
    expect(await common()).not.toBe(floating)
    await page
      .getByRole('row', { name: /^optocoupler creepage/ })
      .getByText('reached')
      .waitFor()
    expect(await page.locator('.mains').innerText()).not.toMatch(/\b(safe|complies)\b/i)
    expectQuiet(tab)
  })
})

describe.each(['light', 'dark'] as const)('in %s', (colorScheme) => {
  it.each(['plan', 'finder', 'noise', 'log', 'mains'])('%s has nothing that axe objects to', async (name) => {
    const other = await openTab(bench, { colorScheme, reducedMotion: 'reduce' })
    if (name === 'mains') {
      await other.page.goto(`${bench.address}#/supply/lit/mains`)
      await other.page.locator('.mains').waitFor()
    } else await part(other.page, name)
    if (name === 'plan') {
      await openStage(other.page, 'lamp')
      await other.page.locator('svg.plot.lamp').waitFor()
    }
    if (name === 'finder') await other.page.locator('.fl-ranking').waitFor()
    const { violations } = await new AxeBuilder({ page: other.page }).analyze()
    expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(' | ')}`)).toEqual(
      [],
    )
    await other.context.close()
  })
})

describe('on a phone', () => {
  it('shows the bench alone, and nothing scrolls the page sideways', async () => {
    const phone = await openTab(bench, {
      viewport: { width: 320, height: 640 },
      hasTouch: true,
      isMobile: true,
    })
    for (const name of ['plan', 'finder', 'noise', 'log']) {
      await part(phone.page, name)
      const over = await phone.page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      )
      expect({ name, over }).toEqual({ name, over: 0 })
    }
    await part(phone.page, 'plan')
    expect(await phone.page.locator('.work-left').isVisible()).toBe(false)
    await openStage(phone.page, 'lamp')
    const answer = await phone.page.locator('#stage-lamp .fl-answer').first().boundingBox()
    // 44 px is the least target of WCAG 2.5.5.
    expect(answer!.height).toBeGreaterThanOrEqual(44)
    await phone.page.goto(`${bench.address}#/supply/lit/mains`)
    await phone.page.locator('.mains').waitFor()
    expect(
      await phone.page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      ),
    ).toBe(0)
    expectQuiet(phone)
    await phone.context.close()
  })
})
