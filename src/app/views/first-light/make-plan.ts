import { type Plan, powerUpPlan, type thermometerSpots } from '../../../engine/bench/index.ts'
import { benchOf } from '../../../engine/bench/unit/at-load.ts'
import type { Course } from '../../../engine/bench/unit/course.ts'
import { runThroughLamp } from '../../../engine/bench/unit/lamp-run.ts'
import { warmUp } from '../../../engine/bench/unit/warm-up.ts'
import { lampModel } from '../../../engine/mains/lamp.ts'
import type { Design } from '../../../engine/supply/design.ts'
import { type Evaluation, evaluate, resolve } from '../../../engine/supply/evaluate.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import type { LampCase, LampTrace, PlanAnswer, PlanRequest, WarmCurves } from './messages.ts'

const points = 400

export function evaluated(supply: Supply): Evaluation {
  const design = resolve(supply)
  if (!design.ok) throw new Error(design.problems.map((p) => p.message).join('; '))
  return evaluate(design.value)
}

const thinned = (list: Float64Array): Float64Array =>
  Float64Array.from({ length: points }, (_, k) => list[Math.round((k * (list.length - 1)) / (points - 1))]!)

/** Highest of each stretch, so that a flash between two points is not lost. */
const crests = (list: Float64Array): Float64Array =>
  Float64Array.from({ length: points }, (_, k) => {
    const at = (n: number) => Math.round((n * (list.length - 1)) / (points - 1))
    let most = list[at(k)]!
    for (let i = at(k); i < at(k + 1) && i < list.length; i++) most = Math.max(most, list[i]!)
    return most
  })

const coursesOf = (design: Design, full_W: number): Readonly<Record<LampCase, Course>> => ({
  healthy: { kind: 'regulates', output_V: design.need.output_V },
  restarts: {
    kind: 'hiccup',
    output_V: 0,
    bias_V: design.parts.switcher.biasVoltage_V.minimum,
    clamp_V: design.clamp.voltage_V,
    try_W: full_W,
    biasMotion: 'steady',
  },
  shorted: { kind: 'shorted' },
})

const second_s = 2.5

function tracesOf(design: Design, plan: Plan): Partial<Record<LampCase, LampTrace>> {
  const bench = benchOf(design)
  const lamp = lampModel(plan.lamp.power_W, plan.lamp.voltage_V)
  const idle_W = bench.at('nominal', 0)?.operation.stage_W ?? 0.5
  const full_W = bench.at('nominal', 1)?.operation.stage_W ?? design.need.output_V * design.need.output_A
  const traces: Partial<Record<LampCase, LampTrace>> = {}
  for (const [name, course] of Object.entries(coursesOf(design, full_W)) as [LampCase, Course][]) {
    const run = runThroughLamp(design, course, idle_W, lamp, second_s)
    if (run === null) continue
    traces[name] = {
      time_s: thinned(run.trace.time_s),
      bulk_V: thinned(run.trace.bus_V),
      filament_K: crests(run.trace.filament_K),
    }
  }
  return traces
}

function warmOf(design: Design): WarmCurves | null {
  const full = benchOf(design).at('nominal', 1)
  const warm = full ? warmUp(design, full) : null
  if (warm === null) return null
  const end_s = Math.max(600, 1.25 * warm.settle_s)
  const time_s = Float64Array.from({ length: 121 }, (_, k) => (k * end_s) / 120)
  const curve = (spot: (typeof thermometerSpots)[number]) => time_s.map((t) => warm.at(spot, t))
  return {
    time_s,
    curves: {
      switcher: curve('switcher'),
      rectifier: curve('rectifier'),
      transformer: curve('transformer'),
      clamp: curve('clamp'),
    },
    settle_s: warm.settle_s,
  }
}

/** The plan of a supply, what the lamp shows in time, and how long heat takes to settle. */
export function makePlan({ supply, owned, lamps, smaller }: PlanRequest): PlanAnswer {
  const evaluation = evaluated(supply)
  const plan = powerUpPlan(evaluation, owned, lamps, smaller)
  return { plan, traces: tracesOf(evaluation.design, plan), warm: warmOf(evaluation.design) }
}
