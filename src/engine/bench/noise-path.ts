/** A question on the way from a noise to its cause. */
export interface NoiseStep {
  readonly id: string
  readonly question: string
  readonly how: string
  readonly answers: readonly { readonly id: string; readonly label: string; readonly next: string }[]
}

/** Where the way ends. */
export interface NoiseVerdict {
  readonly id: string
  readonly title: string
  readonly urgency: 'normal' | 'improve' | 'stop'
  readonly meaning: string
  readonly todo: readonly string[]
  /** Rows of the fault table that this points to. */
  readonly faults: readonly string[]
}

const off = 'Unplugged and discharged while anything is changed; listen from an arm away.'

/** First question. */
export const firstNoiseStep = 'kind'

/** Questions of the noise path; `next` names another question or a verdict. */
export const noiseSteps: readonly NoiseStep[] = [
  {
    id: 'kind',
    question: 'Is it heard, or does it disturb radio and instruments?',
    how: 'Radio: hash on a receiver nearby, or rings on a scope.',
    answers: [
      { id: 'heard', label: 'heard', next: 'load' },
      { id: 'radio', label: 'disturbs', next: 'ring' },
    ],
  },
  {
    id: 'load',
    question: 'At which load?',
    how: 'Sweep the load from nothing to full at nominal input.',
    answers: [
      { id: 'light', label: 'from nothing to a twentieth or tenth, quiet above', next: 'steady' },
      { id: 'heavy', label: 'above about 80 %', next: 'overload' },
      { id: 'low input', label: 'heavy load and low input only', next: 'subharmonic' },
      { id: 'all', label: 'at any load', next: 'press' },
      { id: 'ticks', label: 'ticks about once a second', next: 'restart' },
    ],
  },
  {
    id: 'steady',
    question: 'Is the output steady meanwhile?',
    how: 'DC volts at the output; on a scope it shows small groups of pulses.',
    answers: [
      { id: 'yes', label: 'steady', next: 'burst' },
      { id: 'no', label: 'it wanders', next: 'loop' },
    ],
  },
  {
    id: 'press',
    question: 'Does it change when the core is pressed?',
    how: 'Press the halves together and mark it: off and discharged, clip or tape them, then listen again. Never press a live core.',
    answers: [
      { id: 'yes', label: 'it changes', next: 'core' },
      { id: 'no', label: 'no change', next: 'clamp' },
    ],
  },
  {
    id: 'clamp',
    question: 'Does it change with a film capacitor in the clamp?',
    how: 'Ceramic capacitors of high permittivity sing. '.concat(off),
    answers: [
      { id: 'yes', label: 'it changes', next: 'ceramic' },
      { id: 'no', label: 'no change', next: 'sine' },
    ],
  },
  {
    id: 'sine',
    question: 'Does the output carry a sine of some kilohertz?',
    how: 'Scope on the output, AC coupled.',
    answers: [
      { id: 'yes', label: 'yes', next: 'loop' },
      { id: 'no', label: 'no', next: 'varnish' },
    ],
  },
  {
    id: 'ring',
    question: 'At what frequency does it ring?',
    how: 'Short ground spring or a small loop held near; first shorted to its own ground: what is left is the probe.',
    answers: [
      { id: 'artefact', label: 'it is there with the probe shorted', next: 'probe' },
      { id: 'drain', label: '3 to 12 MHz', next: 'drain' },
      { id: 'rectifier', label: '20 to 30 MHz', next: 'rectifier' },
      { id: 'harmonics', label: 'harmonics of the switching frequency, 150 kHz to some MHz', next: 'filter' },
    ],
  },
]

