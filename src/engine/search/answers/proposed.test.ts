import { describe, expect, test } from 'vitest'
import { assessWhole } from '../../limits/index.ts'
import { starterDrawer } from '../../parts/starter/index.ts'
import type { Need } from '../../supply/need.ts'
import { proposeSupply } from '../propose.ts'
import { supplyFrom } from '../space/candidate.ts'
import { searchOptions } from '../space/options.ts'
import { searchSpace } from '../space/space.ts'
import { beginSearch } from '../step.ts'
import { withProposal } from './proposed.ts'
import { chooseProved } from './proved.ts'

const need: Need = {
  source: { kind: 'mains', minimum_Vrms: 207, nominal_Vrms: 230, maximum_Vrms: 253, frequency_Hz: 50 },
  ...{ output_V: 12, trimLow_V: 12, trimHigh_V: 12, output_A: 1.5, ripple_Vpp: 0.12, holdUp_s: 0 },
  ...{ ambient_C: 40, cooling: 'case-vented', feeds: 'electronics' },
  ...{ insulation: 'reinforced', pollutionDegree: 2, altitude_m: 2000 },
}

const spaceFor = (of: Need, only = {}) => {
  const space = searchSpace(of, starterDrawer, searchOptions('quick', only))
  if (!space.ok) throw new Error(space.problems[0]?.message)
  return space.value
}

describe('a search that found nothing', () => {
  const space = spaceFor(need)
  const nothing = { ...beginSearch(space), done: true }
  const found = withProposal(space, nothing)
  const answer = found.front[0]!

  test('answers with the proposal where it holds every limit, its turns said', () => {
    const proposed = proposeSupply(need, starterDrawer)
    expect(proposed.ok && answer.build.places).toEqual(proposed.ok && proposed.value.build.places)
    expect(answer.build.transformer.primaryTurns).toBeGreaterThan(0)
    const judged = assessWhole(supplyFrom(space, answer.build, ''))
    expect(judged.ok && judged.value.holds).toBe(true)
  })

  test('counts its core and chip among those with an answer', () => {
    expect(space.cores[found.cores[0]!]!.core.id).toBe(answer.build.places.core)
    expect(space.switchers[found.switchers[0]!]!.id).toBe(answer.build.places.switcher)
  })

  test('stays as it is before its end, with answers of its own, and where one core alone was asked', () => {
    const going = beginSearch(space)
    expect(withProposal(space, going)).toBe(going)
    expect(withProposal(space, found)).toBe(found)
    const one = spaceFor(need, { core: answer.build.places.core })
    const none = { ...beginSearch(one), done: true }
    expect(withProposal(one, none)).toBe(none)
  })
})

/** One large core, one chip in voltage mode that is too strong, few wires: no step of the search has a loop that holds. */
const oversized = new Set([
  ...['switcher-700v-2r5', 'core-eer35', 'former-eer35', 'ferrite-pw2', 'tape-polyester-55um-16mm'],
  ...['wire-0.3mm-grade-1', 'wire-0.4mm-grade-1', 'wire-0.5mm-triple', 'heatsink-50-mm-extrusion'],
  ...['diode-ultrafast-1000v-1a', 'diode-schottky-100v-20a-dual', 'diode-schottky-150v-20a-dual'],
  ...['capacitor-lowesr-1000uf-25v', 'capacitor-bulk-100uf-400v', 'capacitor-x2-100nf-275v'],
  ...['capacitor-y1-2.2nf-400v', 'capacitor-disc-1nf-1000v', 'capacitor-film-10nf-630v'],
  ...['capacitor-ceramic-0.1nf-100v', 'optocoupler-100-200', 'reference-2.5v-1pc', 'bridge-800v-4a'],
  ...['fuse-2a-slow', 'ntc-16r-1.7a', 'varistor-275v-10mm', 'common-mode-choke-15mh-1.3a'],
])

test('a proposal that a change makes hold is changed', () => {
  const drawer = { ...starterDrawer, entries: starterDrawer.entries.filter((e) => oversized.has(e.part.id)) }
  expect(drawer.entries.length).toBe(oversized.size)
  const asked = { ...need, output_A: 3 }
  const space = searchSpace(asked, drawer, searchOptions('quick'))
  if (!space.ok) throw new Error(space.problems[0]?.message)
  const proposed = proposeSupply(asked, drawer)
  const before = proposed.ok ? assessWhole(proposed.value) : proposed
  expect(before.ok && before.value.limits.filter((limit) => !limit.holds).map(({ id }) => id)).toEqual([
    'loop.phase-margin',
  ])
  const { front, proposed: said } = withProposal(space.value, { ...beginSearch(space.value), done: true })
  expect([front.length, said]).toEqual([1, true])
  const after = assessWhole(supplyFrom(space.value, front[0]!.build, ''))
  expect(after.ok && after.value.holds).toBe(true)
  expect(chooseProved(space.value, front, 1).answers).toEqual(front)
})

test('what the solved circuit refuses is no answer: the proposal stands beside it', () => {
  const space = spaceFor(need)
  const [answer] = withProposal(space, { ...beginSearch(space), done: true }).front
  // No clamp to speak of: the drain passes its rating.
  const build = { ...answer!.build, clamp: { ...answer!.build.clamp, resistor_ohm: 1e6, voltage_V: 420 } }
  const pierced = { ...answer!, build: { ...build, transformer: { ...build.transformer, gap_m: 1e-3 } } }
  const { front, proposed } = withProposal(space, { ...beginSearch(space), done: true, front: [pierced] })
  expect(front).toEqual([pierced, answer])
  expect(proposed).toBe(true)
})

test('a need that nothing of the drawer serves stays without an answer', () => {
  const space = spaceFor({ ...need, output_V: 40, trimLow_V: 40, trimHigh_V: 40, output_A: 6 })
  expect(withProposal(space, { ...beginSearch(space), done: true }).front).toEqual([])
})
