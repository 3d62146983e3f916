import { scaledI0, scaledI1, scaledK0, scaledK1 } from './bessel.ts'

/**
 * How far the fringing field of a gap reaches: the part of the gap's permeance that the window sets and the gap's
 * width does not. Permeances are in metres (divide by mu0); H is the height of the window along the post, W its width,
 * the gap half way up, current spread evenly over the window, core much more permeable than air.
 *
 * Near an edge of the gap the field is that of two facing right-angled blocks (Schwarz-Christoffel), whose flux grows
 * as (1 + ln(pi s / 2g)) / pi with the distance s. Far from it the gap is a line, and the field in the window follows
 * from the modes cos(2 pi m y / H). Joined, a length P of edge carries P ((1 + ln(pi/2g)) / pi + reach).
 */

const modes = 40

/** Planar window closed by an outer leg: reach and excess of flux at the root of the post, per metre of edge. */
export function closedSide(height_m: number, width_m: number): { reach: number; root: number } {
  let even = 0
  let alternating = 0
  for (let m = 1; m <= modes; m++) {
    const term = 2 / (m * Math.expm1((4 * Math.PI * m * width_m) / height_m))
    even += term
    alternating += m % 2 === 0 ? term : -term
    if (term < 1e-9) break
  }
  const across = width_m / (3 * height_m)
  return {
    reach: (Math.log(height_m / (2 * Math.PI)) + even) / Math.PI + across,
    root: (Math.LN2 - alternating) / Math.PI - across,
  }
}

/** Mean of ln(distance) from the corner of a rectangle to its points. */
const meanLogDistance = (a: number, b: number) =>
  (Math.log(a * a + b * b) - 3 + (a / b) * Math.atan2(b, a) + (b / a) * Math.atan2(a, b)) / 2

/**
 * Side of the post where the winding faces open air: the coil is a rectangle on an infinite wall, its mean logarithmic
 * distance to itself and its image 0.2235 (2W + H) (F. W. Grover, Inductance Calculations, 1946).
 */
export function openSide(height_m: number, width_m: number): { reach: number; root: number } {
  const self = Math.log(0.2235 * (2 * width_m + height_m))
  return {
    reach: (2 * meanLogDistance(width_m, height_m / 2) - self) / Math.PI,
    root: (Math.log(height_m / 2) - meanLogDistance(width_m, height_m)) / Math.PI,
  }
}

/** Radial over axial field of mode k at the post, with the outer leg at radius `outer_m` or none, less the planar one. */
function curvature(k: number, radius_m: number, width_m: number, closed: boolean): number {
  const x = k * radius_m
  if (!closed) return scaledK1(x) / scaledK0(x) - 1
  const y = k * (radius_m + width_m)
  const fall = Math.exp(-2 * k * width_m)
  const I = scaledI0(y)
  const K = scaledK0(y)
  const round = (scaledI1(x) * K * fall + scaledK1(x) * I) / (scaledK0(x) * I - scaledI0(x) * K * fall)
  return round - 1 / Math.tanh(k * width_m)
}

/** What the roundness of a post adds to reach and root excess, per metre of edge. */
export function roundness(
  height_m: number,
  width_m: number,
  radius_m: number,
  closed: boolean,
): { reach: number; root: number } {
  let even = 0
  let alternating = 0
  for (let m = 1; m <= modes; m++) {
    const term = curvature((2 * Math.PI * m) / height_m, radius_m, width_m, closed) / m
    even += term
    alternating += m % 2 === 0 ? term : -term
  }
  const tail = height_m / (4 * Math.PI * radius_m * (modes + 0.5))
  const across = width_m ** 2 / (12 * radius_m * height_m)
  return { reach: (even + tail) / Math.PI + across, root: -alternating / Math.PI - across }
}

/**
 * What the four corners of a rectangular post add, in metres of permeance. An outside right angle holds
 * (4/pi) integral of 1/(cosh y cosh 3y) = 0.602 of excess flux in each mode beyond that of its sides (the corner term
 * of the heat content of a polygon: van den Berg and Srisatkunarajah, Probab. Theory Relat. Fields 86, 1990); summed
 * over the modes this is H/12 a corner. The turns that go round a corner lie on a square ring.
 */
export function corners(height_m: number, width_m: number): { reach: number; root: number } {
  const across = (8 * width_m ** 2) / (12 * height_m)
  const angle = 4 * 0.602 * height_m
  return { reach: angle / 12 + across, root: angle / 24 - across }
}

/** Coupling through the window between a gap in the post and one in the leg, per metre of edge. */
export function acrossWindow(height_m: number, width_m: number): number {
  let sum = 0
  for (let m = 1; m <= modes; m++) {
    const term = 1 / (m * Math.sinh((2 * Math.PI * m * width_m) / height_m))
    sum += term
    if (term < 1e-9) break
  }
  return sum / Math.PI - width_m / (6 * height_m)
}
