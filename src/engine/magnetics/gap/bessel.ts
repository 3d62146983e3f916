/**
 * Modified Bessel functions of orders 0 and 1 for x > 0, scaled so that none overflows: I·exp(-x), K·exp(x).
 * Polynomials 9.8.1 to 9.8.8 of Abramowitz and Stegun, Handbook of Mathematical Functions (1964); relative error
 * below 2e-6 (most of the range 2e-7).
 */
const poly = (x: number, ...c: readonly number[]): number => {
  let sum = 0
  for (let i = c.length - 1; i >= 0; i--) sum = sum * x + (c[i] ?? 0)
  return sum
}

const I0small = (t: number) => poly(t, 1, 3.5156229, 3.0899424, 1.2067492, 0.2659732, 0.0360768, 0.0045813)
const I1small = (t: number) =>
  poly(t, 0.5, 0.87890594, 0.51498869, 0.15084934, 0.02658733, 0.00301532, 0.00032411)

export function scaledI0(x: number): number {
  if (x < 3.75) return Math.exp(-x) * I0small((x / 3.75) ** 2)
  const c = [
    0.39894228, 0.01328592, 0.00225319, -0.00157565, 0.00916281, -0.02057706, 0.02635537, -0.01647633,
    0.00392377,
  ]
  return poly(3.75 / x, ...c) / Math.sqrt(x)
}

export function scaledI1(x: number): number {
  if (x < 3.75) return Math.exp(-x) * x * I1small((x / 3.75) ** 2)
  const c = [
    0.39894228, -0.03988024, -0.00362018, 0.00163801, -0.01031555, 0.02282967, -0.02895312, 0.01787654,
    -0.00420059,
  ]
  return poly(3.75 / x, ...c) / Math.sqrt(x)
}

export function scaledK0(x: number): number {
  if (x <= 2) {
    const t = (x * x) / 4
    const rest = poly(t, -0.57721566, 0.4227842, 0.23069756, 0.0348859, 0.00262698, 0.0001075, 0.0000074)
    return Math.exp(x) * (rest - Math.log(x / 2) * I0small((x / 3.75) ** 2))
  }
  const c = [1.25331414, -0.07832358, 0.02189568, -0.01062446, 0.00587872, -0.0025154, 0.00053208]
  return poly(2 / x, ...c) / Math.sqrt(x)
}

export function scaledK1(x: number): number {
  if (x <= 2) {
    const t = (x * x) / 4
    const rest = poly(t, 1, 0.15443144, -0.67278579, -0.18156897, -0.01919402, -0.00110404, -0.00004686)
    return (Math.exp(x) * (rest + x * x * Math.log(x / 2) * I1small((x / 3.75) ** 2))) / x
  }
  const c = [1.25331414, 0.23498619, -0.0365562, 0.01504268, -0.00780353, 0.00325614, -0.00068245]
  return poly(2 / x, ...c) / Math.sqrt(x)
}
