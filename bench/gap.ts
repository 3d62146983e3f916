// Core, gap, saturation and loss: what the closed-form evaluation calls for every condition. Seeded by index, no clock inside.
import { coreGeometry } from '../src/engine/magnetics/core/index.ts'
import {
  coreReluctance,
  gapForFactor,
  gapGeometry,
  gapModel,
  gapPermeance,
  inductanceFactor,
} from '../src/engine/magnetics/gap/index.ts'
import {
  currentAtFall,
  fitSteinmetz,
  fluxAtCurrent,
  kneeAt,
  lossModel,
  saturationCurve,
  triangleLoss,
} from '../src/engine/magnetics/material/index.ts'
import { unknownFerrite } from '../src/engine/magnetics/unknown-core/index.ts'

type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false }
const take = <T>(result: Outcome<T>): T => {
  if (!result.ok) throw new Error('refused')
  return result.value
}

const etd29 = {
  shape: 'ETD',
  dimensions: { A_m: 29.8e-3, B_m: 15.8e-3, C_m: 9.5e-3, D_m: 11e-3, E_m: 22.7e-3, F_m: 9.5e-3 },
} as const
const core = take(coreGeometry(etd29))
const shape = gapGeometry(core)
const post = take(gapModel(shape, 'post'))
const legs = take(gapModel(shape, 'all-legs'))
const R = coreReluctance(core.effective.C1_per_m, 2000)
const curve = take(saturationCurve(unknownFerrite))
const loss = lossModel(take(fitSteinmetz(unknownFerrite.lossPoints)))
const wound = {
  turns: 63,
  area_m2: core.effective.minimumArea_m2,
  length_m: core.effective.length_m,
  gapPermeance_H: gapPermeance(post, 0.3e-3),
  knee: kneeAt(curve, 100),
}

function measure(name: string, limit_ns: number, calls: number, f: (i: number) => number) {
  let sum = 0
  for (let i = 0; i < calls / 5; i++) sum += f(i)
  const start = process.hrtime.bigint()
  for (let i = 0; i < calls; i++) sum += f(i)
  const ns = Number(process.hrtime.bigint() - start) / calls
  if (!Number.isFinite(sum)) throw new Error(`${name} gave no number`)
  console.log(`${name.padEnd(44)} ${ns.toFixed(0).padStart(8)} ns   limit ${limit_ns} ns`)
}

measure('inductance factor, cut in the post', 2000, 1e6, (i) => inductanceFactor(post, R, 3e-4 + i * 1e-11))
measure('inductance factor, spacer', 2000, 1e6, (i) => inductanceFactor(legs, R, 1.5e-4 + i * 1e-11))
measure('gap for an inductance factor', 2000, 1e5, (i) => take(gapForFactor(post, R, 2.3e-7 + i * 1e-13)))
measure('flux at a current', 5000, 1e5, (i) => take(fluxAtCurrent(wound, 0.5 + i * 1e-5)))
measure('current at 20 % fall', 2000, 1e5, (i) => take(currentAtFall(wound, 0.2 + (i % 100) * 1e-4)))
measure('loss of a flux triangle', 2000, 1e6, (i) =>
  triangleLoss(loss, 1e5, 0.15 + (i % 1000) * 1e-5, 4e-6, 5e-6, 80 + (i % 40)),
)
measure('gap model of a core (once a core)', 50000, 1e4, () => take(gapModel(shape, 'post')).reach_m)
measure('geometry of a core (once a core)', 20000, 1e4, () => take(coreGeometry(etd29)).surface_m2)
measure('curve and loss fit (once a ferrite)', 500000, 1e3, () => {
  const fit = take(fitSteinmetz(unknownFerrite.lossPoints))
  return fit.k + take(saturationCurve(unknownFerrite)).curie_C
})
