import { memo, useMemo } from 'react'
import { bode } from '../../../drawing/loop/bode.ts'
import { loopStyle } from '../../../drawing/loop/style.ts'
import type { LoopCurve } from '../../../engine/supply/loop/index.ts'
import type { ProofPoint } from '../../../engine/supply/loop/prove.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { adoptStyle } from '../../controls/style.ts'
import { loopStrings as words } from '../../strings/loop.ts'
import type { LoopAnswer, LoopHere } from './answers.ts'
import { decibels, degrees, hertz } from './words.ts'

/** Where the followed phase passes -180 degrees after the crossover. */
const turnOf = ({ gain_dB, phase_deg }: LoopCurve, frequency_Hz: Float64Array) => {
  for (let k = 1; k < frequency_Hz.length; k++)
    if (phase_deg[k - 1]! > -180 && phase_deg[k]! <= -180 && gain_dB[k]! < 0)
      return { frequency_Hz: frequency_Hz[k]!, gain_dB: gain_dB[k]! }
  return null
}

export const BodeFigure = memo(
  ({
    answer,
    here,
    before,
    points,
  }: {
    answer: LoopAnswer
    here: LoopHere | null
    before: LoopCurve | null
    points: readonly ProofPoint[]
  }) => {
    adoptStyle(loopStyle)
    const node = useMemo(() => {
      const m = here?.corner.margins
      const margin = m?.ok ? words.margin(degrees(m.phaseMargin_deg), hertz(m.crossover_Hz)) : ''
      const turn = here ? turnOf(here.curve, answer.frequency_Hz) : null
      return bode({
        title: m?.ok ? words.plot(degrees(m.phaseMargin_deg), hertz(m.crossover_Hz)) : words.plotPlain,
        frequency_Hz: answer.frequency_Hz,
        line: here?.curve ?? null,
        before,
        band: answer.band,
        marks: m?.ok ? { crossover_Hz: m.crossover_Hz, phaseMargin_deg: m.phaseMargin_deg, turn } : null,
        points,
        words: {
          gain: words.gain,
          phase: words.phase,
          margin,
          gainMargin: turn ? words.gainMargin(decibels(-turn.gain_dB)) : '',
        },
        showFrequency: hertz,
      })
    }, [answer, here, before, points])
    return (
      // biome-ignore lint/a11y/noNoninteractiveTabindex: on a phone the plot is wider than the screen and scrolls by keys too
      <section className="sheet-scroll" tabIndex={0} aria-label={words.plotPlain}>
        <Drawing node={node} />
      </section>
    )
  },
)
