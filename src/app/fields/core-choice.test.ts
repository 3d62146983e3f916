import { describe, expect, it } from 'vitest'
import { demoSupplies } from '../../engine/demo/index.ts'
import { starterDrawer } from '../../engine/parts/index.ts'
import type { Core, Former } from '../../engine/parts/part.ts'
import type { Supply } from '../../engine/supply/supply.ts'
import { assessmentOf } from '../state/assessment.ts'
import { applyChanges } from '../state/edits.ts'
import { coreChoice } from './core-choice.ts'
import { partAt } from './parts-in-use.ts'

const drawer = starterDrawer
const supply = demoSupplies()[0]!
const cores = drawer.entries.map((e) => e.part).filter((p): p is Core => p.kind === 'core')
const coreOf = (size: string) => cores.find((c) => c.size === size)!

const withTurns = (primaryTurns: number, secondaryTurns: number): Supply => ({
  ...supply,
  build: {
    ...supply.build,
    transformer: { ...supply.build.transformer, primaryTurns, secondaryTurns, stack: null },
  },
})

describe('a core chosen from the drawer', () => {
  it('brings a former that fits it', () => {
    for (const core of cores) {
      const choice = coreChoice(supply, core, drawer)
      if (choice === null) continue
      const next = applyChanges(supply, choice.changes)
      expect((partAt(next, 'former') as Former).fits).toContain(core.size)
      const result = assessmentOf(next)
      if (!result.ok) expect(result.problems.map((p) => p.path).join()).not.toContain('former')
    }
  })

  it('goes together with the supply where the core is larger', () => {
    const choice = coreChoice(supply, coreOf('ETD49/25/16'), drawer)!
    expect(assessmentOf(applyChanges(supply, choice.changes)).ok).toBe(true)
  })

  it('leaves the former in use where it fits', () => {
    const choice = coreChoice(supply, partAt(supply, 'core') as Core, drawer)
    expect(choice).toMatchObject({ former: null, rewound: false })
  })

  it('keeps fixed windings that fit, and gives back those that do not', () => {
    const large = coreOf('ETD49/25/16')
    const small = coreOf('E32/16/9')
    const kept = coreChoice(withTurns(45, 6), large, drawer)!
    expect(kept.rewound).toBe(false)
    expect(applyChanges(withTurns(45, 6), kept.changes).build.transformer.primaryTurns).toBe(45)
    const anew = coreChoice(withTurns(300, 40), small, drawer)!
    expect(anew.rewound).toBe(true)
    expect(applyChanges(withTurns(300, 40), anew.changes).build.transformer.primaryTurns).toBeNull()
  })

  it('keeps fixed windings where nothing fits', () => {
    const small = coreChoice(withTurns(45, 6), coreOf('E20/10/6'), drawer)!
    expect(small.rewound).toBe(false)
  })

  it('is nothing where no former fits', () => {
    expect(coreChoice(supply, { ...coreOf('E20/10/6'), size: 'E99/9/9' }, drawer)).toBeNull()
  })
})
