import { fail, millimetres, type Result, succeed } from '../core/result.ts'

export interface FilmAtHand {
  readonly id: string
  readonly thickness_m: number
  /** Layers that can be cut from what is there; null for enough. */
  readonly layers: number | null
}

export interface FilmStack {
  readonly layers: readonly { readonly id: string; readonly count: number }[]
  readonly thickness_m: number
  /** Thickness over what was wanted, less one. */
  readonly error: number
}

/**
 * Stack of films nearest to a wanted spacer thickness, with no more than `mostLayers` layers (each layer adds its own
 * roughness and give); of stacks equally near, the one with fewest layers.
 * Errors: wanted thickness not positive, no film at hand.
 */
export function nearestFilmStack(
  films: readonly FilmAtHand[],
  wanted_m: number,
  mostLayers = 4,
): Result<FilmStack> {
  if (!(wanted_m > 0))
    return fail('wanted_m', `the spacer wanted is ${millimetres(wanted_m)}, but it must be above 0`)
  const usable = films.filter((film) => film.thickness_m > 0 && (film.layers === null || film.layers >= 1))
  if (usable.length === 0) return fail('films', 'no spacer film is at hand')
  let best: readonly number[] = []
  let bestMiss = Number.POSITIVE_INFINITY
  const counts = usable.map(() => 0)
  const visit = (index: number, left: number, thickness_m: number) => {
    const miss = Math.abs(thickness_m - wanted_m)
    const fewer = sum(counts) < sum(best)
    if (thickness_m > 0 && (miss < bestMiss - 1e-9 || (miss < bestMiss + 1e-9 && fewer))) {
      best = [...counts]
      bestMiss = miss
    }
    const film = usable[index]
    if (film === undefined) return
    const most = Math.min(left, film.layers ?? left)
    for (let n = 0; n <= most; n++) {
      const next_m = thickness_m + n * film.thickness_m
      if (n > 1 && next_m > wanted_m + film.thickness_m) break
      counts[index] = n
      visit(index + 1, left - n, next_m)
    }
    counts[index] = 0
  }
  visit(0, mostLayers, 0)
  const thickness_m = best.reduce((t, n, i) => t + n * (usable[i]?.thickness_m ?? 0), 0)
  return succeed({
    layers: best.flatMap((count, i) => {
      const film = usable[i]
      return film && count > 0 ? [{ id: film.id, count }] : []
    }),
    thickness_m,
    error: thickness_m / wanted_m - 1,
  })
}

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0)
