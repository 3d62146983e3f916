/** Complex square matrix and right-hand sides, row by row, real and imaginary parts apart. */
export interface ComplexSystem {
  readonly size: number
  readonly sides: number
  readonly real: Float64Array
  readonly imaginary: Float64Array
  readonly sideReal: Float64Array
  readonly sideImaginary: Float64Array
}

/**
 * Solve in place by elimination with partial pivoting; the sides become the solutions. False when the matrix is
 * singular to working accuracy.
 */
export const solveComplex = (system: ComplexSystem): boolean => {
  const { size, sides, real: re, imaginary: im, sideReal: br, sideImaginary: bi } = system
  const swap = (array: Float64Array, a: number, b: number, width: number): void => {
    for (let c = 0; c < width; c++) {
      const kept = array[a * width + c]!
      array[a * width + c] = array[b * width + c]!
      array[b * width + c] = kept
    }
  }
  let largest = 0
  for (let i = 0; i < re.length; i++) largest = Math.max(largest, Math.abs(re[i]!), Math.abs(im[i]!))
  for (let p = 0; p < size; p++) {
    let pivot = p
    let best = 0
    for (let r = p; r < size; r++) {
      const value = re[r * size + p]! ** 2 + im[r * size + p]! ** 2
      if (value > best) {
        best = value
        pivot = r
      }
    }
    if (!(best > (largest * 1e-14) ** 2)) return false
    if (pivot !== p) {
      swap(re, p, pivot, size)
      swap(im, p, pivot, size)
      swap(br, p, pivot, sides)
      swap(bi, p, pivot, sides)
    }
    const [pr, pi] = [re[p * size + p]! / best, -im[p * size + p]! / best]
    for (let r = p + 1; r < size; r++) {
      const ar = re[r * size + p]!
      const ai = im[r * size + p]!
      if (ar === 0 && ai === 0) continue
      const fr = ar * pr - ai * pi
      const fi = ar * pi + ai * pr
      for (let c = p + 1, to = r * size + p + 1, from = p * size + p + 1; c < size; c++, to++, from++) {
        re[to]! -= fr * re[from]! - fi * im[from]!
        im[to]! -= fr * im[from]! + fi * re[from]!
      }
      for (let c = 0; c < sides; c++) {
        br[r * sides + c]! -= fr * br[p * sides + c]! - fi * bi[p * sides + c]!
        bi[r * sides + c]! -= fr * bi[p * sides + c]! + fi * br[p * sides + c]!
      }
    }
  }
  for (let r = size - 1; r >= 0; r--) {
    const [dr, di] = [re[r * size + r]!, im[r * size + r]!]
    const square = dr * dr + di * di
    for (let s = 0; s < sides; s++) {
      let sr = br[r * sides + s]!
      let si = bi[r * sides + s]!
      for (let c = r + 1; c < size; c++) {
        const ar = re[r * size + c]!
        const ai = im[r * size + c]!
        const xr = br[c * sides + s]!
        const xi = bi[c * sides + s]!
        sr -= ar * xr - ai * xi
        si -= ar * xi + ai * xr
      }
      br[r * sides + s] = (sr * dr + si * di) / square
      bi[r * sides + s] = (si * dr - sr * di) / square
    }
  }
  return true
}
