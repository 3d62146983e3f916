import { judgedCore_C } from '../magnetics/material/index.ts'
import { copperResistanceRatio } from '../magnetics/wire/index.ts'
import type { Design } from '../supply/design.ts'
import { type Choke, chokeInductance_H } from '../supply/resolve/choke.ts'
import { pinCurrents } from '../supply/resolve/feedback.ts'
import { leakageDamping_ohm } from '../supply/resolve/leakage-damping.ts'
import { can_H } from '../supply/resolve/secondary-path.ts'
import { type CoreKnee, coreKnees } from './core-curve.ts'
import type { Point } from './point.ts'

/** Capacitance that wiring and load have behind a choke without a capacitor of its own. */
const stray_F = 1e-6
/** Capacitance of winding and track beside that of the bias diode; common practice, no source. */
const biasStray_F = 20e-12
/** Least slope of a diode, so that two in parallel share. */
const leastSlope_ohm = 2e-3
/** One winding as a circuit sees it, at its own side. */
export interface WindingValues {
  readonly turns: number
  readonly resistance_ohm: number
  readonly leakage_H: number
  /**
   * Across the leakage: what skin and proximity loss take out of its ring. At the bias winding it damps the ring
   * with the diode's few picofarads, far above all others, which is then left out.
   */
  readonly damping_ohm: number
}

export interface DiodeValues {
  readonly drop_V: number
  readonly slope_ohm: number
  readonly capacitance_F: number
  /** Time constant of stored charge; 0 for a Schottky. */
  readonly transit_s: number
}

export interface CapacitorValues {
  readonly capacitance_F: number
  readonly resistance_ohm: number
}

/** Every number of the stage at one corner, SI units: the circuit is built from these alone. */
export interface StageParameters {
  readonly title: string
  readonly frequency_Hz: number
  readonly bulk_V: number
  readonly output_V: number
  readonly output_A: number
  readonly primary: WindingValues
  readonly secondary: WindingValues
  readonly bias: WindingValues
  readonly magnetising_H: number
  readonly knees: readonly CoreKnee[]
  /** Across the primary: burns the core loss. */
  readonly core_ohm: number
  readonly switch: { readonly on_ohm: number; readonly capacitance_F: number }
  readonly clamp:
    | { readonly style: 'resistor-capacitor'; readonly resistor_ohm: number; readonly capacitor_F: number }
    | { readonly style: 'avalanche'; readonly breakdown_V: number; readonly slope_ohm: number }
  readonly clampDiode: DiodeValues
  readonly rectifier: DiodeValues
  readonly snubber: { readonly resistor_ohm: number; readonly capacitor_F: number } | null
  readonly output: CapacitorValues & { readonly inductance_H: number }
  readonly choke: {
    readonly inductance_H: number
    readonly knees: readonly CoreKnee[]
    readonly resistance_ohm: number
  } | null
  readonly second: CapacitorValues | null
  readonly biasDiode: DiodeValues
  readonly biasCapacitor: CapacitorValues
  readonly chipSupply_A: number
  readonly chip: ChipValues
  /** Where the cycle is expected to settle; a good start saves solving. */
  readonly expected: {
    readonly duty: number
    readonly peak_A: number
    readonly valley_A: number
    readonly clamp_V: number
    readonly bias_V: number
    /** Pulses a second, below the clock where pulses are skipped. */
    readonly rate_Hz: number
  }
}

export interface ChipValues {
  readonly style: 'voltage-mode' | 'peak-current'
  readonly maximumDuty: number
  readonly limit_A: number
  readonly delay_s: number
  readonly blanking_s: number
  readonly minimumOnTime_s: number
  readonly slope_A_per_s: number
  readonly skipsWhenShorted: boolean
  readonly softStart_s: number
  readonly restartTry_s: number
  readonly restartPause_s: number
  readonly fullPower_A: number
  readonly zeroPower_A: number
  readonly pin_V: number
  readonly pole_Hz: number
  readonly biasMinimum_V: number
}

