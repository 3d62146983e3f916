import { buildCircuit, transient } from '../circuit/index.ts'
import type { Design } from '../supply/design.ts'
import type { StageCycleFailure, StageCycleRun } from './cycle.ts'
import type { StageParameters } from './parameters.ts'
import { stageProbes } from './probes.ts'
import { regulatedStage } from './regulated.ts'

/** Clock periods of a stretch over which figures are taken, and the most stretches that are waited for. */
const stretch = 128
const mostStretches = 16
/** A stage has settled once its output and bias stay within this part of themselves from one stretch to the next. */
const settledWithin = 1e-3
/**
 * Ripple left to a bias capacitor that settles with the rest, as a part of its voltage. Where its mode falls together
 * with another, which the circuit cannot part, the next is taken.
 */
const biasRipples = [5e-3, 4e-3]

/**
 * A loaded stage under its own feedback where no single pulse repeats: it runs until output and bias have settled, and
 * its figures are those of the last stretch. In discontinuous mode each pulse starts where the ring of the one before
 * happens to stand, and a chip whose shortest pulse gives too much leaves some out: pulses differ, the output hardly
 * does, and by how much only the loop decides. The bias capacitor is made just large enough to smooth, so that its
 * mean settles within the run.
 * Errors: typed; `no-cycle` where the output still wanders when the run ends, `target-out-of-reach` where the chip pauses.
 */
export function settledRun(
  d: Design,
  whole: StageParameters,
  cancelled?: () => boolean,
): StageCycleRun | StageCycleFailure {
  let run: StageCycleRun | StageCycleFailure | undefined
  for (const ripple of biasRipples) {
    run = settledWith(d, whole, ripple, cancelled)
    if (run.ok || run.code !== 'singular') break
  }
  return run!
}

function settledWith(
  d: Design,
  whole: StageParameters,
  biasRipple: number,
  cancelled: (() => boolean) | undefined,
): StageCycleRun | StageCycleFailure {
  // the feedback of a real board is taken behind the ringing that the leads of a capacitor pass on
  const p: StageParameters = { ...whole, output: { ...whole.output, inductance_H: 0 } }
  const { biasCapacitor, expected } = p
  const smooths_F = p.chipSupply_A / (biasRipple * expected.bias_V * p.frequency_Hz)
  const quick: StageParameters = {
    ...p,
    biasCapacitor: { ...biasCapacitor, capacitance_F: Math.min(biasCapacitor.capacitance_F, smooths_F) },
  }
  const built = buildCircuit(
    regulatedStage(d, quick, {
      load: { kind: 'resistor', resistance_ohm: p.output_V / p.output_A },
      from: 'running',
    }),
  )
  if (!built.ok) return { ok: false, code: 'bad-circuit', message: built.problems[0]!.message }
  const { circuit } = built
  const period_s = 1 / p.frequency_Hz
  let before: Followed | undefined
  for (let k = 0; k < mostStretches; k++) {
    const run = transient(circuit, {
      ...(before ? { start: before.final } : {}),
      span_s: stretch * period_s,
      probes: stageProbes(quick),
      windows: [{ name: 'all', from_s: 0, to_s: Number.MAX_VALUE }],
      ...(cancelled ? { cancelled } : {}),
    })
    if (!run.ok) return run
    const statistics = run.windows.all!
    if (before && alike(before.statistics, statistics))
      return {
        ok: true,
        circuit,
        parameters: quick,
        statistics,
        state: before.final,
        knobs: {},
        clocks: 1,
        period_s,
        repeatsAfter: 0,
        multiplier: Number.NaN,
        residual: 1,
      }
    before = { statistics, final: run.final }
  }
  return {
    ok: false,
    code: 'no-cycle',
    message: `no pulse repeats, and after ${mostStretches * stretch} clocks the output still wanders`,
  }
}

type Followed = Pick<StageCycleRun, 'statistics'> & { readonly final: StageCycleRun['state'] }

const alike = (a: StageCycleRun['statistics'], b: StageCycleRun['statistics']): boolean =>
  ['output_V', 'bias_V'].every((name) => {
    const mean = b[name]!.average
    return Math.abs(mean - a[name]!.average) < settledWithin * Math.abs(mean)
  })
