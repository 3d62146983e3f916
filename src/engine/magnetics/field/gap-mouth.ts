/**
 * Field along the mouth of a gap: between two right-angled corners of high permeability it rises towards the corners
 * as the inverse third power of the distance, so the weight over the mouth is (1 − s²)^(−1/3), s from −1 to 1.
 * This is the mean of cos(y s) under that weight, by a midpoint rule in s = sin θ. Source: conformal map of a
 * right-angled corner, any text on field theory.
 */
const points = 24
const angles = Float64Array.from({ length: points }, (_, i) => ((i + 0.5) * Math.PI) / (2 * points))
const sines = angles.map((angle) => Math.sin(angle))
const weights = angles.map((angle) => Math.cos(angle) ** (1 / 3))
const total = weights.reduce((sum, weight) => sum + weight, 0)

export const mouthSpectrum = (y: number): number => {
  let sum = 0
  for (let i = 0; i < points; i++) sum += weights[i]! * Math.cos(y * sines[i]!)
  return sum / total
}