/**
 * The same stage for runs over many cycles: all leakage at the primary, no inductance of capacitor leads. Drain peak
 * and currents stay within a few per cent; a cycle costs half.
 */
export function lean(p: StageParameters): StageParameters {
  const { primary, secondary } = p
  const ratio = (primary.turns / secondary.turns) ** 2
  const moved_H = secondary.leakage_H * ratio
  return {
    ...p,
    primary: {
      ...primary,
      leakage_H: primary.leakage_H + moved_H,
      damping_ohm: primary.damping_ohm * (1 + moved_H / primary.leakage_H),
    },
    secondary: { ...secondary, leakage_H: 0 },
    output: { ...p.output, inductance_H: 0 },
  }
}

const byTolerance = (
  spread: { readonly minimum: number; readonly typical: number; readonly maximum: number },
  tolerance: Point['corner']['tolerance'],
): number =>
  tolerance === 'typical' ? spread.typical : tolerance === 'power' ? spread.minimum : spread.maximum

/** Inductance of the choke beyond twice, four and ten times its full current, where a short drives it. */
const chokeKnees = (choke: Choke, full_A: number): CoreKnee[] =>
  [2, 4, 10].map((times) => ({
    current_A: times * full_A,
    beyond_H: Math.max(1e-8, chokeInductance_H(choke, 1.5 * times * full_A)),
  }))

/** Stored charge of a p-n diode lasts about as long as its recovery time; a Schottky has none. */
const diode = (part: {
  readonly technology: string
  readonly drop_V: number
  readonly slope_ohm: number
  readonly junctionCapacitance_F: number
  readonly recovery_s: number
}): DiodeValues => ({
  drop_V: part.drop_V,
  slope_ohm: Math.max(leastSlope_ohm, part.slope_ohm),
  capacitance_F: part.junctionCapacitance_F,
  transit_s: part.technology === 'schottky' ? 0 : part.recovery_s,
})

