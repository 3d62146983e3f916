/**
 * One charging pulse. The load current is taken as P/v linearised about `about_V`, so that the equation stays linear:
 * v = wave cos x + quad sin x - level + K exp((a - x)/q).
 */
export interface Pulse {
  readonly crest: number
  readonly drop: number
  readonly R: number
  readonly P: number
  readonly q0: number
  q: number
  wave: number
  quad: number
  level: number
  a: number
  b: number
  start_V: number
  end_V: number
  K: number
}

/** A pulse of a circuit, not yet solved. */
export const newPulse = (crest: number, drop: number, R: number, P: number, q0: number): Pulse => ({
  crest,
  drop,
  R,
  P,
  q0,
  q: 0,
  wave: 0,
  quad: 0,
  level: 0,
  a: 0,
  b: 0,
  start_V: 0,
  end_V: 0,
  K: 0,
})

/** Sets the coefficients that depend on the voltage about which the load is linearised. */
function linearise(p: Pulse, about_V: number): boolean {
  const gain = 1 - (p.R * p.P) / (about_V * about_V)
  if (gain <= 0) return false
  p.q = p.q0 / gain
  p.wave = p.crest / gain / (1 + p.q * p.q)
  p.quad = p.wave * p.q
  p.level = (p.drop + (2 * p.R * p.P) / about_V) / gain
  return true
}

const voltageAt = (p: Pulse, x: number): number =>
  p.wave * Math.cos(x) + p.quad * Math.sin(x) - p.level + p.K * Math.exp((p.a - x) / p.q)

const currentAt = (p: Pulse, x: number): number => (p.crest * Math.cos(x) - p.drop - voltageAt(p, x)) / p.R

/**
 * Completes the pulse that starts at angle `a`: Newton's method for its end `b`, where the current is zero again.
 * False when it does not start or does not end within half a period.
 */
function complete(p: Pulse, a: number): boolean {
  p.a = a
  p.start_V = p.crest * Math.cos(a) - p.drop
  if (p.start_V <= 0) return false
  p.K = p.start_V - p.wave * Math.cos(a) - p.quad * Math.sin(a) + p.level
  const cosine = p.crest - p.wave
  const constant = p.level - p.drop
  let b = p.b > 0 ? p.b : -a
  for (let k = 0; k < 40; k++) {
    const cos = Math.cos(b)
    const sin = Math.sin(b)
    const decay = p.K * Math.exp((a - b) / p.q)
    const gap = cosine * cos - p.quad * sin + constant - decay
    const slope = -cosine * sin - p.quad * cos + decay / p.q
    let next = slope < 0 ? b - gap / slope : b + 0.2
    if (next < a + 0.3 * (b - a)) next = a + 0.3 * (b - a)
    if (next > a + Math.PI) {
      if (b >= a + Math.PI) return false
      next = a + Math.PI
    }
    const moved = Math.abs(next - b)
    b = next
    if (moved < 1e-7) {
      p.b = b
      p.end_V = p.crest * Math.cos(b) - p.drop
      return p.end_V > 0 && b - a > 1e-9
    }
  }
  return false
}

/** Mismatch over the square of the crest at which a cycle counts as repeating. */
const repeatsWithin = 1e-7

/** Mismatch of v^2 after one half period, V^2; negative when the pulse must start earlier. */
function mismatch(p: Pulse, a: number, fall: number): number {
  if (!complete(p, a)) return Number.NaN
  return p.end_V * p.end_V - fall * (Math.PI + a - p.b) - p.start_V * p.start_V
}

/**
 * Finds the start angle for which the cycle repeats, on the branch of highest voltage: steps down from the crest
 * until the sign changes, then false position (Illinois form). Twice: the second time with the load linearised about
 * the voltage found. A neighbouring pulse, where there is one, is tried first.
 */
export function repeat(p: Pulse, fall: number, near: Near | null): boolean {
  if (near !== null && refined(p, fall, near)) return true
  p.b = 0
  const top = p.crest - p.drop
  let about_V = Math.sqrt(Math.max(0.25 * top * top, top * top - 0.4 * fall * Math.PI))
  let guess = -Math.acos(Math.sqrt(Math.max(0.3 * top * top, top * top - 0.85 * fall * Math.PI)) / p.crest)
  let step = 0.05
  for (let pass = 0; pass < 3; pass++) {
    if (!linearise(p, about_V) || !search(p, guess, step, fall)) return false
    const mean = 0.5 * (p.start_V + p.end_V)
    if (Math.abs(mean - about_V) < 2e-3 * mean) return true
    about_V = mean
    guess = p.a
    step = 0.005
  }
  return true
}

