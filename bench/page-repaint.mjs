// From a key pressed in a field to the next painted frame, in a real browser on the built page, over many edits.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { demoSupplies } from '../src/engine/demo/index.ts'
import { startServer } from '../src/server/server.ts'
import { launchBrowser } from '../test/support/browser.ts'

const folder = mkdtempSync(join(tmpdir(), 'gapwright-bench-'))
const server = await startServer({
  folder: join(folder, 'bench'),
  page: resolve(process.env.GAPWRIGHT_PAGE ?? 'dist/page'),
  port: 0,
  version: '0',
  firstSupplies: demoSupplies,
})
const browser = await launchBrowser()
const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, locale: 'en-US' })

const loads = []
for (let run = 0; run < 5; run += 1) {
  await page.goto('about:blank')
  const begun = performance.now()
  await page.goto(`http://127.0.0.1:${server.port}/`)
  await page.locator('.shelf-first b').first().waitFor()
  loads.push(performance.now() - begun)
}
await page.locator('.shelf-open').first().click()
await page.locator('.schematic').waitFor()

/** Edits the output current in small steps; each is timed from the input event to after the frame that shows it. */
const times = await page.evaluate(async () => {
  const input = [...document.querySelectorAll('input')].find(
    (i) => i.labels?.[0]?.textContent === 'Output current',
  )
  const put = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set
  const painted = () =>
    new Promise((done) => {
      requestAnimationFrame(() => {
        const channel = new MessageChannel()
        channel.port1.onmessage = () => done(performance.now())
        channel.port2.postMessage(null)
      })
    })
  input.focus()
  const found = []
  for (let edit = 0; edit < 120; edit += 1) {
    await new Promise((done) => setTimeout(done, 40))
    const begun = performance.now()
    put.call(input, String(3 + (edit % 17) * 0.05))
    input.dispatchEvent(new Event('input', { bubbles: true }))
    found.push((await painted()) - begun)
  }
  return found.slice(20)
})
await browser.close()
await server.close()
rmSync(folder, { recursive: true, force: true })

const at = (values, share) => values.toSorted((a, b) => a - b)[Math.floor(values.length * share)].toFixed(1)
console.table({
  'edit to repaint, ms': { median: at(times, 0.5), p95: at(times, 0.95), limit: 50 },
  'first load to the answer, ms': { median: at(loads, 0.5), p95: at(loads, 0.95), limit: 1000 },
})
