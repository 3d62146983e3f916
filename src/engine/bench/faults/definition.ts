import type { Design } from '../../supply/design.ts'
import { type Unit, withDesign } from '../unit/unit.ts'

/** What experience says of one reading, where no model computes it. */
export type Known =
  | { readonly kind: 'times'; readonly factor: number; readonly spread: number }
  | { readonly kind: 'value'; readonly value: number; readonly spread: number }
  | { readonly kind: 'answer'; readonly answer: string; readonly sure: number }
  | { readonly kind: 'unreachable' }

/** A healthy reading times a factor. */
export const times = (factor: number, spread = 0.2): Known => ({ kind: 'times', factor, spread })
/** A reading whatever the healthy one is. */
export const value = (v: number, spread = 0.2): Known => ({ kind: 'value', value: v, spread })
/** An answer and how sure it is. */
export const answer = (id: string, sure = 0.85): Known => ({ kind: 'answer', answer: id, sure })

/** One fault: what it changes in a unit, what experience adds, and what to do. */
export interface FaultDefinition {
  readonly id: string
  readonly title: string
  /** How often it is met, against 1 for a usual one; no source, order of magnitude. */
  readonly weight: number
  readonly change: (u: Unit) => Unit
  readonly known: Readonly<Record<string, Known>>
  /** Readings whose size varies from case to case: one standard deviation of the logarithm. */
  readonly varies: Readonly<Record<string, number>>
  readonly telling: string
  readonly remedy: string
  readonly danger: string
}

/** A fault with the usual values for what is left out. */
export const fault = (
  f: Pick<FaultDefinition, 'id' | 'title' | 'telling' | 'remedy'> & Partial<FaultDefinition>,
): FaultDefinition => ({
  weight: 1,
  change: (u) => u,
  known: {},
  varies: {},
  danger: '',
  ...f,
})

type TransformerDesign = Design['transformer']

/** Changes values of the transformer. */
export const transformer = (u: Unit, change: (t: TransformerDesign) => Partial<TransformerDesign>): Unit => {
  const t = u.design.transformer
  return withDesign(u, { transformer: { ...t, ...change(t) } })
}

/** Changes values of parts. */
export const ofParts = (u: Unit, change: (p: Design['parts']) => Partial<Design['parts']>): Unit =>
  withDesign(u, { parts: { ...u.design.parts, ...change(u.design.parts) } })

const scaled = (s: { minimum: number; typical: number; maximum: number }, k: number) => ({
  minimum: s.minimum * k,
  typical: s.typical * k,
  maximum: s.maximum * k,
})

/** Scales inductance; leakage stays, it belongs to the winding and not to the gap. */
export const inductance = (u: Unit, k: number): Unit =>
  transformer(u, (t) => ({ primaryInductance_H: scaled(t.primaryInductance_H, k) }))

/** Scales leakage. */
export const leakage = (u: Unit, k: number): Unit =>
  transformer(u, (t) => ({ leakage_H: scaled(t.leakage_H, k) }))

/** Scales all turns of one winding but keeps it on the same core and gap. */
export function turns(u: Unit, winding: 'primary' | 'secondary', k: number): Unit {
  if (winding === 'secondary') {
    const changed = transformer(u, (t) => ({
      secondaryTurns: t.secondaryTurns * k,
      turnsRatio: t.turnsRatio / k,
      reflectedVoltage_V: t.reflectedVoltage_V / k,
      secondaryResistance20_ohm: t.secondaryResistance20_ohm * k,
    }))
    const bias = u.design.biasVoltage_V + u.design.parts.biasDiode.drop_V
    return withDesign(changed, { biasVoltage_V: bias / k - u.design.parts.biasDiode.drop_V })
  }
  return transformer(u, (t) => ({
    primaryTurns: t.primaryTurns * k,
    turnsRatio: t.turnsRatio * k,
    reflectedVoltage_V: t.reflectedVoltage_V * k,
    primaryResistance20_ohm: t.primaryResistance20_ohm * k,
    primaryInductance_H: scaled(t.primaryInductance_H, k * k),
    leakage_H: scaled(t.leakage_H, k * k),
  }))
}
