import { existsSync } from 'node:fs'
import { type Browser, chromium } from 'playwright-core'

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
 * A real browser for the tests: `$CHROMIUM_PATH`, the system's Chromium, an installed Chrome or Edge, or the one
 * that comes as a package. Give each context `locale: 'en-US'`. None found is a failure that says what to install.
 */
export async function launchBrowser(): Promise<Browser> {
  const tried: string[] = []
  const attempt = async (name: string, start: () => Promise<Browser>) => {
    try {
      return await start()
    } catch (error) {
      tried.push(`${name}: ${String(error).split('\n')[0]}`)
      return null
    }
  }
  const at = (executablePath: string) => () => chromium.launch({ executablePath, args: flags })
  const wanted = process.env.CHROMIUM_PATH
  const found =
    (wanted ? await attempt(wanted, at(wanted)) : null) ??
    (existsSync('/usr/bin/chromium') ? await attempt('/usr/bin/chromium', at('/usr/bin/chromium')) : null) ??
    (await attempt('Chrome', () => chromium.launch({ channel: 'chrome', args: flags }))) ??
    (await attempt('Edge', () => chromium.launch({ channel: 'msedge', args: flags }))) ??
    (await attempt('packaged Chromium', packaged))
  if (found === null)
    throw new Error(
      `no browser for the tests; install Chromium, Chrome or Edge, or set CHROMIUM_PATH\n${tried.join('\n')}`,
    )
  return found
}

async function packaged(): Promise<Browser> {
  const { default: bundle } = await import('@sparticuz/chromium')
  return chromium.launch({ executablePath: await bundle.executablePath(), args: [...bundle.args, ...flags] })
}
