import { readdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { recordHtml } from '../../src/drawing/index.ts'
import { drawerText, readDrawer, readSupply, supplyText } from '../../src/engine/file/file.ts'
import { assess } from '../../src/engine/limits/index.ts'
import { exportDrawerCsv } from '../../src/engine/parts/csv-export.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import { emptyBench } from '../../src/engine/supply/bench-log.ts'
import type { Supply } from '../../src/engine/supply/supply.ts'
import { hostileTexts, withEveryText } from '../support/hostile.ts'
import { sampleSupply } from '../support/sample.ts'
import { type Bench, expectQuiet, makeSupply, openBench, openTab, type Tab, whenSaved } from './page.ts'

let bench: Bench
let tab: Tab
let page: Page
const dialogs: string[] = []
beforeAll(async () => {
  bench = await openBench()
  tab = await openTab(bench)
  page = tab.page
  page.on('dialog', (dialog) => {
    dialogs.push(dialog.message())
    void dialog.dismiss()
  })
  await makeSupply(page, 'Mine')
  await whenSaved(page)
})
afterAll(() => bench?.close())
beforeEach(async () => {
  await page.goto(`${bench.address}#/`)
  await page.getByRole('heading', { name: 'Shelf' }).waitFor()
})

const give = (name: string, content: string | Buffer) =>
  page
    .getByLabel('Open a file or record')
    .setInputFiles({ name, mimeType: 'application/octet-stream', buffer: Buffer.from(content) })

/** Nothing of the text became an element, ran, or asked anything; and the page still answers. */
const expectUntouched = async () => {
  expect(await page.evaluate(() => 'ran' in globalThis)).toBe(false)
  expect(await page.locator('img, iframe, object, embed, script:not([type=module])').count()).toBe(0)
  expect(dialogs).toEqual([])
  expect(await page.evaluate(() => Object.keys(Object.prototype))).toEqual([])
  expect((await readdir(bench.server.folder)).filter((name) => name.startsWith('mine.'))).toEqual([
    'mine.supply.json',
  ])
}

const supply: Supply = {
  ...sampleSupply(),
  note: 'A note.',
  bench: {
    ...emptyBench(),
    instruments: ['multimeter'],
    log: [
      {
        at: '2026-01-02 10:00',
        step: 'first',
        check: 'output',
        value: 12,
        unit: 'V',
        instrument: 'meter',
        note: 'n',
      },
    ],
  },
}
const text = supplyText(supply)
const deep = `{"format":"gapwright-supply","version":1,"need":${'{"a":'.repeat(50_000)}1${'}'.repeat(50_000)}}`
const judged = (of: Supply) => {
  const result = assess(of)
  if (!result.ok) throw new Error('the sample is not judged')
  return result.value
}

const refused: [string, string | Buffer, RegExp][] = [
  ['cut-short.json', text.slice(0, 700), /line \d+, column \d+/],
  ['empty.json', '', /the file is empty/],
  ['huge.json', Buffer.alloc(9 * 1024 * 1024, 0x20), /over 8 MiB/],
  ['deep.json', deep, /nested deeper than 32 levels/],
  ['utf-16.json', Buffer.from(`\ufeff${text}`, 'utf16le'), /UTF-16/],
  ['latin-1.json', Buffer.from(text.replace('Sample', 'Größe'), 'latin1'), /not UTF-8/],
  ['wrong-type.json', text.replace('"output_V": 12', '"output_V": ["12"]'), /need\.output_V: a list/],
  ['prototype.json', text.replace('"need":', '"__proto__": {"ran": 1}, "need":'), /__proto__ is not allowed/],
  ['drawer.json', drawerText(starterDrawer), /is a drawer and no supply/],
  ['newer.json', text.replace('"version": 1', '"version": 99'), /newer Gapwright/],
  ['<img src=x onerror=ran=1>.json', '{"format": "<img src=x onerror=ran=1>"}', /is not gapwright-supply/],
  ['page.html', '<!doctype html><script>ran=1</script><img src=x onerror=ran=1>', /not a build record/],
  ['record-cut.html', recordHtml(judged(supply), null).slice(0, -3000), /cut short|line \d+/],
]

describe('hostile files through the page', () => {
  it.each(refused)('%s is refused with a sentence, and the page goes on', async (name, content, sentence) => {
    await give(name, content)
    const line = page.getByText(`${name} was not opened.`)
    await line.waitFor()
    expect(await line.innerText()).toMatch(sentence)
    await expectUntouched()
    expect(await page.locator('.shelf-item').count()).toBe(1)
  })

  it('texts that look like markup stay texts in every view, in the record and on the disk', async () => {
    for (const hostile of hostileTexts) {
      const { file, made } = withEveryText(supply, hostile, readSupply)
      expect(made).toBeGreaterThan(25)
      await give('texts.html', recordHtml(judged(file), null))
      await page.locator('.work').waitFor()
      await whenSaved(page)
      for (const view of ['Transformer', 'Loop', 'Readings', 'Heat', 'Papers']) {
        await page.getByRole('button', { name: view, exact: true }).click()
        await page.locator('#bench :is(svg, table, .paper)').first().waitFor()
        await expectUntouched()
      }
      const id = /supply\/([a-z0-9-]+)/.exec(page.url())![1]!
      const kept = readSupply(await readFile(join(bench.server.folder, `${id}.supply.json`)))
      expect(kept).toMatchObject({ ok: true, value: { ...file, id } })
      await page.goto(`${bench.address}#/`)
      await page.locator('.shelf-item').nth(1).waitFor()
      await expectUntouched()
    }
    expectQuiet(tab)
  })

  it('a hostile file in the folder is left alone, and listed without running', async () => {
    const broken = text.replace('"Sample, invented"', '"<img src=x onerror=ran=1>", "<script>": 1')
    await writeFile(join(bench.server.folder, 'broken.supply.json'), broken)
    await page.reload()
    await page.getByRole('heading', { name: 'Cannot be opened' }).waitFor()
    await expectUntouched()
    expect(await readFile(join(bench.server.folder, 'broken.supply.json'), 'utf8')).toBe(broken)
  })

  it('a drawer of hostile texts comes in as texts; a broken table changes nothing', async () => {
    const hostile = hostileTexts[1]
    const few = { ...starterDrawer, entries: starterDrawer.entries.slice(0, 12) }
    const { file } = withEveryText(few, hostile, readDrawer)
    await page.getByRole('button', { name: 'Drawer', exact: true }).click()
    const rows = page.locator('.drawer-table tbody tr')
    await rows.first().waitFor()
    const takeIn = (name: string, content: string) =>
      page
        .getByLabel('Add from a file')
        .setInputFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(content) })
    const before = await readFile(join(bench.server.folder, 'drawer.json'), 'utf8')
    for (const [name, content] of [
      ['cut.csv', exportDrawerCsv(few).slice(0, 500)],
      ['proto.csv', 'kind,id,name,__proto__\nfuse,a,b,c\n'],
      ['deep.csv', `${'"'.repeat(100_001)}\n`],
      ['binary.csv', '\u0000\u0001\u0002'.repeat(2000)],
    ] as const) {
      await takeIn(name, content)
      await page.getByText(`${name} was not taken in; nothing has changed.`).waitFor()
      await expectUntouched()
    }
    expect(await readFile(join(bench.server.folder, 'drawer.json'), 'utf8')).toBe(before)
    await takeIn('texts.csv', exportDrawerCsv(file))
    await page.getByText(/parts read/).waitFor()
    await whenSaved(page)
    await page.getByRole('searchbox').fill('onerror')
    await rows.filter({ hasText: hostile }).first().waitFor()
    await expectUntouched()
    expectQuiet(tab)
  })
})
