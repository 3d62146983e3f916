import { coreReluctance, gapForInductance } from '../magnetics/gap/index.ts'
import { judgeGap, readWinding } from '../magnetics/unknown-core/index.ts'
import { formatQuantity, type Spread, withTolerance } from '../quantity/index.ts'
import type { AsBuilt, Measured } from '../supply/bench-log.ts'
import type { Design } from '../supply/design.ts'
import { at, type Evaluation, evaluate, greatest } from '../supply/evaluate.ts'
import { pulsedFerrite } from '../supply/resolve/pulsed-ferrite.ts'
import type { Finding, Fix } from './gate/finding.ts'
import { readInsulation } from './gate/insulation-test.ts'
import { readPulse } from './gate/saturation-pulse.ts'
import { readRatios } from './gate/volts-ratio.ts'

/** What the measured transformer does to the numbers that kill or starve. */
export interface GateNumbers {
  readonly fluxAtLimit_T: number
  readonly saturation_T: number
  /** Most output at the lowest input, of typical parts. */
  readonly ceiling_W: number
  /** The same with every tolerance against it: what the limit on power is read at. */
  readonly leastCeiling_W: number
  readonly wanted_W: number
  /** Greatest at full load. */
  readonly clamp_W: number
  readonly plannedClamp_W: number
  readonly drainPeak_V: number
  readonly drainRating_V: number
}

export interface Gate {
  readonly verdict: 'accept' | 'adjust' | 'reject' | 'nothing measured'
  readonly reasons: readonly string[]
  readonly fixes: readonly Fix[]
  /** What pulse, volts ratios and insulation test say, also where all is well; the bad ones are among the reasons. */
  readonly findings: readonly Finding[]
  readonly numbers: GateNumbers
  /** The design with the measured values in it, for everything downstream. */
  readonly evaluation: Evaluation
}

const usualAccuracy = 0.05
/** Drain peak over rating beyond which the clamp is looked at; common practice, no source. */
const drainUse = 0.95
/** Leakage over inductance beyond which rewinding is advised; common practice, no source. */
const leakageRedo = 0.05

const efforts = ['minutes', 'change the gap', 'change a part', 'rewind', 'new core'] as const

const spreadOf = (m: Measured | null): Spread | null =>
  m === null || m.value <= 0 ? null : withTolerance(m.value, m.accuracy ?? usualAccuracy)

/** A design with measured transformer values in the place of planned ones; turns, gap, clamp and parts as built. */
function asMeasured(d: Design, b: AsBuilt): Design {
  const t = d.transformer
  const primaryInductance_H = spreadOf(b.primaryInductance_H) ?? t.primaryInductance_H
  const pulsed = {
    turns: t.primaryTurns,
    area_m2: d.core.geometry.effective.minimumArea_m2,
    inductance_H: primaryInductance_H.typical,
  }
  return {
    ...d,
    ferrite: pulsedFerrite(d.ferrite, pulsed, b.saturationCurrent_A),
    transformer: {
      ...t,
      primaryInductance_H,
      leakage_H: spreadOf(b.leakage_H) ?? t.leakage_H,
      primaryResistance20_ohm: b.primaryResistance_ohm?.value ?? t.primaryResistance20_ohm,
      secondaryResistance20_ohm: b.secondaryResistance_ohm?.value ?? t.secondaryResistance20_ohm,
      biasResistance20_ohm: b.biasResistance_ohm?.value ?? t.biasResistance20_ohm,
    },
  }
}

/**
 * Accept, adjust or reject a finished transformer before it is soldered in: the supply is read again with the measured
 * values and nothing else changed, flux at the greatest current limit and the drain at highest input against what they
 * may be, the power ceiling at lowest input against what is wanted.
 */
