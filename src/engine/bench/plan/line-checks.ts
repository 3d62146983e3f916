import { loadSteps } from '../unit/running-readings.ts'
import { loadStepChecks } from './load-step-checks.ts'
import { seenChecks } from './seen-checks.ts'
import { type CheckSpec, number, outputSpread, type PlanFacts, state } from './spec.ts'
import { temperature } from './temperature-check.ts'
import { live, output } from './ways.ts'

/** A round number of volts or seconds a division: 1, 2 or 5 times a power of ten, at or above. */
function perDivision(span: number, divisions: number): number {
  const least = span / divisions
  const decade = 10 ** Math.floor(Math.log10(least))
  return [1, 2, 5, 10].map((k) => k * decade).find((step) => step >= least * 0.999)!
}

const bulk_V = (f: PlanFacts): number => Number(f.healthy['lamp.bulk'] ?? 325)
const drainScope = (f: PlanFacts) => ({
  perDivision_V: perDivision(Number(f.healthy['line-100.spike'] ?? 2 * bulk_V(f)), 6),
  perDivision_s: perDivision(2 / f.evaluation.design.parts.switcher.frequency_Hz.typical, 10),
  probe_V: 1.5 * Number(f.healthy['line-100.spike'] ?? 2 * bulk_V(f)),
})

const drain = {
  spot: 'switcher',
  live: true,
  at: 'U1 drain',
  reference: 'U1 source, primary return',
  ways: live.waveform,
  scope: drainScope,
} as const

const avalanche = ({ evaluation }: PlanFacts): boolean => evaluation.design.clamp.style === 'avalanche'

/** Whether choke and second capacitor stand between C7 and the terminals: the ripple is then what they leave. */
const secondStage = ({ evaluation: { design } }: PlanFacts): boolean =>
  design.choke !== null && design.parts.secondCapacitor !== null

const ripple = (spot: CheckSpec['spot'], where: string, applies: CheckSpec['applies']) =>
  number(
    'line-100.ripple',
    'Output ripple at the switching frequency, without edge spikes',
    'V',
    0.25,
    5e-3,
    {
      spot,
      side: 'secondary',
      live: true,
      at: `output plus at ${where}`,
      reference: 'output minus, same capacitor',
      ways: output.ripple,
      risk: 'A tired capacitor is not noticed.',
      low: 'No matter.',
      high: 'Capacitor of high resistance; or the probe picks it up: short spring on the same node.',
      oneSided: 'at most',
      why: 'series resistance of the capacitor',
      applies,
    },
  )

