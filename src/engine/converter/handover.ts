/** The leakage handing its current over to the secondary after turn-off, seen at the primary. */
export interface Handover {
  readonly leakage_H: number
  /** Capacitance at the drain. */
  readonly drain_F: number
  /** Current in the leakage when the rectifier takes over. */
  readonly handed_A: number
  /** Clamp less reflected voltage. */
  readonly over_V: number
}

/** Current with which the leakage enters the clamp: sqrt(I² - Cd x²/Llk), A; 0 where the drain stays below it. */
export const enteringCurrent_A = ({ leakage_H, drain_F, handed_A, over_V }: Handover): number =>
  Math.sqrt(Math.max(0, handed_A * handed_A - (drain_F * over_V * over_V) / leakage_H))

/**
 * What the secondary carries beyond the current that turns alone give, at the primary, A: with the clamp current gone,
 * leakage and drain capacitance ring on from x, and the backward current of that ring adds to what the secondary
 * takes: x sqrt(Cd/Llk) e^(-π/(4Q)), a quarter period on.
 */
export const handoverRing_A = ({ leakage_H, drain_F, over_V }: Handover, quality: number): number =>
  Math.max(0, over_V) * Math.sqrt(drain_F / leakage_H) * Math.exp(-Math.PI / (4 * quality))

/** A bias winding as the spike sees it, at its own side. */
export interface BiasLink {
  /** Bias turns over primary turns. */
  readonly ratio: number
  /** Part of the leakage between primary and secondary that lies on the secondary's side of the bias winding. */
  readonly share: number
  readonly leakage_H: number
}

/**
 * How far the spike charges a bias capacitor above the ratio of turns, V. While the clamp conducts, for th = Llk i/x, the
 * bias winding stands higher by D = s x n; its leakage lets the current rise by (D - y)/Lb, and fall with y/Lb after.
 * In balance with the chip's current I over the period T:
 *   (D - y) th² D/(2 Lb y) = I T, so that y = D/(1 + 2 Lb I T/(th² D)).
 * What the bias takes is taken as little against the leakage's charge; resistance is left out. Derived here.
 */
export function spikeCharge_V(h: Handover, link: BiasLink, chip_A: number, rate_Hz: number): number {
  const lifted_V = link.share * h.over_V * link.ratio
  const over_s = (h.leakage_H * enteringCurrent_A(h)) / h.over_V
  if (!(lifted_V > 0 && over_s > 0)) return 0
  return lifted_V / (1 + (2 * link.leakage_H * chip_A) / (rate_Hz * over_s * over_s * lifted_V))
}
