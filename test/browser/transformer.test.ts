import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Bench, benchWithSupply, expectQuiet, openTab, spaced, type Tab, whenSaved } from './page.ts'

let bench: Bench
let tab: Tab
beforeAll(async () => {
  ;({ bench, tab } = await benchWithSupply('Coil', { output: '24', current: '2' }))
})
afterAll(() => bench?.close())

const part = async (page: Page, name: string) => {
  await page.goto(`${bench.address}#/supply/coil/winding?at=${name}`)
  await page.locator('.transformer').waitFor()
}
const solved = (page: Page) => page.locator('.solving[data-state=done]').waitFor()
const figure = (page: Page, id: string, column: number) =>
  page
    .locator(`[data-figure=${id}] td`)
    .nth(column)
    .innerText()
    .then((text) => spaced(text))
const order = (page: Page) => page.locator('.order-handle b').allInnerTexts()

describe('the transformer as wound', () => {
  it('shows field and heat of every layer, and says them in words', async () => {
    const { page } = tab
    await part(page, 'wound')
    await solved(page)
    const words = await page.locator('svg.window-map').getAttribute('aria-label')
    expect(words).toMatch(/up to [\d.]+ mT/)
    const layers = await page.locator('.layer-heat tbody tr').count()
    expect(words?.match(/layer \d+:/g)).toHaveLength(layers)
    // The layers and the leads add up to the copper loss, to the digits on show.
    const watts = (text: string) =>
      Number.parseFloat(text) * (/mW/.test(text) ? 1e-3 : /µW/.test(text) ? 1e-6 : 1)
    const cells = await page.locator('.layer-heat tr td:last-child').allInnerTexts()
    const numbers = cells.map(watts)
    const [leads, copper] = [numbers[layers]!, numbers[layers + 1]!]
    const sum = numbers.slice(0, layers).reduce((a, b) => a + b, leads)
    expect(Math.abs(sum / copper - 1)).toBeLessThan(0.02)
    const window = (await page.locator('svg.window-map .map-room').boundingBox())!
    await page.mouse.move(window.x + window.width / 2, window.y + 10)
    await page.locator('.read-out', { hasText: 'T (' }).waitFor()
    expectQuiet(tab)
  })

  it('moves a winding by key: every figure at once, the field after it, before beside now', async () => {
    const { page } = tab
    await part(page, 'wound')
    await solved(page)
    const [before, was] = [await figure(page, 'leakage', 1), await order(page)]
    expect(was).toEqual(expect.arrayContaining(['S', 'B']))
    const secondary = page.getByRole('button', { name: /^Move S, place/ })
    await secondary.focus()
    await page.keyboard.press('ArrowDown')
    await page.locator('[data-figure=leakage][data-moved]').waitFor()
    expect(await figure(page, 'leakage', 0)).toBe(before)
    expect(await figure(page, 'leakage', 1)).not.toBe(before)
    expect((await order(page)).indexOf('S')).toBe(was.indexOf('S') + 1)
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toMatch(
      /^Move S, place/,
    )
    await page.locator('.order [role=status]', { hasText: 'is now at place' }).waitFor({ state: 'attached' })
    await solved(page)
    await page.getByRole('button', { name: 'Choose for me' }).click()
    await page.locator('[data-figure=leakage] .reading-value', { hasText: before.split(' ')[0]! }).waitFor()
    expect(await order(page)).toEqual(was)
    expectQuiet(tab)
  })

  it('moves a winding by dragging it, and takes it back by undo', async () => {
    const { page } = tab
    await part(page, 'wound')
    await solved(page)
    const was = await order(page)
    const last = page.locator('.order-handle').last()
    const first = page.locator('.order-handle').first()
    await first.evaluate((handle) => handle.scrollIntoView({ block: 'center' }))
    const [from, to] = [await last.boundingBox(), await first.boundingBox()]
    await page.mouse.move(from!.x + 30, from!.y + 12)
    await page.mouse.down()
    await page.mouse.move(to!.x + 30, to!.y + 10, { steps: 8 })
    await page.locator('.order-list [data-dragged]').waitFor()
    await page.mouse.up()
    await page.getByText('Order, tape and pins are yours.').waitFor()
    expect(await order(page)).toEqual([was.at(-1), ...was.slice(0, -1)])
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByText('Order, tape and pins are chosen by the tool.').waitFor()
    expect(await order(page)).toEqual(was)
    expectQuiet(tab)
  })

  // The closed form must be on screen within 100 ms of a move on a machine that does nothing else; speed is measured
  // by benchmarks. Here it must only never wait for the field.
  it('does not wait for the field', async () => {
    const { page } = tab
    await part(page, 'wound')
    await solved(page)
    await page.locator('.order-handle').first().focus()
    await page.keyboard.press('ArrowDown')
    await page.locator('[data-figure=leakage][data-moved]').waitFor()
    await page.keyboard.press('ArrowUp')
    await page.getByRole('button', { name: 'Choose for me' }).click()
    await solved(page)
    expectQuiet(tab)
  })
})

