import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Simulation } from 'eecircuit-engine'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { demoSupplies } from '../../src/engine/demo/index.ts'
import { supplyText } from '../../src/engine/file/file.ts'
import { assessWhole } from '../../src/engine/limits/index.ts'
import { corners, proveSupply } from '../../src/engine/stage/index.ts'
import { run } from '../support/run-command.ts'

const lights = demoSupplies()[1]!
let work: string
let file: string
let weak: string

beforeAll(async () => {
  work = await mkdtemp(join(tmpdir(), 'gapwright-prove-'))
  file = join(work, 'lights.supply.json')
  await writeFile(file, supplyText(lights))
  weak = join(work, 'weak.supply.json')
  const supply = structuredClone(lights)
  supply.need.output_A *= 1.5
  await writeFile(weak, supplyText(supply))
})

afterAll(() => rm(work, { recursive: true, force: true }))

const proofOf = (supply: typeof lights) => {
  const assessed = assessWhole(supply)
  if (!assessed.ok) throw new Error(assessed.problems[0]!.message)
  return proveSupply(assessed.value.evaluation)!
}

describe('prove', () => {
  it('gives every corner and limit as the library proves them', async () => {
    const { out, code } = await run('prove', file, '--json')
    const answer = JSON.parse(out)
    const proof = proofOf(lights)
    expect(answer).toMatchObject({
      supply: { id: lights.id, revision: lights.revision },
      depth: 'periodic steady state',
    })
    expect(answer.corners).toEqual(JSON.parse(JSON.stringify(proof.corners)))
    expect(answer.limits.map((limit: any) => [limit.id, limit.reading, limit.holds])).toEqual(
      proof.limits.map(({ limit }) => [limit.id, limit.reading, limit.holds]),
    )
    expect(code).toBe(answer.holds ? 0 : 1)
  })

  it('prints a line a corner with the difference from the closed form, and the weakest limits', async () => {
    const { out } = await run('prove', file, '--top', '3')
    for (const { id } of corners) expect(out).toMatch(new RegExp(`^${id}  `, 'm'))
    const corner = proofOf(lights).corners.find(
      ({ corner }) => corner.id === 'maximum-crest-100-typical-warm',
    )!
    if (!corner.ok) throw new Error(corner.message)
    const line = out.split('\n').find((text) => text.startsWith(corner.corner.id))!
    expect(line).toContain(`${corner.figures.drainPeak_V.toFixed(0)} V`)
    // five differences and the efficiency
    expect(line.match(/ [+-]?[\d.]+ %/g)).toHaveLength(6)
    expect(out.split('worst at\n')[1]!.trim().split('\n')).toHaveLength(3)
  })

  it('tells by exit code that an output cannot be held, and where', async () => {
    const { out, code } = await run('prove', weak)
    expect(code).toBe(1)
    expect(out).toContain(`cannot hold ${lights.need.output_V} V`)
    expect(out).toContain('BROKEN')
    const one = await run('prove', weak, '--corner', 'minimum-valley-100-power-warm')
    expect(one.code).toBe(1)
    expect(one.out).toContain('not solved (target-out-of-reach)')
  })

  it('shows one corner in full, with reasons where closed form and circuit differ', async () => {
    const id = 'minimum-valley-10-typical-warm'
    const { out, code } = await run('prove', file, '--corner', id)
    expect(code).toBe(0)
    const corner = JSON.parse((await run('prove', file, '--corner', id, '--json')).out)
    expect(corner.corner.id).toBe(id)
    for (const { label, why } of corner.comparisons) {
      expect(out).toContain(label)
      if (why !== null) expect(out).toContain(`  ${label}: `)
    }
  })
})

describe('deck', () => {
  it('writes a netlist that a general-purpose simulator runs to the solved output', async () => {
    const path = join(work, 'lights.cir')
    const corner = 'nominal-mean-100-typical-warm'
    const { code, out } = await run('deck', file, '--corner', corner, '--cycles', '2', '--out', path)
    expect([code, out]).toEqual([0, ''])
    const text = await readFile(path, 'utf8')
    expect((await run('deck', file, '--corner', corner, '--cycles', '2')).out).toBe(text)
    const simulator = new Simulation()
    await simulator.start()
    simulator.setNetList(text)
    const { data } = await simulator.runSim()
    const output = (data as { name: string; values: number[] }[]).find(
      ({ name }) => name.toLowerCase() === 'v(probe_output_v)',
    )!.values
    const mean = output.reduce((sum, value) => sum + value, 0) / output.length
    // two cycles from the solved state: the output capacitor has no time to move; 0.3 % is what the netlists are held to
    expect(mean / lights.need.output_V).toBeGreaterThan(0.997)
    expect(mean / lights.need.output_V).toBeLessThan(1.003)
  })
})

describe('what cannot be proved', () => {
  it.each<[string, string[]]>([
    [
      'there is no corner "hot"; there are:\n  minimum-valley-100-typical-warm',
      ['prove', 'FILE', '--corner', 'hot'],
    ],
    ['there is no corner "hot"', ['deck', 'FILE', '--corner', 'hot']],
    ['--cycles 0 is not a whole number from 1', ['deck', 'FILE', '--cycles', '0']],
    ['--cycles 20000 is over 10000', ['deck', 'FILE', '--cycles', '20000']],
    [
      'no netlist at lowest input at the valley, 100 % load, least inductance',
      ['deck', 'WEAK', '--corner', 'minimum-valley-100-power-warm'],
    ],
    ['the file of a supply is missing', ['prove']],
  ])('%s: exit code 2', async (sentence, argv) => {
    const { code, out, error } = await run(
      ...argv.map((word) => (word === 'FILE' ? file : word === 'WEAK' ? weak : word)),
    )
    expect(error).toContain(sentence)
    expect(out).toBe('')
    expect(code).toBe(2)
  })
})
