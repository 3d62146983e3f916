import { fail, type Result, succeed } from '../core/result.ts'
import { type Estimate, together } from './readings.ts'

export interface WoundReadings {
  readonly primaryTurns: number
  readonly secondaryTurns: number
  readonly primary_H: number
  /** Secondary alone, all else open. */
  readonly secondary_H?: number
  /** Primary with the secondary shorted at its pins and the bias winding open. */
  readonly shorted_H?: number
  /** Measured and expected resistance of a winding, at the same temperature. */
  readonly resistances?: readonly {
    readonly winding: string
    readonly measured_ohm: number
    readonly expected_ohm: number
    readonly turns: number
  }[]
  readonly accuracy: { readonly inductance: number; readonly resistance: number }
}

export interface WoundFlag {
  readonly code: 'turns-ratio' | 'shorted-turn' | 'leakage-high' | 'not-shorted' | 'resistance'
  readonly message: string
}

export interface AsWound {
  /** Leakage referred to the primary, and as a fraction of the primary inductance. */
  readonly leakage_H: Estimate | null
  readonly leakageFraction: Estimate | null
  readonly turnsRatio: Estimate | null
  /** Whole turns of the secondary that the ratio fits best. */
  readonly secondaryTurns: number | null
  readonly flags: readonly WoundFlag[]
}

/** Part of the resistance of a hand-wound winding that tails, tension and wire tolerance may change: common practice. */
const windingSpread = 0.08

/**
 * What the finished winding tells: leakage, turns ratio sqrt(Lp/Ls), a shorted turn, a winding with the wrong wire
 * or turns. Bounds of leakage from practice: 1 to 3 % good, above 5 % redo.
 * Errors: inductances or turns not positive; shorted inductance above the open one.
 */
export function readWinding(r: WoundReadings): Result<AsWound> {
  for (const [path, value] of [
    ['primaryTurns', r.primaryTurns],
    ['secondaryTurns', r.secondaryTurns],
    ['primary_H', r.primary_H],
    ['secondary_H', r.secondary_H ?? 1],
    ['shorted_H', r.shorted_H ?? 1],
  ] as const)
    if (!(value > 0)) return fail(path, `${path} is ${value}, but it must be above 0`)
  const flags: WoundFlag[] = []
  const meter = r.accuracy.inductance
  if (r.shorted_H !== undefined && r.shorted_H > r.primary_H * (1 + 2 * meter))
    return fail(
      'shorted_H',
      `the inductance with the secondary shorted (${r.shorted_H} H) is above that with it open (${r.primary_H} H)`,
    )
  const leakage_H = r.shorted_H === undefined ? null : { value: r.shorted_H, uncertainty: meter }
  const fraction = r.shorted_H === undefined ? null : r.shorted_H / r.primary_H
  if (fraction !== null) {
    if (fraction > 0.5)
      flags.push({
        code: 'not-shorted',
        message:
          'shorting the secondary hardly lowers the inductance: the short is not on the pins, or a turn is shorted already',
      })
    else if (fraction > 0.05)
      flags.push({
        code: 'leakage-high',
        message: `leakage is ${(fraction * 100).toPrecision(2)} % of the primary: above 5 % re-wind with a split primary`,
      })
  }
  const ratio = r.secondary_H === undefined ? null : Math.sqrt(r.primary_H / r.secondary_H)
  const secondaryTurns = ratio === null ? null : Math.max(1, Math.round(r.primaryTurns / ratio))
  if (ratio !== null) {
    const planned = r.primaryTurns / r.secondaryTurns
    const slack = Math.max(meter, 0.5 / r.secondaryTurns)
    if (Math.abs(ratio / planned - 1) > slack)
      flags.push({
        code: 'turns-ratio',
        message: `the inductances give a turns ratio of ${ratio.toPrecision(3)}, planned is ${planned.toPrecision(3)}: count the secondary, it looks like ${secondaryTurns}`,
      })
  }
  for (const w of r.resistances ?? []) {
    const off = w.measured_ohm / w.expected_ohm - 1
    if (Math.abs(off) > together(r.accuracy.resistance, windingSpread))
      flags.push({
        code: off < 0 ? 'shorted-turn' : 'resistance',
        message: `${w.winding} reads ${w.measured_ohm} ohm where ${w.expected_ohm.toPrecision(3)} ohm is expected: as of ${(w.turns * (1 + off)).toFixed(0)} turns, or another wire`,
      })
  }
  return succeed({
    leakage_H,
    leakageFraction: fraction === null ? null : { value: fraction, uncertainty: Math.SQRT2 * meter },
    turnsRatio: ratio === null ? null : { value: ratio, uncertainty: meter / Math.SQRT2 },
    secondaryTurns,
    flags,
  })
}
