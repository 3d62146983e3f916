import type { LinearForm } from './form.ts'
import type { Element, Netlist } from './netlist.ts'

/** A number as SPICE reads it, with all its digits. */
export const spiceNumber = (value: number): string => {
  const text = String(value)
  return text.includes('e') || text.length <= 17 ? text : value.toPrecision(16)
}

/** Names of nodes and elements made fit for SPICE, which knows no case and few signs. */
export class SpiceNames {
  private readonly nodes = new Map<string, string>([['0', '0']])
  private readonly elements = new Map<string, string>()
  private readonly taken = new Set<string>(['0'])
  private readonly metered = new Set<string>()
  private readonly netlist: Netlist

  constructor(netlist: Netlist) {
    this.netlist = netlist
    for (const element of netlist.elements) {
      const ends = 'windings' in element ? element.windings : [element]
      for (const { a, b } of ends) for (const node of [a, b]) this.node(node)
    }
    const used = new Set<string>()
    for (const { name } of netlist.elements) this.elements.set(name, unique(name, used))
  }

  node(name: string): string {
    const known = this.nodes.get(name)
    if (known !== undefined) return known
    const fit = unique(name, this.taken)
    this.nodes.set(name, fit)
    return fit
  }

  of(element: string): string {
    return this.elements.get(element)!
  }

  /** Remember which currents a form needs measured. */
  noteCurrents(form: LinearForm): void {
    for (const { of } of form.terms) if (of.kind === 'current') this.metered.add(of.element)
  }

  /** Windings always carry meters; voltage sources measure themselves. */
  needsMeter(element: Element): boolean {
    return element.kind !== 'voltage-source' && this.metered.has(element.name)
  }

  /** SPICE expression for the current of an element. */
  current(name: string, winding: number): string {
    const element = this.netlist.elements.find((item) => item.name === name)!
    const fit = this.of(name)
    if ('windings' in element) return `i(Vm_${fit}_${winding})`
    return element.kind === 'voltage-source' ? `i(V${fit})` : `i(Vm_${fit})`
  }
}

/** Lower case, letters digits and underscore only, distinct from all names used before. */
function unique(name: string, used: Set<string>): string {
  const base = name.toLowerCase().replace(/[^a-z0-9_]/g, '_')
  let fit = base
  for (let i = 2; used.has(fit); i++) fit = `${base}_${i}`
  used.add(fit)
  return fit
}

/** A linear form as a SPICE expression. */
export function expression(names: SpiceNames, form: LinearForm): string {
  const parts = form.terms.map(({ gain, of }) => {
    const what =
      of.kind === 'voltage'
        ? of.to === '0'
          ? `v(${names.node(of.from)})`
          : of.from === '0'
            ? `(0-v(${names.node(of.to)}))`
            : `v(${names.node(of.from)},${names.node(of.to)})`
        : names.current(of.element, of.winding)
    return `(${spiceNumber(gain)})*${what}`
  })
  if (form.offset !== 0 || parts.length === 0) parts.push(`(${spiceNumber(form.offset)})`)
  return parts.join(' + ')
}