/** Ends of the noise path. */
export const noiseVerdicts: readonly NoiseVerdict[] = [
  {
    id: 'burst',
    title: 'Normal: pulses in groups at light load',
    urgency: 'normal',
    meaning: 'The chip skips pulses; the groups come at an audible rate and the core and ceramics sing.',
    todo: ['Varnish or glue the core', 'Film instead of ceramic in the clamp', 'A preload of some percent'],
    faults: ['burst-normal'],
  },
  {
    id: 'overload',
    title: 'Stop: overload or saturation',
    urgency: 'stop',
    meaning:
      'Sound near full load comes before failure: the current curls up, or the limit is met in each cycle.',
    todo: [
      'Switch off, discharge',
      'Inductance against plan, gap',
      'Peak current and ramp with an isolated current probe',
      'Clamp voltage and temperatures at half load first',
    ],
    faults: ['gap-small', 'gap-missing', 'limit-low', 'leakage-high'],
  },
  {
    id: 'subharmonic',
    title: 'Pulses alternate wide and narrow',
    urgency: 'improve',
    meaning: 'Continuous mode above half duty without enough slope; gone when the input is raised.',
    todo: ['Lower the reflected voltage', 'More bulk capacitance', 'A chip with slope compensation'],
    faults: ['subharmonic', 'bulk-small'],
  },
  {
    id: 'restart',
    title: 'Restarts',
    urgency: 'stop',
    meaning: 'It tries, gives up and tries again.',
    todo: ['Switch off', 'Fault finder with the lamp in'],
    faults: ['bias-reversed', 'bias-open', 'rectifier-shorted', 'load-stubborn', 'source-weak'],
  },
  {
    id: 'loop',
    title: 'Loop near oscillation',
    urgency: 'improve',
    meaning: 'The output moves at the crossover of the loop.',
    todo: [
      'Compare compensation with the plan',
      'Load step and its ringing',
      'Output capacitors of the planned type',
    ],
    faults: ['loop-unstable', 'output-esr', 'transfer-ratio'],
  },
  {
    id: 'core',
    title: 'Core halves move',
    urgency: 'improve',
    meaning: 'Loose or dirty halves work against each other and the inductance drifts.',
    todo: ['Clean, seat, clip', 'Glue the outer legs, varnish'],
    faults: ['core-loose'],
  },
  {
    id: 'ceramic',
    title: 'Ceramic capacitor sings',
    urgency: 'improve',
    meaning: 'Harmless to the supply.',
    todo: ['Film or a low-permittivity ceramic in the clamp'],
    faults: [],
  },
  {
    id: 'varnish',
    title: 'Winding or core vibrates',
    urgency: 'improve',
    meaning: 'Neither seat nor clamp nor loop: wires or core move in the field.',
    todo: ['Varnish the coil', 'Tighter winding', 'Lower flux'],
    faults: [],
  },
  {
    id: 'probe',
    title: 'The probe makes it',
    urgency: 'normal',
    meaning: 'The loop of the ground lead picks it up.',
    todo: ['Ground spring', 'Right ratio and bandwidth'],
    faults: ['artefact'],
  },
  {
    id: 'drain',
    title: 'Drain rings: leakage with drain capacitance',
    urgency: 'improve',
    meaning: 'Common-mode current through the winding capacitance and the Y capacitor.',
    todo: [
      'Less leakage, shorter clamp loop',
      'Damping resistor with the clamp diode',
      'Shield to primary return, Y capacitor in place',
      'Start of the primary at the drain, inside',
    ],
    faults: ['leakage-high', 'clamp-diode-slow', 'y-capacitor'],
  },
  {
    id: 'rectifier',
    title: 'Rectifier rings with the secondary leakage',
    urgency: 'improve',
    meaning: 'Radiates from the output leads.',
    todo: ['Snubber across the rectifier', 'Shorter output loop', 'Softer rectifier'],
    faults: ['rectifier-hot'],
  },
  {
    id: 'filter',
    title: 'Harmonics on the mains lead',
    urgency: 'improve',
    meaning: 'Differential below about 1 MHz, common mode above.',
    todo: [
      'X capacitor and leakage of the choke against the low ones',
      'Common-mode choke, Y capacitor, shield against the high ones',
      'Bulk capacitor of low resistance, short drain loop',
    ],
    faults: ['y-capacitor'],
  },
]

const steps = new Map(noiseSteps.map((s) => [s.id, s]))
const verdicts = new Map(noiseVerdicts.map((v) => [v.id, v]))

/** How far the answers lead: the next question, or the verdict. */
export type NoiseProgress =
  | { readonly kind: 'ask'; readonly step: NoiseStep; readonly path: readonly string[] }
  | { readonly kind: 'verdict'; readonly verdict: NoiseVerdict; readonly path: readonly string[] }

/** Follows the answers given so far, by question id. An answer that is no answer to its question is asked again. */
export function noisePath(answers: Readonly<Record<string, string>>): NoiseProgress {
  const path: string[] = []
  let at = firstNoiseStep
  for (;;) {
    const verdict = verdicts.get(at)
    if (verdict) return { kind: 'verdict', verdict, path }
    const step = steps.get(at)!
    path.push(at)
    const next = step.answers.find((a) => a.id === answers[at])?.next
    if (next === undefined || path.includes(next)) return { kind: 'ask', step, path }
    at = next
  }
}
