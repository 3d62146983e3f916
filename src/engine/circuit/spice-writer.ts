import type { Circuit } from './circuit.ts'
import type { Element, Waveform } from './netlist.ts'
import type { CircuitState } from './run.ts'
import type { GateBook } from './spice-gates.ts'
import { expression, type SpiceNames, spiceNumber } from './spice-names.ts'
import { inductanceMatrix } from './validate.ts'

/** Writes elements as lines of a deck that starts in a given state. */
export class SpiceWriter {
  readonly lines: string[] = []
  private readonly circuit: Circuit
  private readonly state: CircuitState
  private readonly names: SpiceNames
  private readonly gates: GateBook
  private readonly start: number
  private readonly knobs: Readonly<Record<string, number>>

  constructor(
    circuit: Circuit,
    state: CircuitState,
    names: SpiceNames,
    gates: GateBook,
    start: number,
    knobs: Readonly<Record<string, number>>,
  ) {
    this.circuit = circuit
    this.state = state
    this.names = names
    this.gates = gates
    this.start = start
    this.knobs = knobs
  }

  line(text: string): void {
    this.lines.push(text)
  }

  /** State value of a capacitor (0) or inductor (1) by name. */
  private initial(name: string, unit: 'V' | 'A'): number {
    const at = this.circuit.stateNames.indexOf(`${name} ${unit}`)
    return at < 0 ? 0 : this.state.values[at]!
  }

  private cap(name: string, a: string, b: string, farad: number, owner: string): void {
    this.line(`C${name} ${a} ${b} ${spiceNumber(farad)} ic=${spiceNumber(this.initial(owner, 'V'))}`)
  }

  /** Conduction above a drop: DC source and exponential diode. */
  private conduct(name: string, a: string, b: string, drop: number, ohm: number, transit: number): void {
    const mid = `${name}_v`
    this.line(`V${name} ${a} ${mid} ${spiceNumber(drop - 0.027)}`)
    this.line(`D${name} ${mid} ${b} M${name}`)
    const store = transit > 0 ? ` TT=${spiceNumber(transit)}` : ''
    this.line(`.model M${name} D(IS=1n N=0.05 RS=${spiceNumber(ohm)}${store})`)
  }

  element(element: Element): void {
    const n = this.names.of(element.name)
    if ('windings' in element) {
      this.windings(element, n)
      return
    }
    // a 0 V source in series measures the channel current where some form asks for it
    let a = this.names.node(element.a)
    const b = this.names.node(element.b)
    const outer = a
    if (this.names.needsMeter(element)) {
      this.line(`Vm_${n} ${a} ${n}_m 0`)
      a = `${n}_m`
    }
    const v = spiceNumber
    switch (element.kind) {
      case 'resistor':
        this.line(`R${n} ${a} ${b} ${v(element.resistance_ohm)}`)
        break
      case 'capacitor':
        this.cap(n, a, b, element.capacitance_F, element.name)
        break
      case 'inductor':
        this.line(`L${n} ${a} ${b} ${v(element.inductance_H)} ic=${v(this.initial(element.name, 'A'))}`)
        break
      case 'saturating-inductor':
        this.saturating(element, n, a, b)
        break
      case 'voltage-source':
        this.line(`V${n} ${a} ${b} ${this.waveform(element.waveform)}`)
        break
      case 'current-source':
        this.line(`I${n} ${a} ${b} ${this.waveform(element.waveform)}`)
        break
      case 'controlled-voltage':
      case 'controlled-current': {
        const parts = [expression(this.names, element.value)]
        for (const bend of element.bends ?? [])
          parts.push(`${v(bend.gain)}*max(0,${expression(this.names, bend.of)})`)
        this.line(
          `B${n} ${a} ${b} ${element.kind === 'controlled-voltage' ? 'V' : 'I'} = ${parts.join(' + ')}`,
        )
        break
      }
      case 'diode':
        this.conduct(n, a, b, element.drop_V, element.slope_ohm, element.transit_s ?? 0)
        if (element.capacitance_F !== undefined) this.cap(n, outer, b, element.capacitance_F, element.name)
        break
      case 'avalanche': {
        const both = element.bidirectional === true
        const drop = both ? element.breakdown_V : element.drop_V
        this.conduct(n, a, b, drop, both ? element.breakdown_slope_ohm : element.slope_ohm, 0)
        this.conduct(`${n}_r`, b, a, element.breakdown_V, element.breakdown_slope_ohm, 0)
        if (element.capacitance_F !== undefined) this.cap(n, outer, b, element.capacitance_F, element.name)
        break
      }
      case 'switch': {
        const d = this.circuit.layout.deviceNumber.get(element.name)!
        const off = element.off_ohm ?? 1 / (this.circuit.netlist.leak_S ?? 1e-10)
        this.line(`S${n} ${a} ${b} ${n}_g 0 M${n}`)
        this.line(`.model M${n} SW(vt=0.5 vh=0 ron=${v(element.on_ohm)} roff=${v(off)})`)
        this.line(`Vg_${n} ${n}_g 0 ${this.gates.waveform(d)}`)
        if (element.capacitance_F !== undefined) this.cap(n, outer, b, element.capacitance_F, element.name)
        break
      }
      case 'slow': {
        const i = this.circuit.layout.slows.findIndex((slow) => slow.name === element.name)
        const own = this.state.slow[i]!
        if (element.spice !== undefined) for (const text of element.spice(n, a, b, own)) this.line(text)
        else {
          const law = element.law(own, this.start, 0)
          this.line(`R${n} ${a} ${b} ${v(1 / law.conductance_S)}`)
          this.line(`I${n} ${a} ${b} ${v(law.current_A)}`)
        }
        break
      }
    }
  }

