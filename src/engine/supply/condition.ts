/** What the supply works into and from, and how far its tolerances lean, for one set of readings. */
export interface Condition {
  /** Stable name, for instance `minimum-100` or `power-corner`. */
  readonly id: ConditionId
  /** For people: `lowest input, full load`. */
  readonly label: string
  readonly input: 'minimum' | 'nominal' | 'maximum'
  /** Output current as a fraction of what is asked; null where the current limit decides. */
  readonly load: number | null
  /**
   * `typical`: every part at its typical value. `power`: what makes the power ceiling lowest (least inductance,
   * least current limit, least bulk capacitance). `flux`: what drives the core and the clamp hardest (most
   * inductance, greatest current limit).
   */
  readonly corner: 'typical' | 'power' | 'flux'
  /** `steady` regulates; `overload` runs at the current limit with the output still up; `short` has none. */
  readonly kind: 'steady' | 'overload' | 'short'
}

const inputs = ['minimum', 'nominal', 'maximum'] as const
const loads = [0, 10, 50, 100] as const

export type ConditionId =
  | `${(typeof inputs)[number]}-${(typeof loads)[number]}`
  | 'power-corner'
  | 'flux-corner'
  | 'overload-minimum'
  | 'overload-maximum'
  | 'short'

const inputLabel = { minimum: 'lowest input', nominal: 'nominal input', maximum: 'highest input' }
const loadLabel = { 0: 'no load', 10: '10 % load', 50: 'half load', 100: 'full load' }

/**
 * All conditions at which a supply is read: every mix of input and load at typical values, then the corners where
 * tolerances are at their worst, overload at both ends of the input, and a short across the output.
 */
export const conditions: readonly Condition[] = [
  ...inputs.flatMap((input) =>
    loads.map(
      (percent): Condition => ({
        id: `${input}-${percent}`,
        label: `${inputLabel[input]}, ${loadLabel[percent]}`,
        input,
        load: percent / 100,
        corner: 'typical',
        kind: 'steady',
      }),
    ),
  ),
  {
    id: 'power-corner',
    label: 'lowest input, full load, least inductance, current limit, clock and bulk capacitance',
    input: 'minimum',
    load: 1,
    corner: 'power',
    kind: 'steady',
  },
  {
    id: 'flux-corner',
    label: 'lowest input, full load, most inductance',
    input: 'minimum',
    load: 1,
    corner: 'flux',
    kind: 'steady',
  },
  {
    id: 'overload-minimum',
    label: 'lowest input, at the greatest current limit, most inductance',
    input: 'minimum',
    load: null,
    corner: 'flux',
    kind: 'overload',
  },
  {
    id: 'overload-maximum',
    label: 'highest input, at the greatest current limit, most inductance',
    input: 'maximum',
    load: null,
    corner: 'flux',
    kind: 'overload',
  },
  {
    id: 'short',
    label: 'highest input, output shorted or not yet risen',
    input: 'maximum',
    load: null,
    corner: 'flux',
    kind: 'short',
  },
]

export const conditionById: ReadonlyMap<ConditionId, Condition> = new Map(conditions.map((c) => [c.id, c]))