export function transformerGate(planned: Evaluation, b: AsBuilt): Gate {
  const d = asMeasured(planned.design, b)
  const evaluation = evaluate(d)
  const t = d.transformer
  const reasons: string[] = []
  const fixes: Fix[] = []
  let rank = 0
  const note = (level: 1 | 2, reason: string, ...remedies: Fix[]): void => {
    rank = Math.max(rank, level)
    reasons.push(reason)
    for (const f of remedies) if (!fixes.some((known) => known.what === f.what)) fixes.push(f)
  }
  const numbers = numbersOf(planned, evaluation)
  readSense(b, note)
  const ceilingTold = readGap(d, b, numbers, note)
  readWindings(d, b, note)
  const findings = findingsOf(planned, evaluation, b, numbers, reasons)
  for (const { level, message, fixes: remedies } of findings)
    if (level !== 0) note(level, message, ...remedies)

  if (b.leakage_H && b.primaryInductance_H) {
    const part = b.leakage_H.value / b.primaryInductance_H.value
    if (part > leakageRedo && part < 0.5)
      note(
        1,
        `leakage is ${(100 * part).toPrecision(2)} % of the inductance; 1 to 3 % is good`,
        {
          effort: 'minutes',
          what: 'read again with the secondary shorted at its pins by less than 1 cm of wire, bias open',
        },
        { effort: 'rewind', what: 'split the primary and spread the secondary over the whole width' },
      )
  }
  if (b.leakage_H && numbers.drainPeak_V > drainUse * numbers.drainRating_V)
    note(
      1,
      `with this leakage and the clamp as planned the drain peaks at ${formatQuantity(numbers.drainPeak_V, 'V')} of ${formatQuantity(numbers.drainRating_V, 'V')}${numbers.drainPeak_V > numbers.drainRating_V ? ': do not power with that clamp' : ''}`,
      {
        effort: 'change a part',
        what: `lower clamp resistor; its loss at full load is then above ${formatQuantity(numbers.clamp_W, 'W', 2)}`,
      },
      { effort: 'rewind', what: 'split the primary and spread the secondary over the whole width' },
    )
  else if (b.leakage_H && numbers.clamp_W > 1.5 * numbers.plannedClamp_W)
    note(
      1,
      `the clamp burns ${formatQuantity(numbers.clamp_W, 'W', 2)} at full load where ${formatQuantity(numbers.plannedClamp_W, 'W', 2)} is planned`,
      { effort: 'change a part', what: 'clamp resistor of twice that power, of several in series' },
      { effort: 'rewind', what: 'split the primary' },
    )
  if (rank < 2 && givesOut(numbers) && (b.primaryInductance_H || b.leakage_H))
    note(1, ceilingTold ? 'so it regulates light and gives out loaded' : ceilingText(numbers), {
      effort: 'minutes',
      what: `rate it for ${formatQuantity(0.95 * numbers.leastCeiling_W, 'W', 2)}, or for a higher lowest input`,
    })
  const measured = Object.values(b).some((m) => m != null)
  if (!measured) reasons.push('nothing has been measured yet')
  else if (rank === 0)
    reasons.push(
      `${b.primaryInductance_H ? '' : 'as far as it was read, with the inductance of the plan: '}flux at the greatest current limit ${Math.round(1000 * numbers.fluxAtLimit_T)} mT of ${Math.round(1000 * numbers.saturation_T)} mT, ${ceilingText(numbers)}, drain ${formatQuantity(numbers.drainPeak_V, 'V')} of ${formatQuantity(numbers.drainRating_V, 'V')}`,
    )
  return {
    verdict: !measured ? 'nothing measured' : rank === 0 ? 'accept' : rank === 1 ? 'adjust' : 'reject',
    reasons,
    fixes: fixes.sort((a, c) => efforts.indexOf(a.effort) - efforts.indexOf(c.effort)),
    findings,
    numbers,
    evaluation: { ...evaluation, design: { ...d, transformer: t } },
  }
}

const givesOut = (n: GateNumbers): boolean => n.leastCeiling_W < n.wanted_W

const ceilingText = ({ ceiling_W, leastCeiling_W, wanted_W }: GateNumbers): string =>
  `the ceiling at lowest input is about ${formatQuantity(ceiling_W, 'W', 2)}, ${formatQuantity(leastCeiling_W, 'W', 2)} with every tolerance against it, of ${formatQuantity(wanted_W, 'W')} wanted`

/** What pulse, volts and insulation say; `said` is what the inductances have said before. */
function findingsOf(
  planned: Evaluation,
  now: Evaluation,
  b: AsBuilt,
  numbers: GateNumbers,
  said: readonly string[],
): Finding[] {
  const pulse = readPulse(now.design, b, {
    limit_A: greatest(now, 'fluxLimit_T')?.readings.limitPeak_A ?? 0,
    hot_T: greatest(planned, 'fluxLimit_T')?.readings.saturation_T ?? 0,
    saturates: numbers.fluxAtLimit_T > numbers.saturation_T,
    told: said.some((reason) => reason.includes('do not power')),
  })
  return [
    ...(pulse ? [pulse] : []),
    ...readRatios(now.design, b),
    ...(b.insulation_ohm ? [readInsulation(b.insulation_ohm)] : []),
  ]
}

type Note = (level: 1 | 2, reason: string, ...remedies: Fix[]) => void

function readSense(b: AsBuilt, note: Note): void {
  const { aidingInductance_H: aiding, opposingInductance_H: opposing } = b
  if (aiding && opposing && aiding.value < opposing.value)
    note(
      2,
      'aiding reads less than opposing: a winding is reversed, or the pair was joined the other way round',
      {
        effort: 'minutes',
        what: 'check which ends were joined; then swap the two ends of one winding at its pins',
      },
    )
}

