import {
  buildCircuit,
  type Netlist,
  type TransientOptions,
  transient,
} from '../../../src/engine/circuit/index.ts'
import { powerStage, responseAt } from '../../../src/engine/loop/index.ts'
import { solveBulk } from '../../../src/engine/mains/index.ts'
import circuitCases from '../circuits/cases.json'
import { currentLimited, mains, mainsProbes, openLoop } from '../circuits/published.ts'
import { stageProbes } from '../circuits/stage.ts'
import { averagedFrequencies, stageOf } from '../loop/averaged-stage.ts'
import loopCases from '../loop/simulator.json'
import mainsCases from '../mains/simulator.json'
import { type Comparison, difference, ratio, type Topic } from './comparison.ts'

type Figures = Readonly<Record<string, number>>
type Case = { readonly parameters: Figures; readonly results: Figures }

const circuitCase = (id: string): Case =>
  (circuitCases as unknown as (Case & { id: string })[]).find((c) => c.id === id)!

function run(netlist: Netlist, options: TransientOptions) {
  const built = buildCircuit(netlist)
  if (!built.ok) throw new Error(JSON.stringify(built.problems))
  const done = transient(built.circuit, options)
  if (!done.ok) throw new Error(done.message)
  return done.windows
}

/** The figures of a power stage that its builder looks at, over the last millisecond. */
function stageRows(id: string, netlist: Netlist, span_s: number): Comparison[] {
  const { parameters: p, results } = circuitCase(id)
  const { end } = run(netlist, {
    span_s,
    probes: stageProbes,
    windows: [{ name: 'end', from_s: span_s - 1e-3, to_s: span_s }],
  })
  const row = (what: string, found: number, key: string, unit: string) =>
    ratio(`${id}, ${what}`, found, results[key]!, unit)
  return [
    row('output, average', end!.vout!.average, 'vout', 'V'),
    row('drain, peak', end!.vds!.maximum, 'vds_peak', 'V'),
    row('primary, peak', end!.ipri!.maximum, 'ipri_peak', 'A'),
    row('primary, rms', end!.ipri!.rms, 'ipri_rms', 'A'),
    row('secondary, rms', end!.isec!.rms, 'isec_rms', 'A'),
    row('input power', -p.Vin! * end!.iin!.average, 'pin', 'W'),
  ]
}

const stages = (): Comparison[] => [
  ...['O1_dcm_rcd', 'O3_tvs_30W_llk8u', 'O3_tvs_60W_llk16u'].flatMap((id) =>
    stageRows(id, openLoop(circuitCase(id).parameters), 20e-3),
  ),
  ...stageRows('O6a_overload', currentLimited(circuitCase('O6a_overload').parameters, 1), 12e-3),
]

const mainsInputs = ['O7_230V_150uF', 'O7_110V_60Hz_150uF']

const mainsByCircuit = (): Comparison[] =>
  mainsInputs.flatMap((id) => {
    const { parameters, results } = circuitCase(id)
    const { plamp: _, ...probes } = mainsProbes
    const { end, start } = run(mains(parameters, -1, false), {
      span_s: 0.6,
      probes,
      windows: [
        { name: 'end', from_s: 0.5, to_s: 0.6 },
        { name: 'start', from_s: 0, to_s: 0.04, probes: ['iac'] },
      ],
    })
    return [
      ratio(`${id}, bulk valley`, end!.vb!.minimum, results.vbus_min!, 'V'),
      ratio(`${id}, bulk crest`, end!.vb!.maximum, results.vbus_max!, 'V'),
      ratio(`${id}, line current, peak`, end!.iac!.maximum, results.iac_peak!, 'A'),
      ratio(`${id}, line current, rms`, end!.iac!.rms, results.iac_rms!, 'A'),
      ratio(`${id}, inrush`, start!.iac!.maximum, results.inrush_peak!, 'A'),
    ]
  })

const mainsClosedForm = (): Comparison[] =>
  mainsInputs.flatMap((id) => {
    const { parameters, results } = (mainsCases as unknown as Record<string, Case>)[id]!
    const found = solveBulk({
      source: { kind: 'mains', voltage_Vrms: parameters.Vrms!, frequency_Hz: parameters.fl! },
      seriesResistance_ohm: 3.1,
      bridgeDrop_V: 0.8,
      capacitance_F: 150e-6,
      power_W: 100,
    })
    if (!found.ok) throw new Error(found.message)
    return [
      ratio(`${id}, bulk valley`, found.minimum_V, results.vbus_min!, 'V'),
      ratio(`${id}, bulk crest`, found.maximum_V, results.vbus_max!, 'V'),
      ratio(`${id}, line current, peak`, found.input_Apeak, results.iac_peak!, 'A'),
      ratio(`${id}, line current, rms`, found.input_Arms, results.iac_rms!, 'A'),
      ratio(`${id}, power factor`, found.powerFactor, results.pf!),
    ]
  })

function smallSignal(): Comparison[] {
  const cases = loopCases as unknown as Record<string, Case>
  const averaged = cases.O9_avg_ac!
  const small = powerStage(stageOf(averaged, averaged.results['v(out)']!), { style: 'voltage-mode' })
  const switched = cases.O9_switched_5k!
  const moved = powerStage(stageOf(switched, switched.results.vout!), { style: 'voltage-mode' })
  if (!small.ok || !moved.ok) throw new Error('the stage is refused')
  const rows = averagedFrequencies.flatMap(([tag, frequency_Hz]) => {
    const found = responseAt({ num: small.toLoad, den: small.den }, frequency_Hz)
    return [
      difference(
        `averaged, gain at ${frequency_Hz} Hz`,
        found.gain_dB,
        averaged.results[`mag_${tag}`]!,
        'dB',
      ),
      difference(
        `averaged, phase at ${frequency_Hz} Hz`,
        found.phase_deg,
        averaged.results[`ph_${tag}`]!,
        'degrees',
      ),
    ]
  })
  const at5k = responseAt({ num: moved.toLoad, den: moved.den }, 5e3)
  return [
    ...rows,
    difference('switched, gain at 5000 Hz', at5k.gain_dB, switched.results.mag_db!, 'dB'),
    difference('switched, phase at 5000 Hz', at5k.phase_deg, switched.results.phase_deg!, 'degrees'),
  ]
}

const simulator = 'a general-purpose circuit simulator (ngspice 39)'

export const electricsTopics = (): Topic[] => [
  { title: 'Switched stage in time', against: simulator, folder: 'circuits', rows: stages() },
  { title: 'Mains side in time', against: simulator, folder: 'circuits', rows: mainsByCircuit() },
  { title: 'Mains side: closed form', against: simulator, folder: 'mains', rows: mainsClosedForm() },
  { title: 'Small signal of the power stage', against: simulator, folder: 'loop', rows: smallSignal() },
]
