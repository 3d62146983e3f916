import { formatQuantity, type Unit } from '../quantity/index.ts'
import type { Readings } from '../supply/reading.ts'
import type { CycleFigures } from './figures.ts'
import type { StageParameters } from './parameters.ts'
import type { Point } from './point.ts'

/** One figure of the closed form beside the solved one. */
export interface Comparison {
  readonly id: keyof CycleFigures
  readonly label: string
  readonly unit: string
  readonly closed: number
  readonly solved: number
  /** Solved over closed, less one. */
  readonly difference: number
  /** Why they differ, where they do by more than 5 %. */
  readonly why: string | null
}

const worthExplaining = 0.05

/** What happens in the cycle, for the explanations. */
interface Facts {
  readonly p: StageParameters
  readonly closed: Readings
  readonly solved: CycleFigures
  readonly leakage_H: number
  /** Time that the leakage takes to hand the current over to the secondary. */
  readonly handover_s: number
  /** Capacitance of rectifier and snubber as the primary sees it. */
  readonly rectifierAtPrimary_F: number
  /** Part of the current that flows through the leakage before the rectifier conducts, as both capacitances rise. */
  readonly handedEarly: number
  readonly continuous: boolean
}

const show = (value: number, unit: Unit): string => formatQuantity(value, unit)

function factsOf(point: Point, p: StageParameters, solved: CycleFigures): Facts {
  const closed = point.readings
  const ratio = (p.primary.turns / p.secondary.turns) ** 2
  const leakage_H = p.primary.leakage_H + p.secondary.leakage_H * ratio
  const peak = solved.primaryPeak_A
  const over_V = Math.max(5, solved.clamp_V - closed.reflectedVoltage_V)
  const rectifierAtPrimary_F = (p.rectifier.capacitance_F + (p.snubber?.capacitor_F ?? 0)) / ratio
  return {
    p,
    closed,
    solved,
    leakage_H,
    handover_s: (leakage_H * peak) / over_V,
    rectifierAtPrimary_F,
    handedEarly: rectifierAtPrimary_F / (rectifierAtPrimary_F + p.switch.capacitance_F),
    continuous: closed.mode === 2,
  }
}

const percent = (share: number): string => `${Math.round(100 * share)} %`

interface Row {
  readonly id: keyof CycleFigures
  readonly label: string
  readonly unit: string
  readonly closed: (r: Readings) => number
  readonly why: (f: Facts) => string
}

const clampWhy = (f: Facts): string =>
  `While the drain rises, the rectifier's side (${show(f.rectifierAtPrimary_F, 'F')} beside the drain's ${show(f.p.switch.capacitance_F, 'F')}) takes its share of the current past the leakage, ${percent(f.handedEarly)} once the ring of the two has died. The closed form follows that ring without the losses of the coil, from its own peak current of ${show(f.closed.primaryPeak_A, 'A')}; here that is ${show(f.solved.primaryPeak_A, 'A')}.`

const ringWhy = (f: Facts): string =>
  f.continuous
    ? `The leakage takes ${show(f.handover_s, 's')} to hand the current over; meanwhile the primary still carries it.`
    : `Between cycles the inductance rings with the drain capacitance, and where that ring stands at turn-on shifts the pulse: the magnetising current was down to ${show(f.solved.magnetisingValley_A, 'A')}.`

const secondaryWhy = (f: Facts): string =>
  `The leakage takes ${show(f.handover_s, 's')} to hand the current over, so the secondary starts later and lower than the turns alone say.`

