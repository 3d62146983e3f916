/** How finely the choices that are not parts are stepped, and how many parts of a kind are tried. */
export interface Grid {
  /** Reflected voltages aimed at, V. */
  readonly reflected_V: readonly number[]
  /** Ripple-to-peak ratios, which set inductance and gap. */
  readonly ripples: readonly number[]
  /** Secondary turns beyond the fewest that the flux allows. */
  readonly moreTurns: number
  /** Wires tried for each winding. */
  readonly wires: number
  /** Mains sides and output sides tried. */
  readonly around: number
  /** Whether a single primary is tried beside a split one. */
  readonly plainPrimary: boolean
}

export type Effort = 'quick' | 'usual' | 'fine'

const grids: Readonly<Record<Effort, Grid>> = {
  quick: {
    reflected_V: [63, 80, 100, 125],
    ripples: [0.5, 0.9],
    moreTurns: 0,
    wires: 1,
    around: 1,
    plainPrimary: false,
  },
  usual: {
    reflected_V: [56, 70, 88, 110, 138],
    ripples: [0.35, 0.6, 0.95],
    moreTurns: 1,
    wires: 2,
    around: 1,
    plainPrimary: true,
  },
  fine: {
    reflected_V: [50, 56, 63, 70, 78, 87, 97, 108, 120, 134, 150],
    ripples: [0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.98],
    moreTurns: 3,
    wires: 4,
    around: 2,
    plainPrimary: true,
  },
}

export interface SearchOptions {
  readonly grid: Grid
  /** Order in which blocks of cores and switchers are gone through after the likeliest; the answer is the same. */
  readonly seed: number
  /** Only this core, or this switcher, by id. */
  readonly only?: { readonly core?: string | undefined; readonly switcher?: string | undefined }
}

export const searchOptions = (
  effort: Effort = 'usual',
  only: SearchOptions['only'] = {},
  seed = 1,
): SearchOptions => ({ grid: grids[effort], seed, only })
