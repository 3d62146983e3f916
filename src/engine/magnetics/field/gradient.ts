import { vacuumPermeability_H_per_m } from '../wire/index.ts'
import type { WirePoints } from './conductors.ts'
import type { RowPairs } from './row-pairs.ts'
import type { WindowModel } from './types.ts'

/**
 * Gradient of the static field at every wire for one ampere in each winding (T/m): pairs (∂Bz/∂r, ∂Br/∂r), index
 * (winding · count + point) · 2, of all other wires, their images in the walls, and the gaps as line currents on the
 * walls. In the plane of the section b = Bz + i Br of a line current I at ζ′ is −μ0 I/2π (ζ − ζ′), its gradient
 * μ0 I/2π (ζ − ζ′)²; images in the plates sum to (π/2h)²/sinh². Far blocks and foils have none worth counting.
 */
export const gradientAtPoints = (model: WindowModel, points: WirePoints, pairs: RowPairs): Float64Array => {
  const { slot, rows, turns, gaps } = model
  const { count, row, r_m, cosine, sine } = points
  const windings = turns.length
  const result = new Float64Array(windings * count * 2)
  const half = Math.PI / slot.height_m
  const unit = ((half * half) / 2) * (vacuumPermeability_H_per_m / (2 * Math.PI))
  let real = 0
  let imaginary = 0
  /** Add the kernel of a source at this cosh and sinh of distance, and cosine and sine of angle. */
  const add = (cosh: number, sinh: number, c: number, s: number): void => {
    const a = cosh * c - 1
    const b = sinh * s
    const scale = unit / (a * a + b * b)
    real += a * scale
    imaginary -= b * scale
  }
  for (let i = 0; i < count; i++) {
    const ci = cosine[i]!
    const si = sine[i]!
    for (let j = 0; j < count; j++) {
      real = 0
      imaginary = 0
      const cc = ci * cosine[j]!
      const ss = si * sine[j]!
      const sc = si * cosine[j]!
      const cs = ci * sine[j]!
      const at = (row[i]! * pairs.rows + row[j]!) * 3
      for (let way = 0; way < 3; way++) {
        const cosh = pairs.cosh[at + way]!
        const sinh = pairs.sinh[at + way]!
        if (way > 0 || i !== j) add(cosh, sinh, cc + ss, sc - cs)
        add(cosh, sinh, cc - ss, sc + cs)
      }
      const { winding, current } = rows[row[j]!]!
      const to = (winding * count + i) * 2
      result[to]! += current * real
      result[to + 1]! += current * imaginary
    }
    for (const gap of gaps) {
      real = 0
      imaginary = 0
      const angle = Math.PI * (gap.z_m / slot.height_m + 0.5)
      const [c, s] = [Math.cos(angle), Math.sin(angle)]
      const wall = gap.wall === 'post' ? slot.inner_m : slot.outer_m
      const x = half * (r_m[i]! - wall)
      for (const sign of [1, -1])
        add(Math.cosh(x), Math.sinh(x), ci * c + sign * si * s, si * c - sign * ci * s)
      for (let w = 0; w < windings; w++) {
        // A line on a wall and its image are one line of twice the current.
        result[(w * count + i) * 2]! -= 2 * gap.share * turns[w]! * real
        result[(w * count + i) * 2 + 1]! -= 2 * gap.share * turns[w]! * imaginary
      }
    }
  }
  return result
}