/** Reads the gap off the inductance; true where it told the ceiling. */
function readGap(d: Design, b: AsBuilt, n: GateNumbers, note: Note): boolean {
  const m = b.primaryInductance_H
  if (m === null || m.value <= 0) return false
  const t = d.transformer
  const model = d.core.gap[t.gapPlace]
  const core_per_H = coreReluctance(
    d.core.geometry.effective.C1_per_m,
    d.parts.material.initialPermeability.typical,
  )
  const plan = { inductance_H: t.plannedInductance_H.typical, gap_m: t.gap_m }
  const saturates = n.fluxAtLimit_T > n.saturation_T
  const aimed = gapForInductance(model, core_per_H, t.primaryTurns, t.plannedInductance_H.typical)
  const regap: Fix = {
    effort: 'change the gap',
    what: aimed.ok
      ? `${formatQuantity(aimed.value, 'm')} ${t.gapPlace === 'post' ? 'in the post' : 'under every leg'}; the inductance decides, ${formatQuantity(t.plannedInductance_H.typical, 'H')}`
      : `set for ${formatQuantity(t.plannedInductance_H.typical, 'H')}`,
  }
  const seat: Fix = { effort: 'minutes', what: 'clean and seat the halves, press them and read again' }
  const collapsed = m.value < 0.3 * t.plannedInductance_H.typical
  if (collapsed) {
    note(
      2,
      `inductance is ${formatQuantity(m.value, 'H')}, less than a third of plan: a shorted turn, a wrong core or a lost part of the winding`,
      seat,
      {
        effort: 'rewind',
        what: 'look for a shorted turn or a closed foil, else rewind',
      },
    )
    return false
  }
  const verdict = judgeGap(model, core_per_H, t.primaryTurns, plan, m.value, m.accuracy ?? usualAccuracy)
  const words = verdict.ok
    ? verdict.value.message
    : `inductance is ${formatQuantity(m.value, 'H')} where ${formatQuantity(plan.inductance_H, 'H')} is planned`
  const right = verdict.ok && verdict.value.code === 'right'
  const forbidden = verdict.ok && verdict.value.doNotPower
  if (saturates)
    note(
      2,
      `${words}; at the greatest current limit the core sees ${Math.round(1000 * n.fluxAtLimit_T)} mT where it saturates at ${Math.round(1000 * n.saturation_T)} mT${forbidden ? '' : ': do not power'}`,
      seat,
      // Where the gap is right and a pulse says that the core bends early, the same gap again mends nothing.
      ...(right && b.saturationCurrent_A ? [] : [regap]),
    )
  else if (forbidden) note(2, words, seat, regap)
  else if (!right) {
    const large = m.value < plan.inductance_H
    const flux = `at the greatest current limit the core sees ${Math.round(1000 * n.fluxAtLimit_T)} mT of the ${Math.round(1000 * n.saturation_T)} mT at which it saturates`
    note(1, `${words}; ${large ? ceilingText(n) : flux}`, seat, regap)
    return large
  }
  return false
}

function readWindings(d: Design, b: AsBuilt, note: Note): void {
  const t = d.transformer
  const L = b.primaryInductance_H?.value
  if (L === undefined || L <= 0) return
  const winding = readWinding({
    primaryTurns: t.primaryTurns,
    secondaryTurns: t.secondaryTurns,
    primary_H: L,
    ...(b.secondaryInductance_H ? { secondary_H: b.secondaryInductance_H.value } : {}),
    ...(b.leakage_H ? { shorted_H: b.leakage_H.value } : {}),
    accuracy: { inductance: b.primaryInductance_H?.accuracy ?? usualAccuracy, resistance: 0.05 },
  })
  if (!winding.ok) {
    note(2, winding.problems[0]?.message ?? 'the readings contradict each other', {
      effort: 'minutes',
      what: 'read both again with one meter at one frequency',
    })
    return
  }
  for (const flag of winding.value.flags) {
    if (flag.code === 'not-shorted' || flag.code === 'turns-ratio')
      note(
        2,
        flag.message,
        { effort: 'minutes', what: 'read again' },
        { effort: 'rewind', what: 'wind the secondary again with the tally' },
      )
  }
}

function numbersOf(planned: Evaluation, now: Evaluation): GateNumbers {
  const { need, parts } = now.design
  const flux = greatest(now, 'fluxLimit_T')
  const ceiling = at(now, 'minimum-100')
  const clamp = (e: Evaluation): number =>
    Math.max(
      0,
      ...e.conditions.flatMap((c) => (c.runs && c.condition.load === 1 ? [c.readings.clamp_W] : [])),
    )
  return {
    fluxAtLimit_T: flux?.readings.fluxLimit_T ?? 0,
    saturation_T: flux?.readings.saturation_T ?? 0,
    ceiling_W: ceiling?.readings.powerCeiling_W ?? 0,
    leastCeiling_W: at(now, 'power-corner')?.readings.powerCeiling_W ?? 0,
    wanted_W: need.output_V * need.output_A,
    clamp_W: clamp(now),
    plannedClamp_W: clamp(planned),
    drainPeak_V: greatest(now, 'drainPeak_V')?.readings.drainPeak_V ?? 0,
    drainRating_V: parts.switcher.drainVoltage_V,
  }
}
