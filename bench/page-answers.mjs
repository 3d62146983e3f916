// In a real browser on the built page: from asking the drawer to the first answers on screen, to all of them, and from
// opening a supply's range to its map.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { demoSupplies } from '../src/engine/demo/index.ts'
import { startServer } from '../src/server/server.ts'
import { launchBrowser } from '../test/support/browser.ts'

const folder = mkdtempSync(join(tmpdir(), 'gapwright-bench-'))
const supplies = demoSupplies()
const server = await startServer({
  folder: join(folder, 'bench'),
  page: resolve(process.env.GAPWRIGHT_PAGE ?? 'dist/page'),
  port: 0,
  version: '0',
  firstSupplies: () => supplies,
})
const browser = await launchBrowser()
const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, locale: 'en-US' })
page.setDefaultTimeout(300_000)

/** Goes to an address inside the page and waits, frame by frame, until something is there. */
const until = (hash, selector) =>
  page.evaluate(
    async ([to, wanted]) => {
      const begun = performance.now()
      location.hash = to
      while (document.querySelector(wanted) === null) await new Promise(requestAnimationFrame)
      return performance.now() - begun
    },
    [hash, selector],
  )
const afresh = async () => {
  await page.goto('about:blank')
  await page.goto(`http://127.0.0.1:${server.port}/#/`)
  await page.locator('.shelf-first b').nth(2).waitFor()
  // A person comes to the link before pressing it; the page loads ahead meanwhile.
  await page.getByRole('button', { name: 'What can I build?' }).hover()
  await page.waitForTimeout(400)
}

const firsts = []
const maps = []
for (let run = 0; run < 3; run += 1) {
  await afresh()
  firsts.push(await until('#/answers', '.answer'))
  await afresh()
  maps.push(await until(`#/supply/${supplies[0].id}/answers`, '.range-map'))
}
await afresh()
const all = await until('#/answers', '.answers-thorough')
await browser.close()
await server.close()
rmSync(folder, { recursive: true, force: true })

const median = (values) => Math.round(values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)])
console.table({
  'asked to first answers, ms': { median: median(firsts), aim: 300 },
  'asked to all answers, ms': { median: Math.round(all), aim: 3000 },
  'range map, ms': { median: median(maps), aim: 2000 },
})
