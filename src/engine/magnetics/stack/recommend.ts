import type { StackEntry, WindingEntry } from './types.ts'

export interface RecommendationInput {
  readonly primary: {
    readonly name: string
    readonly turns: number
    readonly pins: readonly [number, number]
  }
  readonly secondary: {
    readonly name: string
    readonly turns: number
    readonly pins: readonly [number, number]
  }
  readonly bias?: { readonly name: string; readonly turns: number; readonly pins: readonly [number, number] }
  readonly splitPrimary: boolean
  /** Pin that joins the halves of a split primary, null to join them off the pins; needed only when split. */
  readonly splitPin?: number | null
  /** Bias between the first half of the primary and the secondary, where it also acts as a shield, or outermost. */
  readonly biasPlace: 'between' | 'after'
  readonly barrierTapeLayers: number
  readonly outerTapeLayers: number
}

/**
 * Winding order that is usual for small flyback transformers: primary innermost with its start (`pins[0]`) to the
 * switch, so that the end that swings most is covered by the rest; barrier tape between primary side and secondary
 * side; a split primary embraces the secondary. All windings run clockwise, starts on starts. Common practice.
 */
export const recommendStack = (input: RecommendationInput): StackEntry[] => {
  const { primary, secondary, bias, splitPrimary } = input
  const wind = (
    name: string,
    turns: number,
    startPin: number | null,
    finishPin: number | null,
  ): WindingEntry => ({
    kind: 'winding',
    winding: name,
    turns,
    direction: 'clockwise',
    startPin,
    finishPin,
  })
  const tape = (layers: number): StackEntry[] => (layers > 0 ? [{ kind: 'tape', layers }] : [])
  const barrier = tape(input.barrierTapeLayers)
  const split = splitPrimary && primary.turns > 1
  const first = split ? Math.ceil(primary.turns / 2) : primary.turns
  const joint = input.splitPin === undefined ? primary.pins[1] : input.splitPin
  const biasEntry = bias ? [wind(bias.name, bias.turns, bias.pins[0], bias.pins[1])] : []
  const between = input.biasPlace === 'between'
  const stack: StackEntry[] = [wind(primary.name, first, primary.pins[0], split ? joint : primary.pins[1])]
  if (between && bias) stack.push(...tape(1), ...biasEntry)
  stack.push(...barrier, wind(secondary.name, secondary.turns, secondary.pins[0], secondary.pins[1]))
  if (split) stack.push(...barrier, wind(primary.name, primary.turns - first, joint, primary.pins[1]))
  if (!between && bias) stack.push(...(split ? tape(1) : barrier), ...biasEntry)
  stack.push(...tape(input.outerTapeLayers))
  return stack
}
