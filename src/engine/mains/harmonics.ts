import { requireBetween } from '../quantity/require.ts'

/** Class A limits of IEC 61000-3-2 for odd harmonics 3 to 13, A rms; 2.25/n from 15 on (from memory). */
const classA_A = new Map([
  [3, 2.3],
  [5, 1.14],
  [7, 0.77],
  [9, 0.4],
  [11, 0.33],
  [13, 0.21],
])

/** Class D limits per watt for odd harmonics 3 to 11, mA/W; 3.85/n from 13 to 39 (IEC 61000-3-2 table 3, from memory). */
const classD_mA_per_W = new Map([
  [3, 3.4],
  [5, 1.9],
  [7, 1.0],
  [9, 0.5],
  [11, 0.35],
])

/** Limit of one odd harmonic, A rms: class D, never above class A. */
export function classDLimit(harmonic: number, input_W: number): number {
  requireBetween('harmonic', harmonic, 3, 39)
  requireBetween('input_W', input_W, 0, 1e4, 'W')
  const a = classA_A.get(harmonic) ?? 2.25 / harmonic
  return Math.min(a, ((classD_mA_per_W.get(harmonic) ?? 3.85 / harmonic) * input_W) / 1000)
}

export const classALimit = (harmonic: number): number => classA_A.get(harmonic) ?? 2.25 / harmonic

export interface HarmonicAnswer {
  /** Below 75 W no limits apply to equipment of class A or D other than lighting. */
  readonly limitsApply: boolean
  readonly harmonics: readonly {
    readonly order: number
    readonly current_Arms: number
    readonly classA_Arms: number
    readonly classD_Arms: number
  }[]
  /** Greatest ratio of a harmonic to its limit, and its order. */
  readonly worstClassA: { readonly order: number; readonly use: number }
  readonly worstClassD: { readonly order: number; readonly use: number }
}

/**
 * Harmonic content of the charging pulse against IEC 61000-3-2. The pulse is a half-cosine of the solved peak and
 * conduction angle: i(x) = Ip cos(pi x/w) for |x| < w/2, twice a period with alternating sign; its odd harmonics are
 * see `pulseHarmonic`. An estimate: a real pulse leans to the left,
 * which changes phases and the high orders, little the low ones. Class D is for television sets, computers and
 * monitors between 75 and 600 W; other equipment is class A.
 */
export function answerHarmonics(input_Apeak: number, width_rad: number, input_W: number): HarmonicAnswer {
  requireBetween('input_Apeak', input_Apeak, 0, 1e4, 'A')
  requireBetween('width_rad', width_rad, 1e-6, Math.PI, 'rad')
  const harmonics = []
  let worstA = { order: 3, use: 0 }
  let worstD = { order: 3, use: 0 }
  for (let order = 3; order <= 39; order += 2) {
    const current_Arms = pulseHarmonic(input_Apeak, width_rad, order)
    const classA_Arms = classALimit(order)
    const classD_Arms = classDLimit(order, input_W)
    if (current_Arms / classA_Arms > worstA.use) worstA = { order, use: current_Arms / classA_Arms }
    if (current_Arms / classD_Arms > worstD.use) worstD = { order, use: current_Arms / classD_Arms }
    harmonics.push({ order, current_Arms, classA_Arms, classD_Arms })
  }
  return { limitsApply: input_W > 75, harmonics, worstClassA: worstA, worstClassD: worstD }
}

/**
 * Rms of the odd harmonic n of alternating half-cosine pulses, peak Ip, width w:
 * I_n = (4 Ip/(pi sqrt 2)) (pi/w) cos(n w/2) / ((pi/w)^2 - n^2), and Ip w/(pi sqrt 2) where n w = pi.
 */
export function pulseHarmonic(peak_A: number, width_rad: number, order: number): number {
  const k = Math.PI / width_rad
  const difference = k * k - order * order
  if (Math.abs(difference) < 1e-9 * k * k) return (peak_A * width_rad) / (Math.PI * Math.SQRT2)
  return Math.abs(
    ((4 * peak_A) / (Math.PI * Math.SQRT2)) * ((k * Math.cos((order * width_rad) / 2)) / difference),
  )
}
