/** Peak phasors of a periodic current: index n − 1 for harmonic n, and its average. */
export interface Harmonics {
  readonly average: number
  readonly real: Float64Array
  readonly imaginary: Float64Array
}

/**
 * Exact Fourier series of a periodic waveform made of straight lines. Points are (time, value) in rising time within
 * one period; two points at one time make a step; the last point joins the first across the end of the period. Each
 * line contributes by integration by parts: c_n = (2/T) Σ ∫ (v + s (t − t0)) e^{−jωn t} dt, in closed form. Phasors
 * follow i(t) = average + Σ Re(c_n e^{jnωt}). Source: any text on Fourier series.
 */
export const piecewiseLinearHarmonics = (
  times_s: ArrayLike<number>,
  values: ArrayLike<number>,
  period_s: number,
  count: number,
): Harmonics => {
  const real = new Float64Array(count)
  const imaginary = new Float64Array(count)
  let average = 0
  const points = times_s.length
  for (let p = 0; p < points; p++) {
    const last = p === points - 1
    const t0 = times_s[p]!
    const t1 = last ? times_s[0]! + period_s : times_s[p + 1]!
    const v0 = values[p]!
    const v1 = last ? values[0]! : values[p + 1]!
    const step_s = t1 - t0
    if (step_s <= 0) continue
    average += ((v0 + v1) / 2) * (step_s / period_s)
    const slope = (v1 - v0) / step_s
    for (let n = 1; n <= count; n++) {
      const w = (2 * Math.PI * n) / period_s
      const [c0, s0, c1, s1] = [Math.cos(w * t0), Math.sin(w * t0), Math.cos(w * t1), Math.sin(w * t1)]
      // ∫ v e^{−jwt} dt = [j v e^{−jwt}/w + slope e^{−jwt}/w²]
      real[n - 1]! += ((v1 * s1 - v0 * s0) / w + (slope * (c1 - c0)) / (w * w)) * (2 / period_s)
      imaginary[n - 1]! += ((v1 * c1 - v0 * c0) / w - (slope * (s1 - s0)) / (w * w)) * (2 / period_s)
    }
  }
  return { average, real, imaginary }
}
