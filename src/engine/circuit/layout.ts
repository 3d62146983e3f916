import type { LinearForm } from './form.ts'
import type { Netlist, SlowElement, Waveform } from './netlist.ts'

/** A two-terminal branch between node numbers; -1 is ground. */
export interface Ends {
  readonly name: string
  readonly a: number
  readonly b: number
}

/** Piecewise-linear conductor: in state s, i = slope[s] v + shift[s], for edges[s-1] < v < edges[s]. */
export interface Conductor extends Ends {
  readonly kind: 'conductor'
  readonly slope: readonly number[]
  readonly shift: readonly number[]
  readonly edges: readonly number[]
  readonly first: number
  /** State number of the stored charge, for a diode with recovery. */
  readonly charge: number
  readonly transit_s: number
}
export interface SwitchDevice extends Ends {
  readonly kind: 'switch'
  readonly slope: readonly [open: number, closed: number]
  readonly first: number
}
/** max(0, of) inside a controlled source. */
export interface Bend {
  readonly kind: 'bend'
  readonly name: string
  readonly of: LinearForm
  readonly first: number
}
/** Saturation segment of an inductor: inductance[s] for edges[s-1] < i < edges[s]. */
export interface Core {
  readonly kind: 'core'
  readonly name: string
  readonly inductor: number
  readonly inductance: readonly number[]
  readonly edges: readonly number[]
  readonly first: number
}
export type Device = Conductor | SwitchDevice | Bend | Core

/** Where the current of an element is found. */
export type CurrentOf =
  | { readonly kind: 'conductance'; readonly a: number; readonly b: number; readonly siemens: number }
  | { readonly kind: 'unknown'; readonly z: number }
  | { readonly kind: 'state'; readonly x: number }
  | { readonly kind: 'input'; readonly u: number }
  | { readonly kind: 'device'; readonly device: number }
  | { readonly kind: 'slow'; readonly slow: number }
  | { readonly kind: 'controlled'; readonly controlled: number }

export interface Controlled extends Ends {
  readonly z: number
  readonly value: LinearForm
  readonly bends: readonly { readonly gain: number; readonly device: number; readonly of: LinearForm }[]
}

/** The netlist with nodes, unknowns, states, inputs and devices numbered. */
export interface Layout {
  readonly netlist: Netlist
  readonly nodes: readonly string[]
  readonly nodeNumber: ReadonlyMap<string, number>
  /** Unknowns: node voltages first, then branch currents. */
  readonly unknowns: number
  /** Name of the element behind each unknown past the nodes. */
  readonly branchNames: readonly string[]
  readonly caps: readonly (Ends & { readonly farad: number; readonly initial: number; readonly z: number })[]
  readonly inductors: readonly (Ends & { readonly initial: number })[]
  readonly inductance: Float64Array
  readonly charges: number
  readonly stateNames: readonly string[]
  readonly conductances: readonly (Ends & { readonly siemens: number })[]
  readonly inputs: readonly (Waveform | { readonly kind: 'slow' })[]
  readonly voltageSources: readonly (Ends & { readonly u: number; readonly z: number })[]
  readonly currentSources: readonly (Ends & { readonly u: number })[]
  readonly controlled: readonly Controlled[]
  readonly transformers: readonly (readonly (Ends & { readonly turns: number; readonly z: number })[])[]
  readonly devices: readonly Device[]
  readonly slows: readonly (Ends & { readonly u: number; readonly element: SlowElement })[]
  readonly currents: ReadonlyMap<string, readonly CurrentOf[]>
  readonly deviceNumber: ReadonlyMap<string, number>
}
