/** Slopes of the seven stages and the trial state; the first slope must hold the derivative at the step's start. */
export interface Stages {
  readonly k1: Float64Array
  readonly k2: Float64Array
  readonly k3: Float64Array
  readonly k4: Float64Array
  readonly k5: Float64Array
  readonly k6: Float64Array
  readonly k7: Float64Array
  readonly trial: Float64Array
}

export const newStages = (size: number): Stages => ({
  k1: new Float64Array(size),
  k2: new Float64Array(size),
  k3: new Float64Array(size),
  k4: new Float64Array(size),
  k5: new Float64Array(size),
  k6: new Float64Array(size),
  k7: new Float64Array(size),
  trial: new Float64Array(size),
})

/**
 * One Runge-Kutta step of order 5 with an error estimate of order 4: `next` gets the state after `h`, `k7` its slope;
 * returns the greatest error over its tolerance. Allocates nothing. Source: Dormand and Prince, J. Comp. Appl. Math. 6
 * (1980) 19 (coefficients from memory, order checked by a test).
 */
export function dormandPrince(
  derivative: (t: number, y: Float64Array, out: Float64Array) => void,
  t: number,
  h: number,
  y: Float64Array,
  next: Float64Array,
  stages: Stages,
  tolerance: readonly number[],
): number {
  const { k1, k2, k3, k4, k5, k6, k7, trial } = stages
  const size = y.length
  for (let n = 0; n < size; n++) trial[n] = y[n]! + h * 0.2 * k1[n]!
  derivative(t + h * 0.2, trial, k2)
  for (let n = 0; n < size; n++) trial[n] = y[n]! + h * ((3 / 40) * k1[n]! + (9 / 40) * k2[n]!)
  derivative(t + h * 0.3, trial, k3)
  for (let n = 0; n < size; n++)
    trial[n] = y[n]! + h * ((44 / 45) * k1[n]! - (56 / 15) * k2[n]! + (32 / 9) * k3[n]!)
  derivative(t + h * 0.8, trial, k4)
  for (let n = 0; n < size; n++)
    trial[n] =
      y[n]! +
      h * ((19372 / 6561) * k1[n]! - (25360 / 2187) * k2[n]! + (64448 / 6561) * k3[n]! - (212 / 729) * k4[n]!)
  derivative(t + (h * 8) / 9, trial, k5)
  for (let n = 0; n < size; n++)
    trial[n] =
      y[n]! +
      h *
        ((9017 / 3168) * k1[n]! -
          (355 / 33) * k2[n]! +
          (46732 / 5247) * k3[n]! +
          (49 / 176) * k4[n]! -
          (5103 / 18656) * k5[n]!)
  derivative(t + h, trial, k6)
  for (let n = 0; n < size; n++)
    next[n] =
      y[n]! +
      h *
        ((35 / 384) * k1[n]! +
          (500 / 1113) * k3[n]! +
          (125 / 192) * k4[n]! -
          (2187 / 6784) * k5[n]! +
          (11 / 84) * k6[n]!)
  derivative(t + h, next, k7)
  let worst = 0
  for (let n = 0; n < size; n++) {
    const error =
      h *
      ((71 / 57600) * k1[n]! -
        (71 / 16695) * k3[n]! +
        (71 / 1920) * k4[n]! -
        (17253 / 339200) * k5[n]! +
        (22 / 525) * k6[n]! -
        (1 / 40) * k7[n]!)
    worst = Math.max(worst, Math.abs(error) / tolerance[n]!)
  }
  return worst
}