  private windings(element: Extract<Element, { windings: unknown }>, n: string): void {
    const v = spiceNumber
    const ends = element.windings.map((winding, w) => {
      this.line(`Vm_${n}_${w} ${this.names.node(winding.a)} ${n}_${w}m 0`)
      return { a: `${n}_${w}m`, b: this.names.node(winding.b) }
    })
    if (element.kind === 'coupled-inductors') {
      const m = inductanceMatrix(element)
      const size = ends.length
      ends.forEach(({ a, b }, w) => {
        const amps = this.initial(`${element.name}.${w}`, 'A')
        this.line(`L${n}_${w} ${a} ${b} ${v(m[w * size + w]!)} ic=${v(amps)}`)
      })
      for (let i = 0; i < size; i++)
        for (let j = 0; j < i; j++) {
          const k = m[i * size + j]! / Math.sqrt(m[i * size + i]! * m[j * size + j]!)
          if (k !== 0) this.line(`K${n}_${j}_${i} L${n}_${j} L${n}_${i} ${v(k)}`)
        }
      return
    }
    const first = ends[0]!
    const turns = element.windings.map((winding) => winding.turns)
    ends.forEach(({ a, b }, w) => {
      if (w === 0) return
      const ratio = turns[w]! / turns[0]!
      this.line(`E${n}_${w} ${a} ${b} ${first.a} ${first.b} ${v(ratio)}`)
      this.line(`F${n}_${w} ${first.a} ${first.b} Vm_${n}_${w} ${v(-ratio)}`)
    })
  }

  /** Flux as the voltage of a capacitor (1 V is 1 mVs), current as a table of it. */
  private saturating(
    element: Extract<Element, { kind: 'saturating-inductor' }>,
    n: string,
    a: string,
    b: string,
  ): void {
    const points: [number, number][] = [[0, 0]]
    let slope = element.inductance_H
    for (const knee of element.knees) {
      const [flux, amps] = points.at(-1)!
      points.push([flux + slope * (knee.current_A - amps), knee.current_A])
      slope = knee.beyond_H
    }
    const [flux, amps] = points.at(-1)!
    points.push([flux + slope * 1000, amps + 1000])
    const all = [
      ...points
        .slice(1)
        .map(([f, i]): [number, number] => [-f, -i])
        .reverse(),
      ...points,
    ]
    const present = this.initial(element.name, 'A')
    const size = Math.abs(present)
    let start = 0
    for (let i = 1; i < points.length; i++) {
      const [f0, i0] = points[i - 1]!
      const [f1, i1] = points[i]!
      if (size >= i0) start = f0 + ((f1 - f0) * (Math.min(size, i1) - i0)) / (i1 - i0)
    }
    const table = all.map(([f, i]) => `${spiceNumber(f * 1000)},${spiceNumber(i)}`).join(',')
    this.line(`B${n} ${a} ${b} I = pwl(v(${n}_flux),${table})`)
    this.line(`G${n} 0 ${n}_flux ${a} ${b} 1`)
    this.line(`C${n} ${n}_flux 0 1m ic=${spiceNumber(Math.sign(present) * start * 1000)}`)
    this.line(`Rg_${n} ${n}_flux 0 1e12`)
  }

  private waveform(wave: Waveform): string {
    const v = spiceNumber
    const t0 = this.start
    switch (wave.kind) {
      case 'dc':
        return v(wave.value)
      case 'knob':
        return v(this.knobs[wave.knob]!)
      case 'sine': {
        const degrees = ((wave.phase_rad + 2 * Math.PI * wave.frequency_Hz * t0) * 180) / Math.PI
        return `SIN(${v(wave.offset)} ${v(wave.amplitude)} ${v(wave.frequency_Hz)} 0 0 ${v(degrees % 360)})`
      }
      case 'piecewise': {
        const points = wave.points.map(([time, value]) => [time - t0, value] as const)
        const after = points.filter(([time]) => time > 0)
        const before = points.filter(([time]) => time <= 0).at(-1)
        const next = after[0]
        const now =
          before === undefined
            ? points[0]![1]
            : next === undefined
              ? before[1]
              : before[1] + ((next[1] - before[1]) * -before[0]) / (next[0] - before[0])
        return `PWL(0 ${v(now)} ${after.map(([time, value]) => `${v(time)} ${v(value)}`).join(' ')})`
      }
      case 'pulse': {
        const phase = (t0 - wave.delay_s) / wave.period_s
        const delay = wave.delay_s - t0 + (phase > 0 ? Math.floor(phase) * wave.period_s : 0)
        const edge = (s: number) => v(Math.max(s, 1e-12))
        return `PULSE(${v(wave.low)} ${v(wave.high)} ${v(delay)} ${edge(wave.rise_s)} ${edge(wave.fall_s)} ${v(wave.width_s)} ${v(wave.period_s)})`
      }
    }
  }
}
