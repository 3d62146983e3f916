// Finds a real browser for tests and screenshots.
import { existsSync } from 'node:fs'
import { chromium } from 'playwright-core'

const flags = [
  '--no-sandbox',
  '--headless',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

/**
 * Launches `$CHROMIUM_PATH`, the system's Chromium, an installed Chrome or Edge, or the one that comes as a package.
 * Give each context `locale: 'en-US'`. None found is an error that says what to install.
 */
export async function launchBrowser() {
  const ways = [
    ...[process.env.CHROMIUM_PATH, '/usr/bin/chromium']
      .filter((path) => path && (path === process.env.CHROMIUM_PATH || existsSync(path)))
      .map((path) => [path, () => chromium.launch({ executablePath: path, args: flags })]),
    ['Chrome', () => chromium.launch({ channel: 'chrome', args: flags })],
    ['Edge', () => chromium.launch({ channel: 'msedge', args: flags })],
    ['packaged Chromium', launchPackaged],
  ]
  const tried = []
  for (const [name, launch] of ways) {
    try {
      return await launch()
    } catch (error) {
      tried.push(`${name}: ${String(error).split('\n')[0]}`)
    }
  }
  throw new Error(
    `no browser found; install Chromium, Chrome or Edge, or set CHROMIUM_PATH\n${tried.join('\n')}`,
  )
}

async function launchPackaged() {
  const { default: packaged } = await import('@sparticuz/chromium')
  const executablePath = await packaged.executablePath()
  return chromium.launch({ executablePath, args: [...packaged.args, ...flags] })
}
