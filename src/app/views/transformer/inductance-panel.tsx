import { memo, useMemo } from 'react'
import { type ChartMark, chart } from '../../../drawing/field/chart.ts'
import { inductanceAtCurrent } from '../../../engine/magnetics/material/index.ts'
import { at, type Evaluation, greatest } from '../../../engine/supply/evaluation.ts'
import {
  inductanceAgainstCurrent,
  inductanceAgainstGap,
  readTransformer,
  woundCoreAt,
} from '../../../engine/supply/transformer/index.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { show, showPercent } from '../../fields/show.ts'
import { transformerStrings } from '../../strings/transformer.ts'

const words = transformerStrings.inductance

const millimetres = (value_m: number): string => String(Number((value_m * 1e3).toPrecision(3)))
const amps = (value_A: number): string => String(Number(value_A.toPrecision(3)))
const henries = (value: number): string => (value === 0 ? '0' : show(value, 'H', 3))

const gapChart = ({ design }: Evaluation) => {
  const t = design.transformer
  const curve = inductanceAgainstGap(design)
  const found = readTransformer(design)
  const marks: ChartMark[] = [
    { x: t.gap_m, y: t.plannedInductance_H.typical, words: words.planned, kind: 'now' },
  ]
  if (Math.abs(t.aimedInductance_H / t.plannedInductance_H.typical - 1) > 0.01 && t.aimedGap_m > 0)
    marks.push({ x: t.aimedGap_m, y: t.aimedInductance_H, words: words.aimed, kind: 'best' })
  if (t.measured.primaryInductance && found.trueGap_m !== null)
    marks.push({
      x: Math.max(curve.x[0]!, found.trueGap_m.typical),
      y: t.primaryInductance_H.typical,
      words: words.measured,
      kind: 'measured',
    })
  const all = [...curve.minimum_H, ...curve.maximum_H, t.primaryInductance_H.typical].filter((L) => L > 0)
  return chart({
    title: words.gapTitle,
    x: {
      from: curve.x[0]!,
      to: curve.x.at(-1)!,
      log: true,
      name: words.gapAxis[t.gapPlace],
      show: millimetres,
    },
    y: { from: Math.min(...all), to: Math.max(...all), log: true, name: words.axis, show: henries },
    band: { x: curve.x, low: curve.minimum_H, high: curve.maximum_H },
    curves: [{ name: words.typical, x: curve.x, y: curve.typical_H, kind: 'main' }],
    marks,
  })
}

const currentFacts = (evaluation: Evaluation) => {
  const { design } = evaluation
  const { currentLimit_A } = design.parts.switcher
  const limit_A = Math.max(
    currentLimit_A.maximum,
    greatest(evaluation, 'limitPeak_A')?.readings.limitPeak_A ?? 0,
  )
  const hot_C = Math.max(100, greatest(evaluation, 'transformer_C')?.readings.transformer_C ?? 100)
  const hotCore = woundCoreAt(design, hot_C)
  const atLimit = inductanceAtCurrent(hotCore, limit_A)
  const atNone = inductanceAtCurrent(hotCore, 0)
  return {
    limit_A,
    hot_C,
    least_A: currentLimit_A.minimum,
    peak_A: at(evaluation, 'minimum-100')?.readings.primaryPeak_A ?? null,
    left_H: atLimit.ok ? atLimit.value : null,
    kept: atLimit.ok && atNone.ok ? atLimit.value / atNone.value : null,
  }
}

const currentChart = (evaluation: Evaluation, facts: ReturnType<typeof currentFacts>) => {
  const { design } = evaluation
  const most_A = facts.limit_A * 1.7
  const cold = inductanceAgainstCurrent(design, 25, most_A)
  const hot = inductanceAgainstCurrent(design, facts.hot_C, most_A)
  const top = Math.max(...cold.inductance_H, ...hot.inductance_H)
  const marks: ChartMark[] = [
    { x: facts.least_A, y: null, words: words.limitLow, kind: 'now' },
    { x: facts.limit_A, y: facts.left_H, words: words.limit, kind: 'limit' },
  ]
  if (facts.peak_A !== null) marks.push({ x: facts.peak_A, y: null, words: words.peak, kind: 'best' })
  return chart({
    title: words.currentTitle,
    x: { from: 0, to: most_A, log: false, name: words.currentAxis, show: amps },
    y: { from: 0, to: top * 1.05, log: false, name: words.axis, show: henries },
    curves: [
      { name: words.cold, x: cold.x, y: cold.inductance_H, kind: 'main' },
      { name: words.hot(show(facts.hot_C, '°C')), x: hot.x, y: hot.inductance_H, kind: 'second' },
    ],
    marks,
  })
}

/** Share of the inductance below which the current is said to curl up. */
const bent = 0.8

/** Inductance against gap and against current, with what is planned, measured and at the limit. */
export const InductancePanel = memo(({ evaluation }: { evaluation: Evaluation }) => {
  const facts = useMemo(() => currentFacts(evaluation), [evaluation])
  const gap = useMemo(() => gapChart(evaluation), [evaluation])
  const current = useMemo(() => currentChart(evaluation, facts), [evaluation, facts])
  return (
    <div className="charts">
      <figure>
        <h3>{words.gapTitle}</h3>
        <Drawing node={gap} />
        <figcaption>{words.band}</figcaption>
      </figure>
      <figure>
        <h3>{words.currentTitle}</h3>
        <Drawing node={current} />
        <figcaption>
          {facts.kept !== null && facts.left_H !== null && (
            <>
              {words.kept(showPercent(facts.kept), show(facts.left_H, 'H'))}{' '}
              {facts.kept < bent && <b>{words.bends}</b>}{' '}
            </>
          )}
          {evaluation.design.ferrite.curve.kneeAssumed && words.assumed}
        </figcaption>
      </figure>
    </div>
  )
})
