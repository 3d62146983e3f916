import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { plain } from '../../src/cli/command.ts'
import { demoSupplies } from '../../src/engine/demo/index.ts'
import { drawerText, readSupply, supplyText } from '../../src/engine/file/file.ts'
import { assessWhole } from '../../src/engine/limits/index.ts'
import type { Supply } from '../../src/engine/supply/supply.ts'
import { smallDrawer } from '../property/search-drawer.ts'
import { run as runCommand } from '../support/run-command.ts'
import { sampleSupply } from '../support/sample.ts'

const drawer = smallDrawer([
  'switcher-700v-9r-dip',
  'switcher-700v-18r-dip',
  'core-rm12',
  'core-pq32-30',
  'core-ee16',
  'wire-0.236mm-grade-1',
  'wire-0.5mm-triple',
  'diode-schottky-100v-20a-dual',
])

let work: string
const path = (name: string) => join(work, name)
beforeAll(async () => {
  work = await mkdtemp(join(tmpdir(), 'gapwright-answers-'))
  await writeFile(path('drawer.json'), drawerText(drawer))
  await writeFile(path('empty.json'), drawerText({ ...drawer, entries: [] }))
})
afterAll(() => rm(work, { recursive: true, force: true }))

const run = (...argv: string[]) => runCommand('answers', ...argv)
const need = ['--volts', '12', '--amps', '2']
const quick = () => ['--drawer', path('drawer.json'), '--effort', 'quick']

describe('answers', () => {
  it('lists what can be built, each with its difference, and why not the rest', async () => {
    const { code, out } = await run(...need, ...quick())
    expect(code).toBe(0)
    expect(out).toMatch(/^12 V 2 A from the drawer: \d+ suppl/)
    expect(out).toMatch(/\n1\. (RM12|PQ32\/30), 700 V, 9 ohm/)
    expect(out).toMatch(
      / {3}\d+ : \d+ turns, .+ wire (in hand )?and secondary of .+ wire( in hand)?, gap of [\d.]+ [µm]m\n/,
    )
    expect(out).toMatch(/\nWhy not\n(.*\n)*? {2}EE16 core set: .+\n/)
    expect(out).toMatch(/candidates: \d+ ruled out together by bounds/)
  })

  it('gives programs the same, and the same again for the same seed', async () => {
    const { code, out } = await run(...need, ...quick(), '--json', '--seed', '7')
    expect(code).toBe(0)
    const answer = JSON.parse(out)
    expect(answer).toMatchObject({ need: { output_V: 12, output_A: 2 }, search: { seed: 7 } })
    expect(answer.answers.length).toBeGreaterThan(0)
    for (const { measures, givesFirst, difference } of answer.answers) {
      expect(givesFirst.margin).toBeGreaterThanOrEqual(0)
      expect(measures.loss_W).toBeGreaterThan(0)
      expect(difference).not.toBe('')
    }
    expect(answer.whyNot.map(({ id }: { id: string }) => id)).toContain('core-ee16')
    expect((await run(...need, ...quick(), '--json', '--seed', '7')).out).toBe(out)
  })

  it('writes an answer that, reopened, holds every limit', async () => {
    const out = path('first.supply.json')
    expect((await run(...need, ...quick(), '--write', '1', '--out', out)).out).toBe(`Wrote ${out}\n`)
    const read = readSupply(await readFile(out))
    if (!read.ok) throw new Error('the written answer cannot be read')
    const whole = assessWhole(read.value)
    expect(whole.ok && whole.value.holds).toBe(true)
    const again = await run(...need, ...quick(), '--write', '1', '--out', out)
    expect(again).toMatchObject({ code: 2, error: expect.stringContaining('is there already') })
  })

  it('takes the need of a supply file, and refuses a second one beside it', async () => {
    const file = path('need.supply.json')
    const supply = sampleSupply()
    await writeFile(file, supplyText({ ...supply, need: { ...supply.need, output_A: 1 } }))
    expect((await run(file, ...quick())).out).toMatch(/^12 V 1 A from the drawer/)
    const twice = await run(file, '--volts', '5', ...quick())
    expect(twice.code).toBe(2)
    expect(twice.error).toContain('brings its own need, and --volts says another')
  })

  it('says with exit code 1 that nothing holds, and why', async () => {
    const { code, out } = await run('--volts', '12', '--amps', '6', ...quick())
    expect(code).toBe(1)
    expect(out).toContain('12 V 6 A from the drawer: no answer')
    expect(out).toMatch(/RM12 core set: .+, at (most|least) .+ would (do|mend that|be wanted)/)
    const written = await run('--volts', '12', '--amps', '6', ...quick(), '--write', '1')
    expect(written).toMatchObject({ code: 1, out })
  })

  it('says what an empty drawer lacks', async () => {
    const { code, error } = await run(...need, '--drawer', path('empty.json'))
    expect(code).toBe(2)
    expect(error).toMatch(
      /Nothing can be put together from .+ yet; add what it lacks:\n(.*\n)* {2}the drawer holds no .*core/,
    )
  })

  it('names the rating that a part of the drawer lacks', async () => {
    const content = JSON.parse(drawerText(drawer))
    const entry = content.entries.find(({ part }: { part: { kind: string } }) => part.kind === 'switcher')
    delete entry.part.drainVoltage_V
    await writeFile(path('lacking.json'), JSON.stringify(content))
    const { code, error } = await run(...need, '--drawer', path('lacking.json'))
    expect(code).toBe(2)
    expect(error).toMatch(
      /lacking\.json cannot be used:\n {2}entries\[\d+\]\.part\.drainVoltage_V: is missing in "700 V, .+"; wanted is a value in V, such as 700\n/,
    )
  })

  it.each([
    [['--effort', 'hasty'], '--effort hasty is none of quick, usual, fine'],
    [['--seed', 'x'], '--seed x is not a whole number from 1'],
    [['--effort', 'quick', '--write', '99'], 'there is no answer 99; there are'],
  ])('refuses %j with a sentence', async (args, sentence) => {
    const { code, error } = await run(...need, '--drawer', path('drawer.json'), ...args)
    expect(code).toBe(2)
    expect(error).toContain(sentence)
  })
})