const rows: readonly Row[] = [
  {
    id: 'drainPeak_V',
    label: 'Drain peak',
    unit: 'V',
    closed: (r) => r.drainPeak_V,
    why: (f) =>
      `The closed form adds 12 V of overshoot to a clamp of ${show(f.closed.clamp_V, 'V')}; solved, the clamp stands at ${show(f.solved.clamp_V, 'V')}. ${clampWhy(f)}`,
  },
  { id: 'duty', label: 'Duty', unit: '', closed: (r) => r.duty, why: ringWhy },
  {
    id: 'primaryPeak_A',
    label: 'Primary peak current',
    unit: 'A',
    closed: (r) => r.primaryPeak_A,
    why: ringWhy,
  },
  {
    id: 'primary_Arms',
    label: 'Primary rms current',
    unit: 'A',
    closed: (r) => r.primary_Arms,
    why: (f) => `${ringWhy(f)} The current that swings the drain counts as well.`,
  },
  {
    id: 'secondaryPeak_A',
    label: 'Secondary peak current',
    unit: 'A',
    closed: (r) => r.secondaryPeak_A,
    why: (f) =>
      f.solved.secondaryPeak_A > f.closed.secondaryPeak_A
        ? 'As the rectifier takes over, leakage and the capacitances around it ring the current above its plain start.'
        : secondaryWhy(f),
  },
  {
    id: 'secondary_Arms',
    label: 'Secondary rms current',
    unit: 'A',
    closed: (r) => r.secondary_Arms,
    why: secondaryWhy,
  },
  { id: 'clamp_V', label: 'Clamp above bulk', unit: 'V', closed: (r) => r.clamp_V, why: clampWhy },
  { id: 'clamp_W', label: 'Clamp power', unit: 'W', closed: (r) => r.clamp_W, why: clampWhy },
  {
    id: 'rectifierReversePeak_V',
    label: 'Rectifier reverse peak',
    unit: 'V',
    closed: (r) => r.rectifierReversePeak_V,
    why: (f) =>
      !f.continuous && f.solved.rectifierReversePeak_V < f.closed.rectifierReversePeak_V
        ? `Between cycles the drain rings, and the rectifier already blocks part of the voltage when the switch turns on: the step that rings is the smaller for it. Where in that ring the next pulse falls moves with every tolerance, so the closed form takes the worst place, a step from nothing.`
        : `The closed form takes one ring with the losses of the typical winding, started from rest; here leakage and the rectifier's ${show(f.p.rectifier.capacitance_F, 'F')} ring to ${(f.solved.rectifierReversePeak_V / f.closed.rectifierReverse_V).toFixed(2)} times the plain ${show(f.closed.rectifierReverse_V, 'V')}${f.p.snubber ? ', with the snubber' : ''}.`,
  },
  {
    id: 'rectifierConduction_W',
    label: 'Rectifier loss',
    unit: 'W',
    closed: (r) => r.rectifierConduction_W,
    why: secondaryWhy,
  },
  {
    id: 'outputCapacitorRipple_Arms',
    label: 'Output capacitor ripple current',
    unit: 'A',
    closed: (r) => r.outputCapacitorRipple_Arms,
    why: secondaryWhy,
  },
  {
    id: 'firstRipple_Vpp',
    label: 'Ripple at the first capacitor',
    unit: 'V',
    closed: (r) => r.firstRipple_Vpp,
    why: (f) =>
      f.solved.firstRipple_Vpp > 1.2 * f.closed.firstRipple_Vpp && f.p.snubber === null
        ? `At turn-on leakage and the rectifier's ${show(f.p.rectifier.capacitance_F, 'F')} ring, and that current passes the series resistance of the capacitors too: a burst of some ten megahertz that a scope limited to 20 MHz shows in part.`
        : `The step across the series resistance is ${show(f.solved.secondaryPeak_A * f.p.output.resistance_ohm, 'V')} with the secondary's real start, and its corner and the sag of the capacitor do not fall on the same instant.`,
  },
  {
    id: 'outputRipple_Vpp',
    label: 'Ripple at the load',
    unit: 'V',
    closed: (r) => r.outputRipple_Vpp,
    why: (f) =>
      f.p.choke
        ? 'The closed form passes the whole ripple through choke and second capacitor as a sine at the switching frequency; its harmonics are held back far better, its ramp a little less.'
        : 'Without a choke it is the ripple of the first capacitor.',
  },
  {
    id: 'chokeRipple_App',
    label: 'Choke ripple current',
    unit: 'A',
    closed: (r) => r.chokeRipple_App,
    why: () => 'The closed form takes the ripple voltage as a sine; it is a step and a ramp.',
  },
  {
    id: 'bias_V',
    label: 'Bias voltage',
    unit: 'V',
    closed: (r) => r.bias_V,
    why: (f) =>
      f.solved.bias_V > f.closed.bias_V
        ? 'The leakage spike charges the bias capacitor above the ratio of turns, here by more than the closed form finds: the drain overshoots its clamp and rings on.'
        : 'The closed form charges the bias capacitor by the whole spike; here its own current and the resistance of its winding hold it back.',
  },
  {
    id: 'switchChannel_W',
    label: 'Switch, conduction and capacitance',
    unit: 'W',
    closed: (r) => r.switchConduction_W + r.switchCapacitive_W,
    why: (f) =>
      `The drain capacitance is discharged from the voltage at which the drain stands at turn-on: in the ring of discontinuous mode that may be anywhere between ${show(Math.max(0, f.p.bulk_V - f.closed.reflectedVoltage_V), 'V')} and ${show(f.p.bulk_V + f.closed.reflectedVoltage_V, 'V')}.`,
  },
  {
    id: 'stage_W',
    label: 'Power drawn from the bulk',
    unit: 'W',
    closed: (r) => r.primaryAverage_A * r.bulkMean_V - r.switchTransition_W,
    why: () =>
      'The sum of the differences above. The edges of the switch, which the circuit makes in no time, are left out on both sides.',
  },
]

/** Figures that the closed form of a short gives within a try; its powers are means over tries and pauses. */
const withinTry: ReadonlySet<keyof CycleFigures> = new Set([
  'drainPeak_V',
  'primaryPeak_A',
  'secondaryPeak_A',
  'clamp_V',
  'rectifierReversePeak_V',
])

/** Every figure of the closed form beside the solved one; readings that are zero in the closed form are left out. */
export function compare(point: Point, p: StageParameters, solved: CycleFigures): Comparison[] {
  const facts = factsOf(point, p, solved)
  const shorted = point.corner.kind === 'short'
  return rows.flatMap(({ id, label, unit, closed, why }) => {
    if (shorted && !withinTry.has(id)) return []
    const wanted = closed(point.readings)
    const got = solved[id]
    if (!(Math.abs(wanted) > 1e-12)) return []
    const difference = got / wanted - 1
    return [
      {
        id,
        label,
        unit,
        closed: wanted,
        solved: got,
        difference,
        why: Math.abs(difference) > worthExplaining ? why(facts) : null,
      },
    ]
  })
}
