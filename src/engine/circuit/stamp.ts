import type { LinearForm } from './form.ts'
import type { Layout } from './layout.ts'

/** Widths of the columns of an equation row: unknowns, states, inputs. */
export interface Columns {
  readonly z: number
  readonly x: number
  readonly u: number
  readonly width: number
}

export const columnsOf = (layout: Layout): Columns => {
  const z = layout.unknowns
  const x = layout.caps.length + layout.inductors.length + layout.charges
  const u = layout.inputs.length
  return { z, x, u, width: z + x + u }
}

/** Value of the conductances which differ from one topology to the next. */
export interface Setting {
  /** State of every device. */
  readonly devices: ArrayLike<number>
  /** Conductance of every slow element, S. */
  readonly slow: ArrayLike<number>
  /** Replace every conductance by one near 1 S, to see structure alone. */
  readonly structural: boolean
}

/** Add `gain * form` to row `at` of `rows`, in columns [unknowns | states | inputs]. */
export function addForm(
  layout: Layout,
  setting: Setting,
  form: LinearForm,
  gain: number,
  rows: Float64Array,
  at: number,
): void {
  const { z, x } = columnsOf(layout)
  rows[at + z + x]! += gain * form.offset
  for (const term of form.terms) {
    if (term.of.kind === 'voltage')
      addVoltage(
        layout.nodeNumber.get(term.of.from)!,
        layout.nodeNumber.get(term.of.to)!,
        gain * term.gain,
        rows,
        at,
      )
    else addCurrent(layout, setting, term.of.element, term.of.winding, gain * term.gain, rows, at)
  }
}

function addVoltage(a: number, b: number, gain: number, rows: Float64Array, at: number): void {
  if (a >= 0) rows[at + a]! += gain
  if (b >= 0) rows[at + b]! -= gain
}

function addCurrent(
  layout: Layout,
  setting: Setting,
  element: string,
  winding: number,
  gain: number,
  rows: Float64Array,
  at: number,
): void {
  const { z, x } = columnsOf(layout)
  const of = layout.currents.get(element)![winding]!
  switch (of.kind) {
    case 'conductance':
      addVoltage(of.a, of.b, gain * (setting.structural ? 1 : of.siemens), rows, at)
      break
    case 'unknown':
      rows[at + of.z]! += gain
      break
    case 'state':
      rows[at + z + of.x]! += gain
      break
    case 'input':
      rows[at + z + x + of.u]! += gain
      break
    case 'device': {
      const device = layout.devices[of.device]!
      if (device.kind !== 'conductor' && device.kind !== 'switch') break
      const state = setting.devices[of.device]!
      addVoltage(device.a, device.b, gain * (setting.structural ? 1 : device.slope[state]!), rows, at)
      if (device.kind === 'conductor') rows[at + z + x]! += gain * device.shift[state]!
      break
    }
    case 'slow': {
      const slow = layout.slows[of.slow]!
      addVoltage(slow.a, slow.b, gain * (setting.structural ? 1 : setting.slow[of.slow]!), rows, at)
      rows[at + z + x + slow.u]! += gain
      break
    }
    case 'controlled':
      addControlled(layout, setting, of.controlled, gain, rows, at)
      break
  }
}

function addControlled(
  layout: Layout,
  setting: Setting,
  number: number,
  gain: number,
  rows: Float64Array,
  at: number,
): void {
  const source = layout.controlled[number]!
  addForm(layout, setting, source.value, gain, rows, at)
  for (const bend of source.bends)
    if (setting.devices[bend.device] === 1) addForm(layout, setting, bend.of, gain * bend.gain, rows, at)
}

/**
 * Equations of the resistive network seen by states and inputs: Kirchhoff's current law at every node, then
 * one law for every branch with a current of its own. Each row sums to zero over [unknowns | states | inputs].
 */
export function stampEquations(layout: Layout, setting: Setting): Float64Array {
  const columns = columnsOf(layout)
  const w = columns.width
  const rows = new Float64Array(columns.z * w)
  const leaves = (a: number, b: number, add: (gain: number, at: number) => void) => {
    if (a >= 0) add(1, a * w)
    if (b >= 0) add(-1, b * w)
  }
  let salt = 0
  const conduct = (a: number, b: number, siemens: number) => {
    const g = setting.structural ? 1 + 0.37 * Math.sin(++salt) : siemens
    leaves(a, b, (gain, at) => addVoltage(a, b, gain * g, rows, at))
  }
  for (const r of layout.conductances) conduct(r.a, r.b, r.siemens)
  layout.devices.forEach((device, d) => {
    if (device.kind !== 'conductor' && device.kind !== 'switch') return
    const state = setting.devices[d]!
    conduct(device.a, device.b, device.slope[state]!)
    if (device.kind === 'conductor' && device.shift[state] !== 0)
      leaves(device.a, device.b, (gain, at) => {
        rows[at + columns.z + columns.x]! += gain * device.shift[state]!
      })
  })
  layout.slows.forEach((slow, s) => {
    conduct(slow.a, slow.b, setting.slow[s]!)
    leaves(slow.a, slow.b, (gain, at) => {
      rows[at + columns.z + columns.x + slow.u]! += gain
    })
  })
  layout.caps.forEach((cap, c) => {
    leaves(cap.a, cap.b, (gain, at) => {
      rows[at + cap.z]! += gain
    })
    addVoltage(cap.a, cap.b, 1, rows, cap.z * w)
    rows[cap.z * w + columns.z + c] = -1
  })
  layout.inductors.forEach((inductor, l) => {
    leaves(inductor.a, inductor.b, (gain, at) => {
      rows[at + columns.z + layout.caps.length + l]! += gain
    })
  })
  for (const source of layout.currentSources)
    leaves(source.a, source.b, (gain, at) => {
      rows[at + columns.z + columns.x + source.u]! += gain
    })
  for (const source of layout.voltageSources) {
    leaves(source.a, source.b, (gain, at) => {
      rows[at + source.z]! += gain
    })
    addVoltage(source.a, source.b, 1, rows, source.z * w)
    rows[source.z * w + columns.z + columns.x + source.u] = -1
  }
  layout.controlled.forEach((source, number) => {
    if (source.z < 0) {
      leaves(source.a, source.b, (gain, at) => addControlled(layout, setting, number, gain, rows, at))
      return
    }
    leaves(source.a, source.b, (gain, at) => {
      rows[at + source.z]! += gain
    })
    addVoltage(source.a, source.b, 1, rows, source.z * w)
    addControlled(layout, setting, number, -1, rows, source.z * w)
  })
  for (const windings of layout.transformers) {
    const first = windings[0]!
    windings.forEach((winding, i) => {
      leaves(winding.a, winding.b, (gain, at) => {
        rows[at + winding.z]! += gain
      })
      rows[first.z * w + winding.z]! += winding.turns
      if (i === 0) return
      addVoltage(winding.a, winding.b, 1 / winding.turns, rows, winding.z * w)
      addVoltage(first.a, first.b, -1 / first.turns, rows, winding.z * w)
    })
  }
  return rows
}