/** The numbers of the stage of a design at a corner; resistances at the temperatures that the closed form finds there. */
export function stageParameters(d: Design, point: Point): StageParameters {
  const { corner, plant: p, operation: o, readings: r } = point
  const { parts, transformer: t, supply } = d
  const { switcher } = parts
  const { losses: l, mean } = o
  const hot = copperResistanceRatio(20, o.transformer_C)
  const f = mean.frequency_Hz
  const L = byTolerance(p.inductance_H, corner.tolerance)
  const leakage_H = corner.tolerance === 'typical' ? p.leakage_H.typical : p.leakage_H.maximum
  const { secondaryShare, biasShare } = p.leakageStar
  const ownLeakage_H = leakage_H * (1 - secondaryShare)
  const secondaryLeakage_H = (leakage_H * secondaryShare) / t.turnsRatio ** 2
  const biasLeakage_H = leakage_H * biasShare * (t.biasTurns / t.primaryTurns) ** 2
  const damping = leakageDamping_ohm(d, f, leakage_H, p.drainCapacitance_F)
  const excess = (loss_W: number, current_Arms: number): number =>
    current_Arms > 0 ? (l.share * loss_W) / current_Arms ** 2 : 0
  const square_V2 = l.share * (mean.duty * (point.bulk_V - 1) ** 2 + mean.secondaryDuty * o.reflected_V ** 2)
  const { control } = switcher
  const pin = pinCurrents(control)
  const second = parts.secondCapacitor
  return {
    title: `${supply.name}: ${corner.label}`,
    frequency_Hz: f,
    bulk_V: point.bulk_V,
    output_V: p.output_V,
    output_A: o.output_A + p.standing_W / p.output_V,
    primary: {
      turns: t.primaryTurns,
      resistance_ohm: t.primaryResistance20_ohm * hot + excess(l.excess.primary_W, l.primary_Arms),
      leakage_H: ownLeakage_H,
      damping_ohm: damping * (1 - secondaryShare),
    },
    secondary: {
      turns: t.secondaryTurns,
      resistance_ohm: t.secondaryResistance20_ohm * hot + excess(l.excess.secondary_W, l.secondary_Arms),
      leakage_H: secondaryLeakage_H,
      damping_ohm: (damping * secondaryShare) / t.turnsRatio ** 2,
    },
    bias: {
      turns: t.biasTurns,
      resistance_ohm: t.biasResistance20_ohm * hot,
      leakage_H: biasLeakage_H,
      damping_ohm:
        Math.sqrt(biasLeakage_H / Math.max(biasStray_F, parts.biasDiode.junctionCapacitance_F)) / 2,
    },
    magnetising_H: L,
    knees: coreKnees(d, judgedCore_C(o.transformer_C), L),
    core_ohm: Math.min(1e7, Math.max(1e3, square_V2 / Math.max(1e-6, l.core_W))),
    switch: { on_ohm: r.onResistance_ohm, capacitance_F: p.drainCapacitance_F },
    clamp:
      p.clampStyle === 'avalanche'
        ? {
            style: 'avalanche',
            breakdown_V: corner.tolerance === 'flux' ? p.avalanche_V.maximum : p.avalanche_V.typical,
            slope_ohm: Math.max(0.05, p.avalancheSlope_ohm),
          }
        : {
            style: 'resistor-capacitor',
            resistor_ohm: p.clampResistor_ohm,
            capacitor_F: p.clampCapacitor_F,
          },
    clampDiode: diode(parts.clampDiode),
    rectifier: diode(parts.rectifier),
    snubber: supply.build.snubber,
    output: {
      capacitance_F: p.outputCapacitance_F,
      resistance_ohm: Math.max(1e-4, p.outputResistance_ohm),
      inductance_H: can_H / p.outputCount,
    },
    choke: d.choke
      ? {
          inductance_H: l.chokeInductance_H,
          knees: chokeKnees(d.choke, p.output_A),
          resistance_ohm: Math.max(1e-4, p.chokeResistance_ohm),
        }
      : null,
    second: d.choke
      ? second
        ? { capacitance_F: p.secondCapacitance_F, resistance_ohm: Math.max(1e-4, p.secondResistance_ohm) }
        : { capacitance_F: stray_F, resistance_ohm: 0.01 }
      : null,
    biasDiode: diode(parts.biasDiode),
    biasCapacitor: {
      capacitance_F: p.biasCapacitance_F,
      resistance_ohm: Math.max(1e-3, parts.biasCapacitor.resistance_ohm),
    },
    chipSupply_A: p.chipSupply_A,
    chip: {
      style: control.style,
      maximumDuty: corner.tolerance === 'power' ? p.maximumDuty.minimum : p.maximumDuty.typical,
      limit_A: byTolerance(p.currentLimit_A, corner.tolerance),
      delay_s: switcher.currentLimitDelay_s,
      blanking_s: switcher.blanking_s,
      minimumOnTime_s: p.minimumOnTime_s,
      slope_A_per_s: control.style === 'peak-current' ? control.slope_A_per_s : 0,
      skipsWhenShorted: p.skipsWhenShorted,
      softStart_s: switcher.softStart_s,
      restartTry_s: switcher.restartTry_s,
      restartPause_s: switcher.restartPause_s,
      fullPower_A: pin.full_A,
      zeroPower_A: pin.zero_A,
      pin_V: control.pinVoltage_V,
      pole_Hz: control.poleFrequency_Hz,
      biasMinimum_V: switcher.biasVoltage_V.minimum,
    },
    expected: {
      duty: mean.duty,
      peak_A: mean.peak_A,
      valley_A: mean.valley_A,
      clamp_V: Math.max(l.clamp_V, 1.02 * o.reflected_V),
      bias_V: Math.max(p.bias_V, r.bias_V),
      rate_Hz: mean.rate_Hz,
    },
  }
}
