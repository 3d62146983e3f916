import { limits, limitsOfLoop, weakestFirst } from '../limits/index.ts'
import type { Limit } from '../limits/limit.ts'
import type { ConditionId } from '../supply/condition.ts'
import type { Evaluation, Running } from '../supply/evaluation.ts'
import type { Readings } from '../supply/reading.ts'
import type { ProvedCorner, SolvedCorner } from './proved-corner.ts'

/** A limit at the depth at which its reading was found. */
export interface ProvedLimit {
  readonly limit: Limit
  readonly depth: 'periodic steady state' | 'closed form'
  /** The same limit in the closed form; null where it did not apply there. */
  readonly closed: Limit | null
}

/** Uncertainty of a solved reading: what is left is how well the parts are known. */
const solvedBand = 0.05

/** The corner that speaks for peaks, for voltages and for heat at each condition. */
interface Witnesses {
  readonly peaks: string | null
  readonly volts: string
  readonly heat: string | null
}

function witnessesOf(id: ConditionId): Witnesses {
  const all = (corner: string): Witnesses => ({ peaks: corner, volts: corner, heat: corner })
  switch (id) {
    case 'minimum-0':
    case 'nominal-0':
    case 'maximum-0':
      // no pulse train repeats at no load; the spike that is left is that of a light one
      return { peaks: null, volts: `${id.slice(0, -2)}-mean-10-typical-warm`, heat: null }
    case 'power-corner':
      return all('minimum-valley-100-power-warm')
    case 'flux-corner':
      return all('minimum-valley-100-flux-warm')
    case 'overload-minimum':
    case 'overload-maximum':
      return all(id)
    case 'short':
      return all('short-maximum')
    case 'minimum-100':
      return { ...all('minimum-mean-100-typical-warm'), peaks: 'minimum-valley-100-typical-warm' }
    case 'maximum-100':
      return { ...all('maximum-mean-100-typical-warm'), volts: 'maximum-crest-100-typical-warm' }
    default: {
      const [input, load] = id.split('-')
      return all(`${input}-mean-${load}-typical-warm`)
    }
  }
}

/** Ratio of solved to closed of one figure; 1 where the closed form has none. */
const ratioOf = (corner: SolvedCorner | undefined, id: string): number =>
  1 + (corner?.comparisons.find((c) => c.id === id)?.difference ?? 0)

/**
 * Flux linkage over that of the closed form. Where the core nears saturation its inductance falls, and the current climbs
 * past the limit in the time that the chip takes to act; the flux does not, as it follows from volts and time.
 */
const fluxRatio = (corner: SolvedCorner | undefined): number =>
  corner ? corner.figures.linkagePeak_Vs / corner.closedLinkage_Vs : 1

/**
 * The evaluation with solved readings: each reading of the closed form is moved by what the solved corner that speaks
 * for it differs from the closed form at that corner. Voltages on the drain move by volts, the rest in proportion;
 * temperatures rise in proportion to their loss. A condition whose full load cannot be held does not run.
 */
export function provedEvaluation(evaluation: Evaluation, solved: readonly ProvedCorner[]): Evaluation {
  const byId = new Map(solved.map((corner) => [corner.corner.id, corner]))
  const good = (id: string | null): SolvedCorner | undefined => {
    const corner = byId.get(id ?? '')
    return corner?.ok ? corner : undefined
  }
  return {
    ...evaluation,
    conditions: evaluation.conditions.map((c) => {
      const witnesses = witnessesOf(c.condition.id)
      if (!c.runs) return c
      const failed = byId.get(witnesses.peaks ?? '')
      if (failed !== undefined && !failed.ok && failed.code === 'target-out-of-reach')
        return {
          condition: c.condition,
          runs: false,
          reason: 'current limit or greatest duty end each pulse before the output is held',
        }
      return {
        ...c,
        readings: moved(c, evaluation.design.need.ambient_C, {
          peaks: good(witnesses.peaks),
          volts: good(witnesses.volts),
          heat: good(witnesses.heat),
          limit: good(c.condition.input === 'maximum' ? 'overload-maximum' : 'overload-minimum'),
        }),
      }
    }),
  }
}

