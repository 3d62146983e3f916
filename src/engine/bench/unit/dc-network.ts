/** A resistor between two named nodes. */
export interface DcResistor {
  readonly kind: 'resistor'
  readonly a: string
  readonly b: string
  readonly ohm: number
}

/** A diode that conducts from anode to cathode above its drop, with a slope. */
export interface DcDiode {
  readonly kind: 'diode'
  readonly anode: string
  readonly cathode: string
  readonly drop_V: number
  readonly slope_ohm: number
}

export type DcElement = DcResistor | DcDiode

/** A meter: a voltage behind a resistance between its red and black lead. */
export interface Meter {
  readonly red: string
  readonly black: string
  readonly open_V: number
  readonly series_ohm: number
}

export interface MeterReading {
  readonly ok: true
  readonly across_V: number
  readonly current_A: number
}

export interface MeterFailure {
  readonly ok: false
  readonly message: string
}

/** Leak that keeps every node tied down, S. */
const leak_S = 1e-10

/**
 * What a meter reads across a network of resistors and diodes: nodal equations with the diodes piecewise linear, their
 * states changed one sweep at a time until none is against its own voltage. Fails when no consistent state is found.
 */
export function readMeter(elements: readonly DcElement[], meter: Meter): MeterReading | MeterFailure {
  const index = new Map<string, number>()
  const node = (name: string): number => {
    const known = index.get(name)
    if (known !== undefined) return known
    index.set(name, index.size)
    return index.size - 1
  }
  node(meter.red)
  node(meter.black)
  for (const e of elements) {
    node(e.kind === 'resistor' ? e.a : e.anode)
    node(e.kind === 'resistor' ? e.b : e.cathode)
  }
  const on = elements.map(() => false)
  for (let sweep = 0; sweep < 4 * elements.length + 10; sweep++) {
    const v = solve(elements, on, meter, index)
    let changed = -1
    let worst = 1e-9
    for (const [k, e] of elements.entries()) {
      if (e.kind !== 'diode') continue
      const forward_V = v[index.get(e.anode)!]! - v[index.get(e.cathode)!]! - e.drop_V
      const against = on[k] ? -forward_V : forward_V
      if (against > worst) {
        worst = against
        changed = k
      }
    }
    if (changed < 0) {
      const across_V = v[0]! - v[1]!
      return { ok: true, across_V, current_A: (meter.open_V - across_V) / meter.series_ohm }
    }
    on[changed] = !on[changed]
  }
  return { ok: false, message: `the diodes between ${meter.red} and ${meter.black} find no consistent state` }
}

function solve(
  elements: readonly DcElement[],
  on: readonly boolean[],
  meter: Meter,
  index: ReadonlyMap<string, number>,
): Float64Array {
  const n = index.size
  const a = new Float64Array(n * n)
  const right = new Float64Array(n)
  const tie = (from: number, to: number, siemens: number, source_V: number): void => {
    a[from * n + from]! += siemens
    a[to * n + to]! += siemens
    a[from * n + to]! -= siemens
    a[to * n + from]! -= siemens
    right[from]! += siemens * source_V
    right[to]! -= siemens * source_V
  }
  for (let k = 0; k < n; k++) a[k * n + k]! += leak_S
  tie(0, 1, 1 / meter.series_ohm, meter.open_V)
  for (const [k, e] of elements.entries()) {
    if (e.kind === 'resistor') tie(index.get(e.a)!, index.get(e.b)!, 1 / Math.max(1e-4, e.ohm), 0)
    else if (on[k]) tie(index.get(e.anode)!, index.get(e.cathode)!, 1 / e.slope_ohm, e.drop_V)
  }
  return eliminate(a, right, n)
}

/** Gaussian elimination; the matrix is symmetric and diagonally dominant, so no pivoting is needed. */
function eliminate(a: Float64Array, b: Float64Array, n: number): Float64Array {
  for (let p = 0; p < n; p++)
    for (let r = p + 1; r < n; r++) {
      const factor = a[r * n + p]! / a[p * n + p]!
      if (factor === 0) continue
      for (let c = p; c < n; c++) a[r * n + c]! -= factor * a[p * n + c]!
      b[r]! -= factor * b[p]!
    }
  for (let r = n - 1; r >= 0; r--) {
    let sum = b[r]!
    for (let c = r + 1; c < n; c++) sum -= a[r * n + c]! * b[c]!
    b[r] = sum / a[r * n + r]!
  }
  return b
}
