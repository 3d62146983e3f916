import { isPositiveDefinite } from './dense.ts'
import type { CoupledInductors, Element, Netlist, Waveform } from './netlist.ts'
import type { NetlistProblem } from './problem.ts'

/** Faults visible element by element: nonsense values, duplicate names, impossible couplings. */
export function checkElements(netlist: Netlist): NetlistProblem[] {
  const problems: NetlistProblem[] = []
  const seen = new Set<string>()
  for (const element of netlist.elements) {
    if (seen.has(element.name))
      problems.push({
        code: 'duplicate-name',
        message: `two elements are called ${element.name}`,
        elements: [element.name],
        nodes: [],
      })
    seen.add(element.name)
    checkElement(element, netlist, problems)
  }
  const leak = netlist.leak_S ?? 1e-10
  if (!(leak >= 1e-14 && leak <= 1e-6)) bad(problems, 'netlist', 'leak_S', leak, '1e-14 to 1e-6 S')
  for (const [knob, value] of Object.entries(netlist.knobs ?? {}))
    wantFinite('netlist', `knobs.${knob}`, value, problems)
  return problems
}

function bad(problems: NetlistProblem[], name: string, field: string, value: unknown, limit: string): void {
  problems.push({
    code: 'bad-value',
    message: `${name}: ${field} is ${String(value)}, must be ${limit}`,
    elements: [name],
    nodes: [],
  })
}

/** Beyond these no product of two values is sure to be a number. */
const least = 1e-24
const most = 1e24

function wantPositive(name: string, field: string, value: number, problems: NetlistProblem[]): void {
  if (!(value > 0 && Number.isFinite(value))) bad(problems, name, field, value, 'positive and finite')
  else if (value < least || value > most) bad(problems, name, field, value, `${least} to ${most}`)
}

function wantFinite(name: string, field: string, value: number, problems: NetlistProblem[]): void {
  if (!Number.isFinite(value)) bad(problems, name, field, value, 'finite')
  else if (Math.abs(value) > most) bad(problems, name, field, value, `within ${most}`)
}

function checkElement(element: Element, netlist: Netlist, problems: NetlistProblem[]): void {
  const positive = (field: string, value: number | undefined) => {
    if (value !== undefined) wantPositive(element.name, field, value, problems)
  }
  const finite = (field: string, value: number | undefined) => {
    if (value !== undefined) wantFinite(element.name, field, value, problems)
  }
  const atLeastZero = (field: string, value: number) => {
    if (value < 0) bad(problems, element.name, field, value, 'zero or more')
    else wantFinite(element.name, field, value, problems)
  }
  switch (element.kind) {
    case 'resistor':
      positive('resistance_ohm', element.resistance_ohm)
      break
    case 'capacitor':
      positive('capacitance_F', element.capacitance_F)
      finite('initial_V', element.initial_V)
      break
    case 'inductor':
      positive('inductance_H', element.inductance_H)
      finite('initial_A', element.initial_A)
      break
    case 'saturating-inductor': {
      positive('inductance_H', element.inductance_H)
      finite('initial_A', element.initial_A)
      let last = 0
      element.knees.forEach((knee, i) => {
        positive(`knees[${i}].beyond_H`, knee.beyond_H)
        if (!(knee.current_A > last && Number.isFinite(knee.current_A)))
          bad(problems, element.name, `knees[${i}].current_A`, knee.current_A, `above ${last} A`)
        last = knee.current_A
      })
      break
    }
    case 'coupled-inductors':
      element.windings.forEach((winding, i) => {
        positive(`windings[${i}].inductance_H`, winding.inductance_H)
        finite(`windings[${i}].initial_A`, winding.initial_A)
      })
      checkCoupling(element, problems)
      break
    case 'ideal-transformer':
      if (element.windings.length < 2)
        bad(problems, element.name, 'windings', element.windings.length, 'two or more')
      element.windings.forEach((winding, i) => {
        positive(`windings[${i}].turns`, winding.turns)
      })
      break
    case 'voltage-source':
    case 'current-source':
      checkWaveform(element.name, element.waveform, netlist, problems)
      break
    case 'controlled-voltage':
    case 'controlled-current':
      for (const form of [element.value, ...(element.bends ?? []).map((bend) => bend.of)]) {
        finite('offset', form.offset)
        for (const term of form.terms) finite('gain', term.gain)
      }
      for (const bend of element.bends ?? []) finite('bends.gain', bend.gain)
      break
    case 'diode':
      atLeastZero('drop_V', element.drop_V)
      positive('slope_ohm', element.slope_ohm)
      positive('capacitance_F', element.capacitance_F)
      positive('transit_s', element.transit_s)
      finite('initial_V', element.initial_V)
      break
    case 'avalanche':
      positive('breakdown_V', element.breakdown_V)
      positive('breakdown_slope_ohm', element.breakdown_slope_ohm)
      atLeastZero('drop_V', element.drop_V)
      positive('slope_ohm', element.slope_ohm)
      positive('capacitance_F', element.capacitance_F)
      finite('initial_V', element.initial_V)
      break
    case 'switch':
      positive('on_ohm', element.on_ohm)
      positive('off_ohm', element.off_ohm)
      positive('capacitance_F', element.capacitance_F)
      finite('initial_V', element.initial_V)
      break
    case 'slow':
      positive('step_s', element.step_s)
      element.initial.forEach((value, i) => {
        finite(`initial[${i}]`, value)
      })
      break
  }
}

