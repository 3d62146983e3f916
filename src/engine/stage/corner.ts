/** Instant of the bulk voltage at which a corner is solved: between crests it sags from crest to valley. */
export type BulkPoint = 'valley' | 'mean' | 'crest'

/** What one repeating cycle is solved at: mains, load, tolerance and temperature. */
export interface Corner {
  /** Stable name, for instance `minimum-valley-100-typical-warm`. */
  readonly id: string
  readonly label: string
  readonly input: 'minimum' | 'nominal' | 'maximum'
  readonly bulk: BulkPoint
  /** Output current as a fraction of what is asked; null where the current limit decides. */
  readonly load: number | null
  /**
   * `power`: least inductance, current limit, duty and bulk capacitance. `flux`: most inductance and leakage,
   * greatest current limit.
   */
  readonly tolerance: 'typical' | 'power' | 'flux'
  /** `cold`: just switched on, everything at ambient. `warm`: as hot as it gets in the end. */
  readonly warmth: 'cold' | 'warm'
  /** `steady` regulates; `overload` runs at the current limit with the output still up; `short` has none. */
  readonly kind: 'steady' | 'overload' | 'short'
}

const inputWords = { minimum: 'lowest input', nominal: 'nominal input', maximum: 'highest input' }
const bulkWords = { valley: 'at the valley', mean: 'on average', crest: 'at the crest' }
const toleranceWords = {
  typical: '',
  power: ', least inductance and limit',
  flux: ', most inductance and leakage',
}

type Point = Pick<Corner, 'input' | 'bulk'>

const steady = (
  { input, bulk }: Point,
  percent: number,
  tolerance: Corner['tolerance'],
  warmth: Corner['warmth'],
): Corner => ({
  id: `${input}-${bulk}-${percent}-${tolerance}-${warmth}`,
  label: `${inputWords[input]} ${bulkWords[bulk]}, ${percent} % load${toleranceWords[tolerance]}${
    warmth === 'cold' ? ', just switched on' : ''
  }`,
  input,
  bulk,
  load: percent / 100,
  tolerance,
  warmth,
  kind: 'steady',
})

const limited = (kind: 'overload' | 'short', { input, bulk }: Point): Corner => ({
  id: `${kind}-${input}`,
  label:
    kind === 'short'
      ? `${inputWords[input]}, output shorted, within one try`
      : `${inputWords[input]} ${bulkWords[bulk]}, at the greatest current limit`,
  input,
  bulk,
  load: null,
  tolerance: 'flux',
  warmth: 'warm',
  kind,
})

const extremes = [
  { input: 'minimum', bulk: 'valley' },
  { input: 'maximum', bulk: 'crest' },
] as const satisfies readonly Point[]

/**
 * Every corner that is proved. Both ends of the input where each is worst (valley of the lowest, crest of the
 * highest), full and tenth load, three tolerances, cold and warm; then the mean bulk voltage of all three inputs at
 * three loads, where heat is made; then the current limit at both ends and a short.
 */
export const corners: readonly Corner[] = [
  ...extremes.flatMap((point) =>
    [100, 10].flatMap((percent) =>
      (['typical', 'power', 'flux'] as const).flatMap((tolerance) =>
        (['warm', 'cold'] as const).map((warmth) => steady(point, percent, tolerance, warmth)),
      ),
    ),
  ),
  ...(['minimum', 'nominal', 'maximum'] as const).flatMap((input) =>
    [100, 50, 10].map((percent) => steady({ input, bulk: 'mean' }, percent, 'typical', 'warm')),
  ),
  limited('overload', extremes[0]),
  limited('overload', extremes[1]),
  limited('short', extremes[1]),
]

export const cornerById: ReadonlyMap<string, Corner> = new Map(corners.map((corner) => [corner.id, corner]))