describe('limits --mend', () => {
  const demo = demoSupplies()[0]!
  const cold = {
    ...demo,
    build: { ...demo.build, places: { ...demo.build.places, switcherHeatsink: null } },
  }
  const heavy = { ...demo, need: { ...demo.need, output_A: 2 * demo.need.output_A } }
  const mend = async (supply: Supply, ...flags: string[]) => {
    const file = path('mend.supply.json')
    await writeFile(file, supplyText(supply))
    return runCommand('limits', file, '--top', '3', '--mend', ...flags)
  }

  it('names the change that makes it hold', async () => {
    const { code, out } = await mend(cold)
    expect(code).toBe(1)
    expect(out).toMatch(/\n1\. HS1: .+\n {3}Then gives first: .+, \d+ % left\./)
  })

  it('names what comes closest, and what that would still break, where nothing does', async () => {
    const { out } = await mend(heavy, '--drawer', path('drawer.json'))
    expect(out).toMatch(/\nWhat comes closest: .+\.\n {2}It would still break .+ \d+ (%|K) (over|short)/)
    const { mend: answer } = JSON.parse((await mend(heavy, '--drawer', path('drawer.json'), '--json')).out)
    expect(answer.answers).toEqual([])
    expect(out).toContain(plain(answer.nearest.sentence))
  })

  it('has nothing to mend where all holds, and takes no drawer without it', async () => {
    expect(await mend(demo)).toMatchObject({
      code: 0,
      out: expect.stringContaining('There is nothing to mend.'),
    })
    const { code, error } = await runCommand(
      'limits',
      path('mend.supply.json'),
      '--drawer',
      path('drawer.json'),
    )
    expect(code).toBe(2)
    expect(error).toContain('--mend is not given')
  })
})