/** Angles of a neighbouring pulse from the same source. */
export interface Near {
  readonly conductionStart_rad: number
  readonly conductionEnd_rad: number
}

/** The same from a neighbouring pulse, by the secant method; false where it leads nowhere. */
function refined(p: Pulse, fall: number, near: Near): boolean {
  let a = near.conductionStart_rad
  p.b = near.conductionEnd_rad
  let about_V = p.crest * 0.5 * (Math.cos(a) + Math.cos(p.b)) - p.drop
  const enough = repeatsWithin * p.crest * p.crest
  for (let pass = 0; pass < 3; pass++) {
    if (!(about_V > 0 && linearise(p, about_V))) return false
    let value = mismatch(p, a, fall)
    // d/da of -v² at the start and of the fall, the end held
    let slope = 2 * p.start_V * p.crest * Math.sin(a) - fall
    let steps = 0
    while (!(Math.abs(value) < enough)) {
      const next = a - value / slope
      if (!(next > -Math.PI / 2 && next < -1e-4) || ++steps > 7) return false
      const nextValue = mismatch(p, next, fall)
      slope = (nextValue - value) / (next - a)
      // it rises on the branch of lower voltage
      if (!(slope < 0)) return false
      a = next
      value = nextValue
    }
    const mean = 0.5 * (p.start_V + p.end_V)
    if (Math.abs(mean - about_V) < 2e-3 * mean) return true
    about_V = mean
  }
  return true
}

function search(p: Pulse, guess: number, step: number, fall: number): boolean {
  let high = Math.min(guess, -1e-4)
  let highValue = mismatch(p, high, fall)
  for (let k = 0; !(highValue <= 0); k++) {
    if (k === 30) return false
    high = Math.min(high + step * (1 + k), 0.6 * high)
    p.b = 0
    highValue = mismatch(p, high, fall)
  }
  let low = high
  let lowValue = highValue
  let stride = step
  for (let k = 0; !(lowValue >= 0); k++) {
    const next = low - stride
    const nextValue = next > -Math.PI / 2 ? mismatch(p, next, fall) : Number.NaN
    if (Number.isNaN(nextValue)) {
      stride *= 0.5
      p.b = 0
      if (stride < 1e-4 || k > 80) return false
      continue
    }
    if (k > 0) {
      high = low
      highValue = lowValue
    }
    low = next
    lowValue = nextValue
    stride *= 1.5
  }
  const enough = repeatsWithin * p.crest * p.crest
  let side = 0
  for (let k = 0; k < 60; k++) {
    const a = (low * highValue - high * lowValue) / (highValue - lowValue)
    const value = mismatch(p, a, fall)
    if (Number.isNaN(value)) return false
    if (Math.abs(value) < enough) return true
    if (value >= 0) {
      low = a
      lowValue = value
      if (side === 1) highValue *= 0.5
      side = 1
    } else {
      high = a
      highValue = value
      if (side === -1) lowValue *= 0.5
      side = -1
    }
  }
  return false
}

/** The voltage goes on falling until the charging current has reached the load current. */
export const lowest = (p: Pulse): number => Math.min(p.start_V, turning(p, p.a))

export const highest = (p: Pulse): number => Math.max(p.start_V, p.end_V, turning(p, p.b))

/** Voltage where dv/dx = 0, by Newton's method from one end of the pulse. */
function turning(p: Pulse, from: number): number {
  let x = from
  for (let k = 0; k < 12; k++) {
    const cos = Math.cos(x)
    const sin = Math.sin(x)
    const decay = (p.K * Math.exp((p.a - x) / p.q)) / p.q
    const slope = p.quad * cos - p.wave * sin - decay
    const curve = -p.quad * sin - p.wave * cos + decay / p.q
    const next = Math.min(p.b, Math.max(p.a, x - slope / curve))
    const moved = Math.abs(next - x)
    x = next
    if (moved < 1e-4) break
  }
  return voltageAt(p, x)
}

/** Greatest current of the pulse: Newton's method on di/dx = 0 from a nearby angle, held inside the pulse. */
export function crestCurrent(p: Pulse, from: number): number {
  let x = from
  for (let k = 0; k < 8; k++) {
    const cos = Math.cos(x)
    const sin = Math.sin(x)
    const decay = (p.K * Math.exp((p.a - x) / p.q)) / p.q
    const slope = p.wave * sin - p.crest * sin - p.quad * cos + decay
    const curve = (p.wave - p.crest) * cos + p.quad * sin - decay / p.q
    if (curve >= 0) break
    const next = Math.min(p.b, Math.max(p.a, x - slope / curve))
    const moved = Math.abs(next - x)
    x = next
    if (moved < 1e-5) break
  }
  return currentAt(p, x)
}
