import type { Limit } from '../limits/limit.ts'
import { formatQuantity } from '../quantity/index.ts'
import type { Design } from '../supply/design.ts'
import type { Corner } from './corner.ts'
import type { ProvedCorner, SolvedCorner } from './proved-corner.ts'

/** Something that the corners show and the closed form cannot. */
export interface Finding {
  readonly code: 'cannot-hold' | 'skips' | 'subharmonic' | 'restless' | 'wanders' | 'starves' | 'unsolved'
  readonly corner: Corner
  readonly sentence: string
}

const harmful: ReadonlySet<Finding['code']> = new Set([
  'cannot-hold',
  'subharmonic',
  'wanders',
  'starves',
  'unsolved',
])

/**
 * True where a load that is asked for is not held. Pulses that differ are no harm of themselves: at light load they
 * start in the ring of the ones before, or the chip leaves some out. What counts is the output within its ripple and
 * the chip within its supply.
 */
export const spoils = ({ code, corner }: Finding): boolean => corner.kind === 'steady' && harmful.has(code)

/** What a corner shows beside its figures; null where every pulse is like the one before. `limits` give the ripple asked. */
export function findingOf(d: Design, proved: ProvedCorner, limits: readonly Limit[]): Finding | null {
  const { corner } = proved
  const at = `At ${corner.label}`
  if (proved.ok) {
    if (proved.repeatsAfter === 1) return null
    if (proved.repeatsAfter > 1 && proved.continuous)
      return {
        code: 'subharmonic',
        corner,
        sentence: `${at} only every ${nth(proved.repeatsAfter)} pulse is alike: subharmonic oscillation, heard as hiss.`,
      }
    if (corner.kind === 'steady') return unevenAt(d, proved, limits)
    return {
      code: 'restless',
      corner,
      sentence: `${at} no two pulses are alike: current limit and shortest on-time take turns. Figures there are over many cycles.`,
    }
  }
  switch (proved.code) {
    case 'target-out-of-reach':
      return {
        code: 'cannot-hold',
        corner,
        sentence: `${at} the stage cannot hold ${d.need.output_V} V: current limit or greatest duty end each pulse first.`,
      }
    case 'subharmonic':
      return {
        code: 'subharmonic',
        corner,
        sentence: `${at} no steady pulse exists: subharmonic oscillation (${proved.message}).`,
      }
    default:
      return { code: 'unsolved', corner, sentence: `${corner.label} could not be solved: ${proved.message}.` }
  }
}

/** Uneven pulses at a load that is held: harmless, unless the output swings or the chip's supply sags. */
function unevenAt(d: Design, proved: SolvedCorner, limits: readonly Limit[]): Finding {
  const { corner, figures, repeatsAfter, skips } = proved
  const swing_V = figures.outputRipple_Vpp
  const most_V = limits.find(({ id }) => id === 'output.ripple')?.rating ?? Number.POSITIVE_INFINITY
  const least_V = d.parts.switcher.biasVoltage_V.minimum
  const bias_V = (figures.bias_V * d.need.trimLow_V) / d.need.output_V
  const pulses = skips
    ? 'even the shortest pulse gives too much, and the chip leaves some out'
    : `${repeatsAfter > 1 ? `only every ${nth(repeatsAfter)} pulse is alike` : 'no two pulses are alike'}: each starts where the ring of the one before stands`
  const told = `At ${corner.label} ${pulses}.`
  if (swing_V > most_V)
    return {
      code: 'wanders',
      corner,
      sentence: `${told} The output swings by ${formatQuantity(swing_V, 'V')}, where ${formatQuantity(most_V, 'V')} are asked.`,
    }
  if (bias_V < least_V)
    return {
      code: 'starves',
      corner,
      sentence: `${told} The bias voltage falls to ${formatQuantity(bias_V, 'V')}, and the chip stops below ${formatQuantity(least_V, 'V')}.`,
    }
  return {
    code: skips ? 'skips' : 'restless',
    corner,
    sentence: `${told} The output swings by ${formatQuantity(swing_V, 'V')} all the same, within what is asked.`,
  }
}

const nth = (n: number): string => (n === 2 ? 'second' : `${n}th`)
