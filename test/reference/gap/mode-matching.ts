import { scaledI0, scaledI1, scaledK0, scaledK1 } from '../../../src/engine/magnetics/gap/bessel.ts'

const gammaRatio = (n: number, nu: number) => {
  let product = 1
  for (let i = 1; i <= n; i++) product *= i + nu
  return product
}

/** J_(n+nu)(x) (2/x)^nu Gamma(1+nu), nu = 1/6: series below 12, Hankel's expansion above. */
function edgeFunction(n: number, x: number): number {
  const nu = 1 / 6
  const order = n + nu
  if (x < 12) {
    const q = (x / 2) ** 2
    let term = (x / 2) ** n / gammaRatio(n, nu)
    let sum = 0
    for (let k = 1; Math.abs(term) > 1e-17 * Math.abs(sum) || k < 6; k++) {
      sum += term
      term *= -q / (k * (k + order))
    }
    return sum
  }
  const phase = x - (order / 2 + 1 / 4) * Math.PI
  const m = 4 * order ** 2
  let [P, Q, a] = [0, 0, 1]
  for (let k = 0; k < 12; k++) {
    const sign = Math.floor(k / 2) % 2 === 0 ? 1 : -1
    if (k % 2 === 0) P += sign * a
    else Q += sign * a
    a *= (m - (2 * k + 1) ** 2) / ((k + 1) * 8 * x)
  }
  const gamma = 0.9277193336300392
  return Math.sqrt(2 / (Math.PI * x)) * (P * Math.cos(phase) - Q * Math.sin(phase)) * (2 / x) ** nu * gamma
}

/**
 * Permeance over mu0 (m) of a cut in the middle of a round post with iron of infinite permeability all round and
 * current spread evenly over the window: the stationary value of the quadratic form of gap and window modes.
 */
export function exactRoundGap(radius_m: number, width_m: number, height_m: number, gap_m: number): number {
  const outer_m = radius_m + width_m
  const form = [0, 0, 0]
  const add = (k: number, weight: number) => {
    const x = (k * gap_m) / 2
    const f0 = edgeFunction(0, x)
    const f1 = edgeFunction(2, x)
    form[0] = (form[0] ?? 0) + weight * f0 * f0
    form[1] = (form[1] ?? 0) + weight * f0 * f1
    form[2] = (form[2] ?? 0) + weight * f1 * f1
  }
  const gapModes = 1500
  for (let n = 1; n <= gapModes; n++) {
    const k = (2 * Math.PI * n) / gap_m
    add(k, ((2 / gap_m) * scaledI1(k * radius_m)) / scaledI0(k * radius_m) / k)
  }
  const windowModes = Math.min(80000, Math.ceil((gapModes * height_m) / gap_m))
  for (let m = 1; m <= windowModes; m++) {
    const k = (2 * Math.PI * m) / height_m
    const [x, y] = [k * radius_m, k * outer_m]
    const fall = Math.exp(-2 * k * width_m)
    const up = scaledI1(x) * scaledK0(y) * fall + scaledK1(x) * scaledI0(y)
    const down = scaledK0(x) * scaledI0(y) - scaledI0(x) * scaledK0(y) * fall
    add(k, ((2 / height_m) * up) / down / k)
  }
  const [a, b, c] = form as [number, number, number]
  const across = ((2 * Math.PI) / height_m) * ((width_m * radius_m) / 3 + width_m ** 2 / 12)
  return 2 * Math.PI * radius_m * (radius_m / (2 * gap_m) + a - (b * b) / c) + across
}
