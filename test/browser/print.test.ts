import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import {
  paperDocument,
  paperFigures,
  paperNames,
  paperPage,
  recordHtml,
  schematic,
} from '../../src/drawing/index.ts'
import { schematicModel } from '../../src/drawing/supply/schematic-model.ts'
import type { SvgNode } from '../../src/drawing/svg/node.ts'
import { supplyText } from '../../src/engine/file/file.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import { assessmentOf, judged, type SupplyName, supplyNames, supplyOf } from '../drawing/supplies.ts'
import { launchBrowser } from '../support/browser.ts'

let browser: Browser
let page: Page
beforeAll(async () => {
  browser = await launchBrowser()
  const context = await browser.newContext({ locale: 'en-US', javaScriptEnabled: true })
  page = await context.newPage()
  await page.emulateMedia({ media: 'print' })
})
afterAll(() => browser.close())

/** Paper inside the margins of the print style (8 mm above and below, 10 mm at the sides), in CSS pixels. */
const sheets = {
  A4: { width: ((210 - 20) / 25.4) * 96, height: ((297 - 16) / 25.4) * 96 },
  Letter: { width: ((215.9 - 20) / 25.4) * 96, height: ((279.4 - 16) / 25.4) * 96 },
} as const
type Format = keyof typeof sheets
const formats = Object.keys(sheets) as Format[]

const pagesOf = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0

/** Elements that leave their paper or hide part of what they hold, in print at a given width. */
async function cutElements(html: string, width: number): Promise<{ cut: string[]; height: number }> {
  await page.setViewportSize({ width: Math.floor(width), height: 900 })
  await page.setContent(html)
  await page.addStyleTag({ content: 'body { margin: 0 }' })
  return page.evaluate(() => {
    const cut: string[] = []
    const right = document.documentElement.clientWidth
    for (const element of document.querySelectorAll<HTMLElement>('.paper, .paper *')) {
      const box = element.getBoundingClientRect()
      const name = `${element.tagName}.${element.getAttribute('class') ?? ''} ${element.textContent?.slice(0, 40)}`
      if (box.width > 0 && (box.right > right + 1 || box.left < -1)) cut.push(`outside: ${name}`)
      if (
        element instanceof HTMLElement &&
        element.scrollWidth > element.clientWidth + 1 &&
        element.clientWidth > 0
      )
        cut.push(`overflows: ${name}`)
    }
    return { cut, height: document.querySelector('.paper')!.getBoundingClientRect().height }
  })
}

const document1 = (name: SupplyName, paper: (typeof paperNames)[number]) =>
  paperDocument(paper, [paperPage(assessmentOf(name), paper, starterDrawer)])

describe.each(formats)('winding sheet on %s', (format) => {
  it.each(supplyNames)('of %s is one page with nothing cut', async (name) => {
    const html = document1(name, 'winding-sheet')
    const { cut, height } = await cutElements(html, sheets[format].width)
    expect(cut).toEqual([])
    expect(height).toBeLessThanOrEqual(sheets[format].height)
    expect(pagesOf(await page.pdf({ format, preferCSSPageSize: true }))).toBe(1)
  })

  it('stays one page with the longest name', async () => {
    const long = { ...supplyOf('margins'), name: 'W'.repeat(120), revision: 'M'.repeat(20) }
    const html = paperDocument('x', [paperPage(judged(long), 'winding-sheet', null)])
    const { cut } = await cutElements(html, sheets[format].width)
    expect(cut).toEqual([])
    expect(pagesOf(await page.pdf({ format, preferCSSPageSize: true }))).toBe(1)
  })

  it('stays one page in letters that run wide', async () => {
    const html = document1('margins', 'winding-sheet').replace(
      '</style>',
      '.paper { --font-text: Verdana, "DejaVu Sans", sans-serif; }</style>',
    )
    const { cut } = await cutElements(html, sheets[format].width)
    expect(cut).toEqual([])
    expect(pagesOf(await page.pdf({ format, preferCSSPageSize: true }))).toBe(1)
  })

  it('keeps letters at 7.5 points or more, and the steps at 9.5', async () => {
    await cutElements(document1('split', 'winding-sheet'), sheets[format].width)
    const points = await page.evaluate(() => {
      const size = (element: Element) => {
        const own = Number.parseFloat(getComputedStyle(element).fontSize)
        const svg = element.closest('svg')
        const scale = svg ? svg.getBoundingClientRect().height / svg.viewBox.baseVal.height : 1
        return own * scale * 0.75
      }
      const all = [...document.querySelectorAll('.paper *')].filter((e) =>
        [...e.childNodes].some((n) => n.nodeType === 3 && n.textContent!.trim() !== ''),
      )
      return {
        words: Math.min(...all.filter((e) => !e.closest('svg') && !e.closest('footer')).map(size)),
        drawn: Math.min(...all.filter((e) => e.closest('svg') && !e.closest('.is-free')).map(size)),
        steps: Math.min(...[...document.querySelectorAll('.step > tr:first-child > td')].map(size)),
      }
    })
    expect(points.words).toBeGreaterThanOrEqual(7.5)
    expect(points.drawn).toBeGreaterThanOrEqual(6)
    expect(points.steps).toBeGreaterThanOrEqual(9.5)
  })
})

