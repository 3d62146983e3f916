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
  /** Between the bias winding and where that leakage divides. */
  readonly leakage_H: number
}

/** Three quarters of a ring: a bias current that lasts longer meets the next crest. */
const longest_rad = 1.5 * Math.PI
/** Newton's steps: the balance is a smooth curve, and the start near. */
const steps = 2

/**
 * How far the spike charges a bias capacitor above the ratio of turns, V. The bias winding stands higher by D = s x n while
 * the clamp conducts, for th = Llk i/x; before that the drain rises past it, and after it leakage and drain ring down,
 * D cos(wt). The bias current starts where the winding passes the level y that the capacitor is charged to, rises by
 * (D - y)/Lb, and ends f (of the ring) after the clamp. With η = y/D, all in units of D, 1/w and D/(w Lb):
 *   it ends where (1 - η) θ + sin f = η f, so that η = (θ + sin f)/(θ + f),
 *   and has carried q = (1 - η) θ²/2 + (1 - η) θ f + 1 - cos f - η f²/2, which is the chip's charge I T w² Lb/D.
 * θ = w th, with what the rise above y adds: (1 - η)/(θ + sqrt(1 + θ² - η²)), from u(wt) = sin/cos of the same ring. Lb has in
 * it both parts of Llk side by side, s (1 - s) Llk n². What the bias takes is little against the leakage's charge;
 * resistance and later crests are left out. Derived here from the circuit's laws.
 */
export function spikeCharge_V(h: Handover, link: BiasLink, chip_A: number, rate_Hz: number): number {
  const { ratio, share } = link
  const lifted_V = share * h.over_V * ratio
  const entering_A = enteringCurrent_A(h)
  if (!(lifted_V > 0 && entering_A > 0)) return 0
  const held = (entering_A / h.over_V) * Math.sqrt(h.leakage_H / h.drain_F)
  const source_H = link.leakage_H + share * (1 - share) * h.leakage_H * ratio * ratio
  const taken = (chip_A * source_H) / (rate_Hz * h.leakage_H * h.drain_F * lifted_V)
  if (!(taken > 0)) return lifted_V
  let level = 0.7
  let end = 0
  let carried = 0
  for (let k = 0; k <= steps; k++) {
    const plateau = held + (1 - level) / (held + Math.sqrt(1 + held * held - level * level))
    if (k === 0) end = Math.min(longest_rad, Math.cbrt((12 * taken) / (plateau + 0.7)))
    else {
      const slope = 0.5 * (plateau + end) * (level - Math.cos(end))
      end = Math.min(longest_rad, Math.max(0.5 * end, end - (carried - taken) / slope))
    }
    const sine = Math.sin(end)
    level = Math.max(0, (plateau + sine) / (plateau + end))
    carried = (1 - level) * plateau * (0.5 * plateau + end) + 1 - Math.cos(end) - 0.5 * level * end * end
  }
  // Beyond the longest the level falls as the charge rises.
  return lifted_V * level * (end < longest_rad ? 1 : Math.min(1, carried / taken))
}
