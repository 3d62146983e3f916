import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { pageOf, paperDocument } from '../../src/drawing/paper/pages.ts'
import { powerUpPlan } from '../../src/engine/bench/index.ts'
import { powerUpPaper } from '../../src/engine/papers/power-up.ts'
import { everything, judged, lamps } from '../reference/bench/supplies.ts'
import { launchBrowser } from '../support/browser.ts'

let browser: Browser
let page: Page
beforeAll(async () => {
  browser = await launchBrowser()
  page = await (await browser.newContext({ locale: 'en-US' })).newPage()
})
afterAll(() => browser.close())

const pagesOf = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0

const assessment = judged()
const used = assessment.evaluation.design.parts.switcher
const small = {
  ...used,
  id: 'small',
  name: '700 V, 12 ohm switcher',
  currentLimit_A: { minimum: 0.55, typical: 0.6, maximum: 0.65 },
}
const plans = {
  'multimeter and lamp alone': powerUpPlan(assessment.evaluation, ['multimeter', 'lamp'], lamps),
  'everything owned and a smaller switcher': powerUpPlan(assessment.evaluation, everything, lamps, small),
}

describe.each(['A4', 'Letter'] as const)('power-up card on %s', (format) => {
  it.each(Object.keys(plans) as (keyof typeof plans)[])(
    'with %s prints on one or two pages',
    async (name) => {
      const paper = powerUpPaper(assessment.evaluation, plans[name])
      await page.setContent(paperDocument('card', [pageOf(paper, assessment)]))
      const pages = pagesOf(await page.pdf({ format, preferCSSPageSize: true }))
      expect(pages).toBeGreaterThan(0)
      expect(pages).toBeLessThanOrEqual(2)
    },
  )
})