it('shows every step of the winding sheet whole on a phone', async () => {
  await page.emulateMedia({ media: 'screen' })
  await page.setViewportSize({ width: 320, height: 640 })
  for (const name of ['margins', 'litz', 'everything'] as const) {
    await page.setContent(document1(name, 'winding-sheet'))
    const cut = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('.steps, .steps td, .steps .tally, figure')]
        .filter((e) => e.scrollWidth > e.clientWidth + 1 || e.getBoundingClientRect().right > innerWidth)
        .map((e) => `${e.className} ${e.textContent?.slice(0, 40)}`),
    )
    expect(cut, name).toEqual([])
  }
  await page.emulateMedia({ media: 'print' })
})

describe.each(formats)('other papers on %s', (format) => {
  it.each(paperNames.filter((name) => name !== 'winding-sheet'))('%s has nothing cut', async (paper) => {
    const across = paper === 'schematic'
    const { width, height } = sheets[format]
    for (const name of ['everything', 'avalanche'] as const) {
      // A sheet that lies across has its page's longer side, with the same margins at its sides.
      const room = across ? height + ((16 - 20) / 25.4) * 96 : width
      const { cut } = await cutElements(document1(name, paper), room)
      expect(cut).toEqual([])
    }
  })

  it('sets the schematic on one page that lies across', async () => {
    await page.setContent(document1('everything', 'schematic'))
    const pdf = await page.pdf({ format, preferCSSPageSize: true })
    expect(pagesOf(pdf)).toBe(1)
    const [, width, height] = pdf.toString('latin1').match(/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/)!
    expect(Number(width)).toBeGreaterThan(Number(height))
  })
})

/** Words that touch other words, or a symbol, or leave their drawing. */
async function collisions(drawing: SvgNode): Promise<string[]> {
  await page.setViewportSize({ width: 1540, height: 900 })
  await page.setContent(paperDocument('x', [drawing]))
  return page.evaluate(() => {
    const svg = document.querySelector('svg')!
    const sheet = svg.getBoundingClientRect()
    const texts = [...svg.querySelectorAll('text')].filter((t) => t.textContent!.trim() !== '')
    const boxes = texts.map((element) => ({ element, box: element.getBoundingClientRect() }))
    // Letters stand inside their line; two pixels of it above and below may touch.
    const touch = (a: DOMRect, b: DOMRect) =>
      a.left < b.right - 2 && b.left < a.right - 2 && a.top + 4 < b.bottom && b.top + 4 < a.bottom
    const found: string[] = []
    boxes.forEach(({ element, box }, index) => {
      if (
        box.left < sheet.left - 1 ||
        box.right > sheet.right + 1 ||
        box.top < sheet.top - 2 ||
        box.bottom > sheet.bottom + 2
      )
        found.push(`cut: ${element.textContent}`)
      for (const other of boxes.slice(index + 1))
        if (touch(box, other.box)) found.push(`${element.textContent} on ${other.element.textContent}`)
      if (element.matches('.pin, .mark, .pin-number')) return
      for (const shape of svg.querySelectorAll('.symbol, circle.pin, .probe')) {
        const area = shape.getBoundingClientRect()
        const block = area.width > 60 && area.height > 60
        if (!block && touch(box, area))
          found.push(
            `${element.textContent} on a symbol of ${shape.closest('[data-spot]')?.getAttribute('data-spot')}`,
          )
      }
    })
    return found
  })
}

describe.each(supplyNames)('drawings of %s', (name) => {
  const assessment = assessmentOf(name)
  const figures = paperFigures(assessment)
  it.each(Object.keys(figures) as (keyof typeof figures)[])('%s has no words on words', async (figure) => {
    const touching = await collisions(figures[figure]!)
    // Name and turns of a coil stand one under the other on purpose.
    expect(touching.filter((words) => figure !== 'winding-connections' || !/ on \d+ T$/.test(words))).toEqual(
      [],
    )
  })

  it('schematic of the screen has no words on words', async () => {
    expect(await collisions(schematic(schematicModel(assessment.evaluation, assessment.limits)))).toEqual([])
  })
})

describe('build record in a browser', () => {
  it('asks for nothing, runs nothing and holds its file as text', async () => {
    const context = await browser.newContext({ locale: 'en-US', offline: true })
    const tab = await context.newPage()
    const asked: string[] = []
    const complaints: string[] = []
    tab.on('request', (request) => asked.push(request.url()))
    tab.on('console', (message) => complaints.push(message.text()))
    tab.on('dialog', () => complaints.push('a dialog opened'))
    const supply = {
      ...supplyOf('simple'),
      name: '<script>alert(1)</script>',
      note: '<img src=x onerror=alert(1)>',
    }
    await tab.setContent(recordHtml(judged(supply), starterDrawer))
    expect(await tab.locator('#gapwright-file').textContent()).toBe(supplyText(supply))
    expect(await tab.locator('script, img, iframe, object, embed, link').count()).toBe(0)
    expect(await tab.title()).toContain('<script>alert(1)</script>')
    expect(asked).toEqual([])
    expect(complaints).toEqual([])
    await context.close()
  })
})
