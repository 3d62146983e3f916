import { memo, useMemo } from 'react'
import { firstLightStyle } from '../../../drawing/first-light/style.ts'
import { loopStyle } from '../../../drawing/loop/style.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { adoptStyle } from '../../controls/style.ts'
import { mainsStrings as words } from '../../strings/mains.ts'
import { mainsAnswer } from './answers.ts'
import { BarrierPanel, TracksPanel } from './barrier-panel.tsx'
import { BulkPanel, CapacitorPanel } from './bulk-panel.tsx'
import { EmissionPanel, HarmonicPanel } from './emission-panel.tsx'
import './mains.css'
import { InrushPanel, PlugPanel } from './plug-panel.tsx'

/** From the plug to the bulk capacitor, and across the barrier. */
export const MainsView = memo(({ evaluation }: { evaluation: Evaluation }) => {
  adoptStyle(loopStyle)
  adoptStyle(firstLightStyle)
  const answer = useMemo(() => mainsAnswer(evaluation), [evaluation])
  const onMains = evaluation.design.need.source.kind === 'mains'
  return (
    <div className="mains">
      <h2 className="unseen">{words.title}</h2>
      <p className="caution">{words.guide}</p>
      <BulkPanel evaluation={evaluation} answer={answer} />
      <div className="mains-pair">
        <CapacitorPanel evaluation={evaluation} answer={answer} />
        <InrushPanel evaluation={evaluation} answer={answer} />
      </div>
      <PlugPanel evaluation={evaluation} answer={answer} />
      {onMains && (
        <div className="mains-pair">
          <EmissionPanel evaluation={evaluation} />
          <HarmonicPanel answer={answer} />
        </div>
      )}
      <BarrierPanel evaluation={evaluation} />
      <TracksPanel evaluation={evaluation} />
    </div>
  )
})
