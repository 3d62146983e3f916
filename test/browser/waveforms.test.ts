import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Bench, expectQuiet, field, makeSupply, openBench, openTab, spaced } from './page.ts'

let bench: Bench
beforeAll(async () => {
  bench = await openBench()
})
afterAll(() => bench?.close())

describe('waveforms', () => {
  it('shows a solved cycle, reads it by keys, follows a change of the build, and lays another build behind', async () => {
    const tab = await openTab(bench)
    const { page } = tab
    await makeSupply(page, 'Scope', { output: '12 V', current: '2 A' })
    await page.getByRole('button', { name: 'Waveforms', exact: true }).click()
    const screen = page.getByRole('slider', { name: /^Cursor: Waveforms at highest input at the crest/ })
    await screen.waitFor()
    expect(await page.locator('.lane').count()).toBe(5)

    // keys move the cursor, set a reference, and zoom
    await screen.focus()
    await page.keyboard.press('r')
    for (let presses = 0; presses < 12; presses += 1) await page.keyboard.press('ArrowRight')
    await page.locator('.scope-readout').getByText('Between').waitFor()
    expect(spaced(await screen.getAttribute('aria-valuetext'))).toMatch(/s: Drain .* V, Primary current/)
    await page.keyboard.press('+')
    expect(await page.getByRole('button', { name: 'Zoom out' }).isEnabled()).toBe(true)
    await page.keyboard.press('0')
    expect(await page.getByRole('button', { name: 'Zoom out' }).isEnabled()).toBe(false)

    // another corner, another set of waveforms
    await page.getByRole('button', { name: 'Rectifier reverse voltage', exact: true }).click()
    expect(await page.locator('.lane').count()).toBe(6)
    await page.getByRole('button', { name: 'lowest, valley' }).click()
    await page.getByText('Lowest input at the valley, 100 % load').waitFor()

    // the build as it was lies dashed behind the changed one
    await page.getByLabel('Beside it').selectOption('pinned')
    await field(page, 'Output current').fill('1,5 A')
    await page.locator('.scope .before').first().waitFor()
    await page.locator('.wave-figure[data-stale]').waitFor({ state: 'detached' })
    expect(await page.locator('.wave-bench tbody tr').count()).toBe(6)

    const deck = page.waitForEvent('download')
    await page.getByRole('button', { name: 'Save as SPICE deck' }).click()
    expect((await deck).suggestedFilename()).toBe('scope-minimum-valley-100-typical-warm.cir')
    expectQuiet(tab)
    await tab.context.close()
  })

  it('proves every corner, says which depth is on show, and leads from the limits to the proof', async () => {
    const tab = await openTab(bench)
    const { page } = tab
    await makeSupply(page, 'Proof', { output: '5 V', current: '3 A' })
    await page.getByRole('button', { name: 'Prove them in the solved circuit' }).click()
    await page.getByText(/^36 corners in /).waitFor()
    expect(await page.locator('.proof-corners > tbody > tr').count()).toBe(36)
    expect(
      await page
        .locator('#limits')
        .getByRole('button', { name: /^Proved: .* gives first$/ })
        .count(),
    ).toBe(1)
    await page.locator('.proof-corners .reading-name').first().click()
    expect(await page.locator('.proof-figures').innerText()).toContain('Clamp power')
    expect(await page.locator('.depth').innerText()).toBe('Solved circuit')

    // a change of the build makes it an old proof, and a proof can be stopped
    await field(page, 'Output current').fill('2,5 A')
    await page.getByText('The build has changed since: these are of the build before.').waitFor()
    // both presses in one go: the whole proof may take less time than a press from outside
    await page.evaluate(async () => {
      const press = (selector: string) => document.querySelector<HTMLElement>(selector)?.click()
      press('.proof-head .act')
      while (document.querySelector('.proof-head .plain') === null) await new Promise(requestAnimationFrame)
      press('.proof-head .plain')
    })
    await page.locator('.proof-head').getByRole('button', { name: 'Prove again' }).waitFor()
    await page.getByText('The build has changed since: these are of the build before.').waitFor()
    expectQuiet(tab)
    await tab.context.close()
  })

  it('runs a fault in time and tells it in a sentence, with its limits and what the bench shows', async () => {
    const tab = await openTab(bench)
    const { page } = tab
    await makeSupply(page, 'Runs', { output: '12 V', current: '2 A' })
    await page.getByRole('button', { name: 'Waveforms', exact: true }).click()
    await page.getByRole('button', { name: 'Runs in time' }).click()
    await page.getByRole('button', { name: 'Run: Secondary reversed' }).click()
    const outcome = page.locator('.run-outcome')
    await outcome.waitFor()
    expect(await outcome.innerText()).toMatch(/forward converter[\s\S]*On the bench[\s\S]*Swap the ends/)
    await outcome.getByRole('button', { name: 'Around the event' }).click()
    await outcome.getByRole('slider').waitFor()
    await page.getByRole('button', { name: 'Run: Power-up through a lamp' }).click()
    await page.getByText(/A flash as the bulk charges/).waitFor()
    expectQuiet(tab)
    await tab.context.close()
  })
})
