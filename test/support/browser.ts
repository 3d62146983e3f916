import type { Browser } from 'playwright-core'
import { launchBrowser as launch } from '../../scripts/browser.mjs'

/** A real browser for the tests; give each context `locale: 'en-US'`. None found is a failure, never a skip. */
export const launchBrowser = (): Promise<Browser> => launch()