function moved(
  { readings: r, condition }: Running,
  ambient_C: number,
  by: Record<'peaks' | 'volts' | 'heat' | 'limit', SolvedCorner | undefined>,
): Readings {
  const peaks = (id: string) => ratioOf(by.peaks, id)
  const volts = (id: string) => ratioOf(by.volts, id)
  const heat = (id: string) => ratioOf(by.heat, id)
  const drain = by.volts?.comparisons.find((c) => c.id === 'drainPeak_V')
  const heated = (from_C: number, was_W: number, is_W: number) =>
    was_W > 1e-9 ? ambient_C + ((from_C - ambient_C) * is_W) / was_W : from_C
  const channel_W = (r.switchConduction_W + r.switchCapacitive_W) * heat('switchChannel_W')
  const switch_W = channel_W + r.switchTransition_W + r.control_W
  const conduction_W = r.rectifierConduction_W * heat('rectifierConduction_W')
  const rectifier_W = conduction_W + r.rectifierSwitching_W
  const clamp_W = r.clamp_W * heat('clamp_W')
  const clamp_V = r.clamp_V * volts('clamp_V')
  const peak = peaks('primaryPeak_A')
  // only the greatest limit is solved; what the least one yields is not to be had from it
  const ceiling =
    by.limit && condition.corner !== 'power' ? by.limit.figures.output_A / by.limit.closedOutput_A : 1
  const flux = fluxRatio(by.peaks)
  return {
    ...r,
    drainPeak_V: r.drainPeak_V + (drain ? drain.solved - drain.closed : 0),
    duty: r.duty * peaks('duty'),
    onTime_s: r.onTime_s * peaks('duty'),
    primaryPeak_A: r.primaryPeak_A * peak,
    fluxPeak_T: r.fluxPeak_T * flux,
    fluxLimit_T: r.fluxLimit_T * (condition.kind === 'short' ? flux : fluxRatio(by.limit)),
    powerCeiling_W: r.powerCeiling_W * ceiling,
    currentCeiling_A: r.currentCeiling_A * ceiling,
    primary_Arms: r.primary_Arms * heat('primary_Arms'),
    primaryDensity_A_per_m2: r.primaryDensity_A_per_m2 * heat('primary_Arms'),
    secondaryPeak_A: r.secondaryPeak_A * heat('secondaryPeak_A'),
    secondary_Arms: r.secondary_Arms * heat('secondary_Arms'),
    secondaryDensity_A_per_m2: r.secondaryDensity_A_per_m2 * heat('secondary_Arms'),
    switch_W,
    switchJunction_C: heated(r.switchJunction_C, r.switch_W, switch_W),
    clamp_V,
    clamp_W,
    clampDiode_W: r.clampDiode_W * heat('clamp_W'),
    clampCurrent_Aavg: (r.clampCurrent_Aavg * heat('clamp_W')) / heat('clamp_V'),
    clampResistor_C: r.clampResistor_C > 0 ? heated(r.clampResistor_C, r.clamp_W, clamp_W) : 0,
    clampAvalanche_C: r.clampAvalanche_C > 0 ? heated(r.clampAvalanche_C, r.clamp_W, clamp_W) : 0,
    rectifierReversePeak_V: r.rectifierReversePeak_V * volts('rectifierReversePeak_V'),
    rectifierConduction_W: conduction_W,
    rectifier_W,
    rectifierJunction_C: heated(r.rectifierJunction_C, r.rectifier_W, rectifier_W),
    outputCapacitorRipple_Arms: r.outputCapacitorRipple_Arms * heat('outputCapacitorRipple_Arms'),
    outputCapacitorEach_Arms: r.outputCapacitorEach_Arms * heat('outputCapacitorRipple_Arms'),
    firstRipple_Vpp: r.firstRipple_Vpp * heat('firstRipple_Vpp'),
    outputRipple_Vpp: r.outputRipple_Vpp * heat('outputRipple_Vpp'),
    chokeRipple_App: r.chokeRipple_App * heat('chokeRipple_App'),
    secondCapacitorRipple_Arms: r.secondCapacitorRipple_Arms * heat('chokeRipple_App'),
    bias_V: r.bias_V * heat('bias_V'),
  }
}

/** Limits of the solved readings and of the computed loop, weakest first, each beside what the closed form said. */
export function provedLimits(closed: Evaluation, solved: Evaluation): ProvedLimit[] {
  const loop = limitsOfLoop(closed)
  const before = new Map([...limits(closed), ...loop].map((limit) => [limit.id, limit]))
  return weakestFirst([...limits(solved), ...loop]).map((limit) => {
    const was = before.get(limit.id) ?? null
    const same = was !== null && was.reading === limit.reading && was.rating === limit.rating
    return {
      limit: same ? limit : { ...limit, band: Math.min(limit.band, solvedBand) },
      depth: same ? 'closed form' : 'periodic steady state',
      closed: was,
    }
  })
}