describe('gap, wire and bench', () => {
  it('gives the gap as cut, spacers and films, and judges a reading without keeping it', async () => {
    const { page } = tab
    await part(page, 'inductance')
    const ways = await page.locator('.gap-figure').allInnerTexts()
    const [cut, spacer] = ways.map((text) => Number.parseFloat(text))
    // Legs and post of a usual core have about the same area, so a spacer is about half a cut.
    expect(spacer! / cut!).toBeGreaterThan(0.4)
    expect(spacer! / cut!).toBeLessThan(0.6)
    const lead = spaced(await page.locator('.gap-plan .lead').innerText())
    const planned = /Read ([\d.]+) (mH|µH)/.exec(lead)!
    const henries = Number(planned[1]) * (planned[2] === 'mH' ? 1e-3 : 1e-6)
    await page.getByRole('textbox', { name: 'I measured' }).fill(`${henries * 1.8e3} mH`)
    await page.locator('.gate-words[data-verdict=reject]', { hasText: /half the gap/i }).waitFor()
    await page.getByRole('textbox', { name: 'I measured' }).fill('x')
    await page.getByText('“x” is no value').waitFor()
    await page.getByRole('textbox', { name: 'I measured' }).fill('')
    expect(await page.locator('svg.chart').count()).toBe(2)
    expectQuiet(tab)
  })

  it('shows the best conductor of each winding', async () => {
    const { page } = tab
    await part(page, 'conductor')
    await page.locator('svg.chart').nth(3).waitFor()
    const labels = await page
      .locator('svg.chart')
      .evaluateAll((all) => all.map((s) => s.getAttribute('aria-label')))
    for (const label of labels) expect(label).toMatch(/now .* at .*least .* at |least .* at .*now .* at /)
    expectQuiet(tab)
  })

  it('takes readings with their meter, gives a verdict, and gives the plan back when they are cleared', async () => {
    const { page } = tab
    await part(page, 'measured')
    await page.getByText('Nothing measured yet').waitFor()
    const aiding = page.getByRole('textbox', { name: 'Primary and secondary in series, aiding', exact: true })
    const opposing = page.getByRole('textbox', { name: 'The same, opposing', exact: true })
    await aiding.fill('0.4 mH')
    await opposing.fill('0,8 mH')
    await page.locator('.gate[data-verdict=reject]', { hasText: 'winding is reversed' }).waitFor()
    await page.getByRole('textbox', { name: '± of: The same, opposing' }).fill('1')
    await whenSaved(page)
    await page.reload()
    await page.locator('.gate[data-verdict=reject]').waitFor()
    expect(spaced(await opposing.inputValue())).toBe('800 µH')
    expect(spaced(await page.getByRole('textbox', { name: '± of: The same, opposing' }).inputValue())).toBe(
      '1 %',
    )
    await aiding.fill('')
    await opposing.fill('')
    await page.getByText('Nothing measured yet').waitFor()
    expectQuiet(tab)
  })

  it('takes pulse, volts and insulation, each with its sentence, and says what is wrong with what was typed', async () => {
    const { page } = tab
    await part(page, 'measured')
    await page.getByText('Nothing measured yet').waitFor()
    const row = (name: string) => page.getByRole('row', { name })
    const cell = (name: string) => page.getByRole('textbox', { name, exact: true })
    const [volts, pulse, insulation] = [
      'Primary volts over secondary volts',
      'Current at which a pulse on the primary bends',
      'Insulation: primary, bias and core to secondary',
    ] as const
    const shows = page.locator('.bench-shows')
    const expected = async (name: string) => spaced(await row(name).getByRole('cell').first().innerText())
    await cell(insulation).fill('> 2G')
    await shows.getByText(/GΩ between the sides at 500\sV dc.*certifies nothing/).waitFor()
    await page.locator('.gate[data-verdict=accept]').waitFor()
    await cell(`Test voltage of: ${insulation}`).fill('9 V')
    await page.locator('.gate[data-verdict=adjust]', { hasText: 'finds gross faults only' }).waitFor()
    await cell(`Test voltage of: ${insulation}`).fill('50 kV')
    await row(insulation)
      .getByText(/^Test voltage: 50\skV is over 10\skV$/)
      .waitFor()
    await cell(`Test voltage of: ${insulation}`).fill('500')
    await cell(insulation).fill('20M')
    await page.locator('.gate[data-verdict=reject]', { hasText: 'do not fit this transformer' }).waitFor()
    await cell(insulation).fill('')

    const turnsRatio = Number.parseFloat(await expected(volts))
    await cell(volts).fill('5 V / 0.6 V / 3')
    await row(volts).getByText('is no value').waitFor()
    await cell(volts).fill(`${turnsRatio} V / 1000 mV`)
    const right = shows.getByText(/ of secondary to \d+ of primary, as planned/)
    const turns = Number.parseInt(/say (\d+) turn/.exec(await right.innerText())![1]!, 10)
    await cell(volts).fill(`10 / ${((10 * (turns + 1)) / turns / turnsRatio).toFixed(4)}`)
    await page.locator('.gate[data-verdict=reject]', { hasText: /1 turn too many/ }).waitFor()
    await cell(volts).fill('')

    const bend = Number.parseFloat(await expected(pulse))
    await cell(pulse).fill(`${bend} A`)
    await shows.getByText(/gap and material together are as assumed.*hot it comes down/).waitFor()
    await cell(pulse).fill(`${(bend / 3).toFixed(2)} A`)
    await page.locator('.gate[data-verdict=reject]', { hasText: /do not power/ }).waitFor()
    await whenSaved(page)
    await page.reload()
    await page.locator('.gate[data-verdict=reject]').waitFor()
    expect(spaced(await cell(`Instrument of: ${pulse}`).inputValue())).toBe('pulse tester')
    // The limits follow the reading.
    await page.locator('.limit', { hasText: 'Flux at the greatest current limit' }).first().waitFor()
    await cell(pulse).fill('')
    await page.getByText('Nothing measured yet').waitFor()
    expectQuiet(tab)
  })

  it('puts a core of one’s own into the drawer', async () => {
    const { page } = tab
    await part(page, 'own-core')
    await page.getByRole('button', { name: 'Start from the core in use' }).click()
    await page.getByRole('textbox', { name: 'E, over both windows' }).focus()
    await page.locator('.calliper-dimension.is-marked').waitFor()
    await page.getByRole('textbox', { name: 'Test turns on the post' }).fill('20')
    await page.getByRole('textbox', { name: 'Reads, halves closed' }).fill('880 uH')
    await page.locator('.own-found', { hasText: 'Permeability as found' }).waitFor()
    await page.getByRole('button', { name: 'Put core and ferrite into the drawer' }).click()
    await page.getByText(/is in the drawer, with a ferrite/).waitFor()
    await page.goto(`${bench.address}#/drawer`)
    await page.getByRole('searchbox').fill('own core')
    await page.getByText(/^Own core .*, measured$/).waitFor()
    expectQuiet(tab)
  })

  it('tells the class of a ring without a name', async () => {
    const { page } = tab
    await part(page, 'own-core')
    const typed: [string, string][] = [
      ['Outer diameter', '27 mm'],
      ['Hole', '14'],
      ['Height', '11'],
      ['Test turns through the hole', '20'],
      ['Ring reads', '43 uH'],
    ]
    for (const [name, text] of typed) await page.getByRole('textbox', { name, exact: true }).fill(text)
    // AL = L / N²; permeability = AL le / (mu0 Ae): a ring of 27/14/11 mm and 75 is powder.
    const found = page.locator('.own-found', { hasText: 'iron or alloy powder' })
    await found.getByText(/^107\.5?\snH ±|^108\snH ±/).waitFor()
    const mu = await found.locator('dd').nth(1).innerText()
    const [outer, inner, height] = [27e-3, 14e-3, 11e-3]
    const plain = (107.5e-9 * 2 * Math.PI) / (4e-7 * Math.PI * height * Math.log(outer / inner))
    expect(Number.parseFloat(mu) / plain).toBeGreaterThan(0.97)
    expect(Number.parseFloat(mu) / plain).toBeLessThan(1.03)
    await page.getByRole('textbox', { name: 'Hole', exact: true }).fill('30 mm')
    await page.locator('.problem', { hasText: /inner|hole/i }).waitFor()
    expectQuiet(tab)
  })
})

describe.each(['light', 'dark'] as const)('in %s', (colorScheme) => {
  it.each(['wound', 'inductance', 'conductor', 'measured', 'own-core'])(
    '%s has nothing that axe objects to',
    async (name) => {
      const other = await openTab(bench, { colorScheme, reducedMotion: 'reduce' })
      await part(other.page, name)
      if (name === 'wound') await solved(other.page)
      const { violations } = await new AxeBuilder({ page: other.page }).analyze()
      expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(' | ')}`)).toEqual(
        [],
      )
      await other.context.close()
    },
  )
})

describe('on a phone', () => {
  it('nothing scrolls the page sideways', async () => {
    const phone = await openTab(bench, {
      viewport: { width: 360, height: 740 },
      hasTouch: true,
      isMobile: true,
    })
    for (const name of ['wound', 'inductance', 'conductor', 'measured', 'own-core']) {
      await part(phone.page, name)
      const over = await phone.page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      )
      expect({ name, over }).toEqual({ name, over: 0 })
    }
    expectQuiet(phone)
    await phone.context.close()
  })
})
