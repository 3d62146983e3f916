import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { commands } from '../../src/cli/main.ts'
import { drawerText, readSupply, supplyText } from '../../src/engine/file/file.ts'
import { problemSentence } from '../../src/engine/file/problem.ts'
import { assessWhole } from '../../src/engine/limits/index.ts'
import { run } from '../support/run-command.ts'
import { sampleDrawer, sampleSupply } from '../support/sample.ts'

let work: string
let file: string

beforeAll(async () => {
  work = await mkdtemp(join(tmpdir(), 'gapwright-commands-'))
  file = join(work, 'sample.supply.json')
  await writeFile(file, supplyText(sampleSupply()))
  await writeFile(join(work, 'drawer.json'), drawerText(sampleDrawer()))
})

afterAll(() => rm(work, { recursive: true, force: true }))

describe('help', () => {
  it('lists every command, and each one teaches with examples that begin with its name', async () => {
    const { out, code } = await run()
    expect(code).toBe(0)
    for (const { name, summary } of commands) {
      expect(out).toContain(`  ${name.padEnd(10)}${summary}`)
      const help = await run(name, '--help')
      expect(help.code).toBe(0)
      expect(help.out).toContain(`Examples\n  gapwright ${name}`)
      expect((await run('help', name)).out).toBe(help.out)
      expect(Math.max(...help.out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(118)
    }
  })

  it('is what docs/command-line.md says; `npm run docs` writes it', async () => {
    const page = fileURLToPath(new URL('../../docs/command-line.md', import.meta.url))
    const text = await readFile(page, 'utf8')
    for (const { help } of commands) expect(text).toContain(`\`\`\`\n${help}\`\`\``)
  })

  it('tells the version', async () => {
    expect((await run('--version')).out).toMatch(/^\d+\.\d+\.\d+\n$/)
  })
})

describe('new', () => {
  const path = (name: string) => join(work, name)

  it('writes a supply that holds, from the starter drawer', async () => {
    const out = path('charger.supply.json')
    const { code, out: said } = await run('new', 'charger', '--volts', '24', '--amps', '3', '--out', out)
    expect(said).toContain('Wrote ')
    expect(said).toContain('Gives first: ')
    const read = readSupply(await readFile(out))
    if (!read.ok) throw new Error(problemSentence(read.problems[0]!))
    expect(read.value).toMatchObject({ id: 'charger', name: 'charger', need: { output_V: 24, output_A: 3 } })
    expect(code).toBe(0)
    expect((await run('limits', out)).code).toBe(0)
  })

  it('writes over nothing unless told to', async () => {
    const out = path('kept.supply.json')
    await writeFile(out, 'mine')
    const argv = ['new', 'kept', '--volts', '12', '--amps', '1', '--out', out]
    const refused = await run(...argv)
    expect(refused.code).toBe(2)
    expect(refused.error).toContain('is there already; nothing was written')
    expect(await readFile(out, 'utf8')).toBe('mine')
    await run(...argv, '--replace')
    expect(readSupply(await readFile(out)).ok).toBe(true)
  })

  it('puts the file alone on the screen, and what it says beside', async () => {
    const { out, error } = await run('new', 'screen', '--volts', '5', '--amps', '2', '--out', '-')
    expect(readSupply(out).ok).toBe(true)
    expect(error).toContain('Gives first: ')
  })

  it('names the kinds of part that a drawer lacks', async () => {
    const poor = sampleDrawer()
    poor.entries = poor.entries.filter(({ part }) => part.kind !== 'optocoupler')
    await writeFile(path('poor.json'), drawerText(poor))
    const { code, error } = await run(
      'new',
      'x',
      '--volts',
      '5',
      '--amps',
      '2',
      '--drawer',
      path('poor.json'),
    )
    expect(code).toBe(2)
    expect(error).toContain('No supply can be put together from Sample drawer, invented')
    expect(error).toContain('optocoupler')
  })
})

describe('limits', () => {
  it('says what the readings of the finished transformer tell, where some were kept', async () => {
    expect((await run('limits', file)).out).not.toMatch(/as built/)
    const supply = sampleSupply()
    const meter = { instrument: 'tester', frequency_Hz: null, accuracy: 0.1 }
    supply.bench.asBuilt.insulation_ohm = { value: 20e6, ...meter, test_V: 500 }
    supply.bench.asBuilt.saturationCurrent_A = { value: 0.01, ...meter }
    const read = join(work, 'read.supply.json')
    await writeFile(read, supplyText(supply))
    const { out, code } = await run('limits', read)
    expect(code).toBe(1)
    expect(out).toMatch(/Transformer as built: reject\./)
    expect(out).toMatch(/20 MΩ between the sides at 500 V dc, below 100 MΩ/)
    expect(out).toMatch(/the pulse bends at 10 mA where .* is planned: .*do not power/)
    const { transformer } = JSON.parse((await run('limits', read, '--json')).out)
    expect(transformer.verdict).toBe('reject')
    expect(transformer.findings.map((f: any) => f.field)).toEqual(['saturationCurrent_A', 'insulation_ohm'])
  })

  it('lists the weakest first, and tells by exit code that some limit is broken', async () => {
    const { code, out } = await run('limits', file)
    const assessment = assessWhole(sampleSupply())
    if (!assessment.ok) throw new Error('the sample cannot be assessed')
    const { limits, givesFirst } = assessment.value
    expect(out).toContain(`Gives first: ${givesFirst.title}`)
    const lines = out.split('\n')
    const places = limits.map((limit) => lines.findIndex((line) => line.includes(`  ${limit.title}  `)))
    expect(places.every((place) => place > 0)).toBe(true)
    expect(places).toEqual([...places].sort((a, b) => a - b))
    expect(out.match(/BROKEN {2}/g)).toHaveLength(limits.filter((limit) => !limit.holds).length)
    expect(code).toBe(1)
  })

  it('gives 0 exactly when all hold', async () => {
    const { out, code } = await run('limits', file, '--json')
    const answer = JSON.parse(out)
    expect(answer).toMatchObject({ supply: { id: 'sample', revision: 'A' }, depth: 'closed form' })
    expect(answer.limits.length).toBeGreaterThan(30)
    expect(
      answer.limits.every((limit: any) => Number.isFinite(limit.reading) && Number.isFinite(limit.margin)),
    ).toBe(true)
    expect(answer.holds).toBe(answer.limits.every((limit: any) => limit.holds))
    expect(code).toBe(answer.holds ? 0 : 1)
  })

  it('shows only the first of them', async () => {
    expect(JSON.parse((await run('limits', file, '--json', '--top', '3')).out).limits).toHaveLength(3)
  })
})

describe('paper', () => {
  it('prints the winding sheet with what the file says', async () => {
    const { code, out } = await run('paper', 'winding-sheet', file)
    expect(code).toBe(0)
    expect(out).toMatch(/Gap .*0\.26 mm/)
    expect(out).toMatch(/P .*0\.28 mm.* 63 /)
    expect(out).toMatch(/S .*0\.4 mm.*4.* 8 /)
    expect(out).toMatch(/discharge/i)
  })

  it.each(['winding-sheet', 'schematic', 'parts-list', 'label', 'power-up', 'all'])(
    'prints %s as a page',
    async (name) => {
      const { code, out } = await run('paper', name, file, '--html')
      expect(code).toBe(0)
      expect(out).toMatch(/^<!doctype html>/i)
      expect(out).toContain('Sample, invented')
      expect(out).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/)
    },
  )

  it('prints the power-up with the cold stages first', async () => {
    const { code, out } = await run('paper', 'power-up', file, '--drawer', join(work, 'drawer.json'))
    expect(code).toBe(0)
    expect(out).toMatch(/discharge/i)
    expect(out.search(/cold/i)).toBeGreaterThan(0)
    expect(out.search(/cold/i)).toBeLessThan(out.search(/full load/i))
  })

  it('writes the parts list as a table file, and knows the drawer', async () => {
    const out = join(work, 'parts.csv')
    const { code } = await run(
      'paper',
      'parts-csv',
      file,
      '--drawer',
      join(work, 'drawer.json'),
      '--out',
      out,
    )
    expect(code).toBe(0)
    const rows = (await readFile(out, 'utf8')).trim().split('\n')
    expect(rows[0]).toContain('reference,quantity,part')
    expect(rows.find((row) => row.startsWith('U1,'))).toContain('have')
  })
})

describe('the build record', () => {
  it('is one page that opens again as the supply that it tells of', async () => {
    const out = join(work, 'sample.record.html')
    expect((await run('paper', 'record', file, '--out', out)).code).toBe(0)
    const again = await run('limits', out, '--json')
    expect(JSON.parse(again.out)).toEqual(JSON.parse((await run('limits', file, '--json')).out))
  })
})

describe('what cannot be used', () => {
  it.each<[string, string[]]>([
    ['There is no command "lmits"', ['lmits']],
    ['the file of a supply is missing', ['limits']],
    ['there is no file nowhere.json', ['limits', 'nowhere.json']],
    ["Unknown option '--colour'", ['limits', 'x', '--colour']],
    ['"more" is one word too many', ['limits', 'x', 'more']],
    ['--top none is not a whole number', ['limits', 'FILE', '--top', 'none']],
    ['"poem" is no paper', ['paper', 'poem', 'FILE']],
    ['"A b" is no id', ['new', 'A b', '--volts', '5', '--amps', '1']],
    ['--amps is missing', ['new', 'a', '--volts', '5']],
    ['--port many is not a number', ['page', '--port', 'many', '--no-open']],
    ['The bench folder cannot be used', ['page', '--no-open', '--folder', 'FILE']],
    ['cannot be written', ['paper', 'parts-csv', 'FILE', '--out', '/nowhere/parts.csv']],
  ])('%s: exit code 2, and where help is', async (sentence, argv) => {
    const { code, out, error } = await run(...argv.map((word) => (word === 'FILE' ? file : word)))
    expect(error).toContain(sentence)
    expect(error).toContain('gapwright')
    expect(out).toBe('')
    expect(code).toBe(2)
  })

  it('a file that is no supply, with every path and sentence', async () => {
    const bad = join(work, 'bad.supply.json')
    const supply = sampleSupply()
    supply.build.clamp.voltage_V = 900
    supply.build.bulkCount = 0
    await writeFile(bad, JSON.stringify(supply))
    const { code, error } = await run('limits', bad)
    expect(code).toBe(2)
    expect(error).toContain('  build.clamp.voltage_V: 900 is over 600\n')
    expect(error).toContain('  build.bulkCount: 0 is under 1\n')
  })

  it('a supply that cannot be wound as it says, with the place', async () => {
    const odd = join(work, 'odd.supply.json')
    const supply = sampleSupply()
    supply.build.transformer.biasTurns = 9
    await writeFile(odd, supplyText(supply))
    const { code, error } = await run('limits', odd)
    expect(code).toBe(2)
    expect(error).toContain('build.transformer.stack: ')
  })
})
