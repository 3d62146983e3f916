import type { Drawer, Lamp, Switcher } from '../../../engine/parts/part.ts'
import { createStore } from '../../state/store.ts'

/** Choices for the bench that stay while the page is open, by supply. Null lets the tool choose. */
export interface BenchChoice {
  readonly lamp: string | null
  /** `none` starts with the planned chip. */
  readonly smaller: string | null
}

const untouched: BenchChoice = { lamp: null, smaller: null }

export const benchChoices = createStore<Readonly<Record<string, BenchChoice>>>({})

export const choiceFor = (all: Readonly<Record<string, BenchChoice>>, id: string): BenchChoice =>
  all[id] ?? untouched

export const choose = (id: string, change: Partial<BenchChoice>): void =>
  benchChoices.set((all) => ({ ...all, [id]: { ...choiceFor(all, id), ...change } }))

/** Lamps in the drawer that have not run out, and are rated for this voltage. */
export const lampsAtHand = (drawer: Drawer | null, nominal_V: number): readonly Lamp[] =>
  (drawer?.entries ?? []).flatMap(({ part, quantity }) =>
    part.kind === 'lamp' &&
    quantity !== 0 &&
    part.voltage_V >= 0.9 * nominal_V &&
    part.voltage_V <= 1.6 * nominal_V
      ? [part]
      : [],
  )

/** Smaller switchers of the same family and footprint in the drawer, the smallest first. */
export const smallerAtHand = (drawer: Drawer | null, used: Switcher): readonly Switcher[] =>
  (drawer?.entries ?? [])
    .flatMap(({ part, quantity }) =>
      part.kind === 'switcher' &&
      quantity !== 0 &&
      part.family === used.family &&
      part.package === used.package &&
      part.pins === used.pins &&
      part.currentLimit_A.typical < 0.95 * used.currentLimit_A.typical
        ? [part]
        : [],
    )
    .sort((a, b) => a.currentLimit_A.typical - b.currentLimit_A.typical)

/** Part of the planned current limit that a first chip had best have; common practice, no source. */
const gentle = 0.5

/** Of the smaller ones that which is nearest to half the planned limit. */
export const gentlest = (smaller: readonly Switcher[], used: Switcher): Switcher | null =>
  [...smaller].sort(
    (a, b) =>
      Math.abs(Math.log(a.currentLimit_A.typical / (gentle * used.currentLimit_A.typical))) -
      Math.abs(Math.log(b.currentLimit_A.typical / (gentle * used.currentLimit_A.typical))),
  )[0] ?? null
