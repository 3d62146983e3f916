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
const { demoSupplies } = await import('../dist/node/engine.js')

const pictures = [
  { name: 'page', width: 1440, height: 900, scheme: 'light' },
  { name: 'page-dark', width: 1440, height: 900, scheme: 'dark' },
  { name: 'page-phone', width: 390, height: 844, scheme: 'light' },
]

const work = mkdtempSync(join(tmpdir(), 'gapwright-pictures-'))
const images = join(root, 'docs', 'img')
mkdirSync(images, { recursive: true })
const server = await startServer({
  folder: join(work, 'Gapwright'),
  page: join(root, 'dist', 'page'),
  port: 0,
  version: '0',
  firstSupplies: demoSupplies,
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
    await page.evaluate((address) => {
      location.hash = address
    }, `#/supply/${demoSupplies()[0].id}`)
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