function checkWaveform(name: string, wave: Waveform, netlist: Netlist, problems: NetlistProblem[]): void {
  const finite = (field: string, value: number) => wantFinite(name, field, value, problems)
  if (wave.kind === 'dc') finite('value', wave.value)
  else if (wave.kind === 'knob') {
    if (netlist.knobs?.[wave.knob] === undefined)
      problems.push({
        code: 'unknown-name',
        message: `${name}: no knob called ${wave.knob}`,
        elements: [name],
        nodes: [],
      })
  } else if (wave.kind === 'sine') {
    finite('offset', wave.offset)
    finite('amplitude', wave.amplitude)
    finite('phase_rad', wave.phase_rad)
    wantPositive(name, 'frequency_Hz', wave.frequency_Hz, problems)
  } else if (wave.kind === 'piecewise') {
    if (wave.points.length === 0) bad(problems, name, 'points', 0, 'at least one')
    wave.points.forEach(([time, value], i) => {
      finite(`points[${i}].time_s`, time)
      finite(`points[${i}].value`, value)
      const before = wave.points[i - 1]
      if (before !== undefined && !(time > before[0]))
        bad(problems, name, `points[${i}].time_s`, time, `after ${before[0]} s`)
    })
  } else {
    finite('low', wave.low)
    finite('high', wave.high)
    finite('delay_s', wave.delay_s)
    const used = wave.rise_s + wave.width_s + wave.fall_s
    for (const field of ['rise_s', 'width_s', 'fall_s'] as const)
      if (!(wave[field] >= 0)) bad(problems, name, field, wave[field], 'zero or more')
    if (!(wave.period_s >= used && wave.period_s > 0 && Number.isFinite(wave.period_s)))
      bad(problems, name, 'period_s', wave.period_s, `at least rise + width + fall = ${used} s`)
  }
}

/** Inductance matrix of coupled windings, H, row-major. */
export function inductanceMatrix(element: CoupledInductors): Float64Array {
  const n = element.windings.length
  const m = new Float64Array(n * n)
  if (element.matrix_H !== undefined) {
    for (let r = 0; r < n; r++)
      for (let c = 0; c < n; c++) m[r * n + c] = element.matrix_H[r]?.[c] ?? Number.NaN
    return m
  }
  element.windings.forEach((winding, i) => {
    m[i * n + i] = winding.inductance_H
  })
  for (const { of, k } of element.couplings ?? []) {
    const [i, j] = of
    const mutual =
      k *
      Math.sqrt(
        (element.windings[i]?.inductance_H ?? Number.NaN) * (element.windings[j]?.inductance_H ?? Number.NaN),
      )
    m[i * n + j] = mutual
    m[j * n + i] = mutual
  }
  return m
}

function checkCoupling(element: CoupledInductors, problems: NetlistProblem[]): void {
  const n = element.windings.length
  const report = (message: string) =>
    problems.push({
      code: 'coupling',
      message: `${element.name}: ${message}`,
      elements: [element.name],
      nodes: [],
    })
  for (const { of, k } of element.couplings ?? []) {
    if (of.some((i) => !Number.isInteger(i) || i < 0 || i >= n) || of[0] === of[1]) {
      report(`coupling of windings ${of[0]} and ${of[1]}: windings run from 0 to ${n - 1}`)
      return
    }
    if (!(Math.abs(k) < 1)) {
      report(`coupling factor of windings ${of[0]} and ${of[1]} is ${k}, must be below 1 in magnitude`)
      return
    }
  }
  const m = inductanceMatrix(element)
  for (let r = 0; r < n; r++)
    for (let c = 0; c < r; c++)
      if (!(Math.abs(m[r * n + c]! - m[c * n + r]!) <= 1e-9 * Math.abs(m[r * n + c]!))) {
        report(`inductance matrix is not symmetric at windings ${c} and ${r}`)
        return
      }
  if (!isPositiveDefinite(m, n, 1e-12))
    report(
      `windings are coupled more tightly than physics allows (inductance matrix is not positive definite)`,
    )
}
