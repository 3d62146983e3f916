// Takes the pictures of docs/img from the real page over a new bench folder, so that they show what a first start shows.
// Names after the command take only those pictures.
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

const [demo, other] = demoSupplies().map(({ id }) => id)
const at = (view) => `#/supply/${demo}/${view}`
/** Opens the middle over the whole width. */
const enlarge = (page) => page.getByRole('button', { name: 'Enlarge' }).click()

/**
 * Each picture: where to go, what to wait for, what to do there, and which part of the screen to keep. `desk` is the
 * size of a desktop screen, `low` of a short one, `phone` of a phone.
 */
const pictures = [
  { name: 'page', to: at('schematic'), wait: '.schematic' },
  { name: 'page-dark', to: at('schematic'), wait: '.schematic', scheme: 'dark' },
  { name: 'page-phone', to: at('schematic'), wait: '.verdict', screen: 'phone' },
  {
    name: 'shelf',
    to: '#/',
    wait: '.shelf-first b',
    screen: 'low',
    act: (page) => page.locator('.shelf-first b').nth(2).waitFor(),
  },
  { name: 'limit', to: at('schematic'), wait: '.schematic', act: openLimit, keep: '#limits' },
  { name: 'transformer', to: at('winding'), wait: 'text=field solved', act: enlarge, keep: '#bench' },
  { name: 'loop', to: at('loop'), wait: '.loop svg', act: enlarge, keep: '#bench' },
  { name: 'waveforms', to: at('waveforms'), wait: '#bench svg', act: enlarge, keep: '#bench' },
  { name: 'heat', to: at('heat'), wait: '.budget', act: enlarge, keep: '#bench' },
  { name: 'mains', to: at('mains'), wait: '#bench svg', act: enlarge, keep: '#bench' },
  { name: 'first-light', to: at('first-light'), wait: '#bench h3', act: enlarge, keep: '#bench' },
  { name: 'winding-sheet', to: at('papers'), wait: '.paper', act: enlarge, keep: '.paper' },
  { name: 'compare', to: `#/compare/${demo}/${other}`, wait: '.compare-table' },
  { name: 'drawer', to: '#/drawer', wait: '.drawer-table' },
  {
    name: 'answers',
    to: '#/answers',
    wait: '.answer',
    act: (page) => page.locator('.answers-thorough').waitFor(),
  },
  { name: 'range', to: at('answers'), wait: '.range-map', act: enlarge, keep: '.answers' },
]
const screens = {
  desk: { width: 1440, height: 900 },
  low: { width: 1440, height: 560 },
  phone: { width: 390, height: 844 },
}
/** Tallest piece of a long view that is kept. */
const tallest_px = 960

async function openLimit(page) {
  await page.locator('.limit-head').first().click()
  await page.locator('.limit-detail').waitFor()
}

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
  const wanted = new Set(process.argv.slice(2))
  for (const picture of pictures) if (wanted.size === 0 || wanted.has(picture.name)) await take(picture)
} finally {
  await browser.close()
  await server.close()
  rmSync(work, { recursive: true, force: true })
}

async function take({ name, to, wait, act, keep, scheme = 'light', screen = 'desk' }) {
  const viewport = keep ? { width: 1200, height: 1400 } : screens[screen]
  const context = await browser.newContext({
    viewport,
    colorScheme: scheme,
    locale: 'en-US',
    reducedMotion: 'reduce',
  })
  const page = await context.newPage()
  page.setDefaultTimeout(180_000)
  await page.route('**/api/about', (route) =>
    route.fulfill({ json: { name: 'gapwright', version: '0', folder: '~/Gapwright' } }),
  )
  await page.goto(`${server.url}${to}`)
  await page.locator(wait).first().waitFor()
  await act?.(page)
  await page.evaluate(() => document.fonts.ready)
  await page.waitForTimeout(1500)
  const box = keep ? await page.locator(keep).first().boundingBox() : null
  const clip = box && { ...box, height: Math.min(box.height, tallest_px) }
  await page.screenshot({ path: join(images, `${name}.png`), ...(clip && { clip }) })
  console.log(`docs/img/${name}.png`)
  await context.close()
}
