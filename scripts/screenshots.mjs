// Takes the pictures of docs/img from the real page over a new bench folder, so that they show what a first start shows.
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { ensureInstalled, root } from './ensure-installed.mjs'

ensureInstalled()
const { buildIfChanged } = await import('./build.mjs')
await buildIfChanged()
const { launchBrowser } = await import('./browser.mjs')
const { startServer } = await import('../dist/node/server.js')
const { proposeSupply, starterDrawer } = await import('../dist/node/engine.js')

const pictures = [
  { name: 'page', width: 1440, height: 900, scheme: 'light' },
  { name: 'page-dark', width: 1440, height: 900, scheme: 'dark' },
  { name: 'page-phone', width: 390, height: 844, scheme: 'light' },
]

/** Invented supplies for the pictures. */
const wanted = [
  {
    id: 'tool-chargers-24v',
    name: 'Tool chargers, 24 V 3 A',
    output_V: 24,
    output_A: 3,
    feeds: 'electronics',
  },
  { id: 'float-charger', name: 'Float charger, 13.8 V 5 A', output_V: 13.8, output_A: 5, feeds: 'charging' },
  { id: 'lamps-5v', name: 'Lamps and phones, 5 V 4 A', output_V: 5, output_A: 4, feeds: 'electronics' },
]

const firstSupplies = () =>
  wanted.flatMap(({ id, name, output_V, output_A, feeds }) => {
    const need = {
      source: { kind: 'mains', minimum_Vrms: 195, nominal_Vrms: 230, maximum_Vrms: 265, frequency_Hz: 50 },
      ...{ output_V, trimLow_V: output_V, trimHigh_V: output_V, output_A, ripple_Vpp: output_V / 100 },
      ...{ holdUp_s: 0, ambient_C: 35, cooling: 'case-vented', feeds, insulation: 'reinforced' },
      ...{ pollutionDegree: 2, altitude_m: 500 },
    }
    const proposed = proposeSupply(need, starterDrawer, { id, name })
    if (!proposed.ok) throw new Error(proposed.problems[0]?.message)
    return [proposed.value]
  })

const work = mkdtempSync(join(tmpdir(), 'gapwright-pictures-'))
const images = join(root, 'docs', 'img')
mkdirSync(images, { recursive: true })
const server = await startServer({
  folder: join(work, 'Gapwright'),
  page: join(root, 'dist', 'page'),
  port: 0,
  version: '0',
  firstSupplies,
})
const browser = await launchBrowser()
try {
  for (const { name, width, height, scheme } of pictures) {
    const context = await browser.newContext({
      viewport: { width, height },
      colorScheme: scheme,
      locale: 'en-US',
      reducedMotion: 'reduce',
    })
    const page = await context.newPage()
    await page.route('**/api/about', (route) =>
      route.fulfill({ json: { name: 'gapwright', version: '0', folder: '~/Gapwright' } }),
    )
    await page.goto(server.url, { waitUntil: 'networkidle' })
    await page.evaluate(() => {
      location.hash = '#/supply/float-charger'
    })
    await page.locator('main svg').first().waitFor()
    await page.waitForTimeout(1000)
    await page.screenshot({ path: join(images, `${name}.png`) })
    console.log(`docs/img/${name}.png`)
    await context.close()
  }
} finally {
  await browser.close()
  await server.close()
  rmSync(work, { recursive: true, force: true })
}
