/** How many harmonics of the switching frequency copper loss is summed over. */
export const harmonicCount = 16

/** A current that runs in a straight line from `start` to `end` for a share of the period and is zero else. */
export interface Ramp {
  readonly start_A: number
  readonly end_A: number
  readonly duty: number
}

/**
 * Resistance beyond the dc resistance at each harmonic, Ω: of the primary, of the secondary, and mutual, where loss
 * is ½ Σ R[i][j] Re(Ii* Ij) for peak phasors of currents that magnetise the core the same way.
 */
export interface ExcessResistance {
  readonly primary_ohm: ArrayLike<number>
  readonly mutual_ohm: ArrayLike<number>
  readonly secondary_ohm: ArrayLike<number>
}

/** Loss beyond Irms² Rdc; half of what the windings do to each other is counted to each. */
export interface ExcessLoss {
  readonly primary_W: number
  readonly secondary_W: number
}

/**
 * Skin and proximity loss of a flyback's two windings: the primary ramps up during its duty, then the secondary
 * ramps down during its own.
 *
 * Fourier coefficients of a ramp from zero time: c_k = start (1 - e)/(jw) + slope (e (1 + jwD) - 1)/w² with
 * e = e^(-jwD), w = 2πk and unit period; the secondary's are turned by the primary's duty. Edges of a real converter
 * last tens to hundreds of ns, so that 16 harmonics of 100 kHz hold what heats.
 */
export function excessLoss(primary: Ramp, secondary: Ramp, excess: ExcessResistance): ExcessLoss {
  const slopeP = primary.duty > 0 ? (primary.end_A - primary.start_A) / primary.duty : 0
  const slopeS = secondary.duty > 0 ? (secondary.end_A - secondary.start_A) / secondary.duty : 0
  const turnP = 2 * Math.PI * primary.duty
  const turnS = 2 * Math.PI * secondary.duty
  const stepPRe = Math.cos(turnP)
  const stepPIm = -Math.sin(turnP)
  const stepSRe = Math.cos(turnS)
  const stepSIm = -Math.sin(turnS)
  let pRe = 1
  let pIm = 0
  let sRe = 1
  let sIm = 0
  let primary_W = 0
  let secondary_W = 0
  for (let k = 1; k <= harmonicCount; k++) {
    let next = pRe * stepPRe - pIm * stepPIm
    pIm = pRe * stepPIm + pIm * stepPRe
    pRe = next
    next = sRe * stepSRe - sIm * stepSIm
    sIm = sRe * stepSIm + sIm * stepSRe
    sRe = next
    const w = 2 * Math.PI * k
    const over = 1 / (w * w)
    const wp = w * primary.duty
    const ws = w * secondary.duty
    const aRe = (-primary.start_A * pIm) / w + slopeP * over * (pRe - pIm * wp - 1)
    const aIm = (-primary.start_A * (1 - pRe)) / w + slopeP * over * (pIm + pRe * wp)
    const bRe = (-secondary.start_A * sIm) / w + slopeS * over * (sRe - sIm * ws - 1)
    const bIm = (-secondary.start_A * (1 - sRe)) / w + slopeS * over * (sIm + sRe * ws)
    // The secondary starts when the primary ends: its coefficients turn by e^(-jwD).
    const cRe = bRe * pRe - bIm * pIm
    const cIm = bRe * pIm + bIm * pRe
    const mutual = 2 * excess.mutual_ohm[k - 1]! * (aRe * cRe + aIm * cIm)
    primary_W += 2 * excess.primary_ohm[k - 1]! * (aRe * aRe + aIm * aIm) + mutual
    secondary_W += 2 * excess.secondary_ohm[k - 1]! * (cRe * cRe + cIm * cIm) + mutual
  }
  return { primary_W, secondary_W }
}

/**
 * The same heat with no share below zero: where a winding lies in the field of the other, its half of the mutual part
 * may outweigh its own, and only the sum is heat.
 */
export function asHeat({ primary_W, secondary_W }: ExcessLoss): ExcessLoss {
  const all_W = Math.max(0, primary_W + secondary_W)
  if (primary_W < 0) return { primary_W: 0, secondary_W: all_W }
  if (secondary_W < 0) return { primary_W: all_W, secondary_W: 0 }
  return { primary_W, secondary_W }
}