/** The full line at rising load, short, and soak. */
export const lineChecks: readonly CheckSpec[] = [
  ...loadSteps.flatMap(loadStepChecks),
  number('line-100.reflected', 'Drain step from bulk to plateau', 'V', 0.03, 2, {
    ...drain,
    risk: 'Turns ratio under power stays unproven.',
    low: 'Secondary turns too many, or primary too few.',
    high: 'Secondary turns too few.',
    why: 'whole turns, rectifier drop',
  }),
  number('line-100.spike', 'Drain peak', 'V', 0.05, 5, {
    ...drain,
    risk: 'Drain margin stays unproven; the clamp voltage stands in for it.',
    low: 'Less leakage than planned.',
    high: 'Clamp open or slow, leakage above plan.',
    oneSided: 'at most',
    why: 'bulk, clamp, overshoot of its diode',
    stop: ({ evaluation }) => ({
      below: null,
      above: 0.9 * evaluation.design.parts.switcher.drainVoltage_V,
      text: '90 % of the rating: off.',
    }),
  }),
  number('line-100.peak', 'Primary peak current', 'A', 0.06, 0.01, {
    spot: 'primary',
    live: true,
    at: 'drain lead',
    reference: 'clamp-on probe',
    ways: live.current,
    risk: 'Peak current stays unproven; inductance as built stands in for it.',
    low: 'Inductance above plan, or less load than thought.',
    high: 'Inductance below plan, or it saturates.',
    why: 'inductance, efficiency',
    stop: ({ evaluation: { design } }) => ({
      below: null,
      above: design.parts.switcher.currentLimit_A.maximum,
      text: 'At the current limit: off.',
    }),
  }),
  ripple('outputCapacitor', 'C7', (f) => !secondStage(f)),
  ripple('secondCapacitor', 'C8, behind the choke', secondStage),
  number('line-100.ripple-line', 'Output ripple at twice the mains frequency', 'V', 0.5, 0.03, {
    spot: 'output',
    side: 'secondary',
    live: true,
    at: 'output plus',
    reference: 'output minus',
    ways: output.ripple,
    risk: 'A small bulk capacitor is not noticed.',
    low: 'No matter.',
    high: 'Bulk valley too low: capacitor small or dried out, input low.',
    oneSided: 'at most',
    onlyInTrouble: true,
  }),
  number('line-100.bulk-ripple', 'Ripple on the bulk capacitor', 'V', 0.12, 1, {
    spot: 'bulkCapacitor',
    live: true,
    at: 'C2 plus',
    reference: 'C2 minus',
    ways: [
      ...live.waveform,
      { ...live.volts[0], how: 'AC volts range: rms, times 3.5 for peak to peak.', substitute: true },
    ],
    risk: 'A small bulk capacitor is not noticed.',
    low: 'No matter.',
    high: 'Bulk capacitor small or dried out.',
    why: 'capacitance ±20 %',
    onlyInTrouble: true,
  }),
  state(
    'line-100.ramp',
    'Primary current in the on-time',
    {
      straight: 'rises in a straight line',
      'curls up': 'curls up at the end',
      'starts with a spike': 'starts with a tall spike',
    },
    {
      spot: 'primary',
      live: true,
      at: 'drain lead',
      reference: 'clamp-on probe',
      ways: live.current,
      risk: 'Saturation stays unproven; inductance as built and a cool core stand in for it.',
      stop: () => ({ below: null, above: null, text: 'Curling up: off.' }),
    },
  ),
  state(
    'line-100.ringing',
    'Drain ringing after the clamp lets go',
    { fades: 'fades within a few periods', high: 'long and high' },
    { ...drain, risk: 'A slow clamp diode is not noticed.', onlyInTrouble: true },
  ),
  state(
    'line-100.rectifier-ring',
    'Rectifier in reverse',
    { small: 'rings little', high: 'rings high' },
    {
      spot: 'rectifier',
      side: 'secondary',
      live: true,
      at: 'D4 anode',
      reference: 'output minus',
      ways: [output.ripple[0]],
      risk: 'An over-stressed rectifier is not noticed.',
      onlyInTrouble: true,
    },
  ),
  temperature('line-100.switcher-C', 'Switcher after 5 minutes', 'switcher'),
  temperature('line-100.transformer-C', 'Transformer after 5 minutes', 'transformer'),
  { ...temperature('line-0.switcher-C', 'Switcher, no load', 'switcher'), onlyInTrouble: true },
  { ...temperature('line-0.transformer-C', 'Transformer, no load', 'transformer'), onlyInTrouble: true },
  number('line.ceiling', 'Greatest output current before the voltage gives way', 'A', 0.08, 0.02, {
    spot: 'output',
    side: 'secondary',
    live: true,
    at: 'output plus',
    reference: 'output minus',
    ways: output.ceiling,
    risk: 'How far the supply is from its ceiling stays open.',
    low: 'Inductance or current limit low, or it saturates.',
    high: 'Current limit or inductance high.',
    why: 'current limit, inductance',
    onlyInTrouble: true,
  }),
  number('line.touch', 'Current from output to earth', 'A', 0.25, 1e-5, {
    spot: 'yCapacitor',
    side: 'across the barrier',
    live: true,
    at: 'output minus',
    reference: 'protective earth, through 2 kΩ',
    ways: live.touch,
    risk: 'Tingle is met by touch.',
    low: 'Y capacitor missing.',
    high: 'Y capacitor too large or of a wrong kind, or the barrier leaks.',
    why: 'Y capacitor ±20 %, half of the mains across it',
    onlyInTrouble: true,
    stop: () => ({ below: null, above: 0.5e-3, text: 'Above 0.5 mA: off.' }),
  }),
  temperature('soak.switcher-C', 'Switcher, settled', 'switcher'),
  temperature('soak.rectifier-C', 'Rectifier, settled', 'rectifier'),
  temperature('soak.transformer-C', 'Transformer, settled', 'transformer'),
  temperature('soak.clamp-C', 'Clamp resistor R2, settled', 'clamp', { applies: (f) => !avalanche(f) }),
  temperature('soak.clamp-C', 'Avalanche device D2, settled', 'clamp', {
    spot: 'clampAvalanche',
    applies: avalanche,
  }),
  number('soak.output', 'Output voltage, settled', 'V', outputSpread, 0.05, {
    spot: 'output',
    side: 'secondary',
    live: true,
    at: 'output plus',
    reference: 'output minus',
    ways: output.loadedVolts,
    risk: 'Drift with heat is not noticed.',
    low: 'Ceiling falls with heat.',
    high: 'Reference or optocoupler drifts.',
    why: 'reference and divider with heat',
  }),
  state(
    'soak.cycle',
    'Pauses during the soak',
    { none: 'none', slow: 'seconds to minutes long', fast: 'ticks' },
    {
      spot: 'switcher',
      side: 'secondary',
      live: true,
      ways: live.eye,
      risk: 'Thermal shutdown is not noticed.',
      stop: () => ({ below: null, above: null, text: 'Any pause: off, let it cool, find what is hot.' }),
    },
  ),
  ...seenChecks,
]
