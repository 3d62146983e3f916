import { type ComponentType, lazy, type ReactNode } from 'react'
import type { Limit } from '../../../engine/limits/limit.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import type { BenchView } from '../../state/route.ts'
import { HeatView } from './heat-view.tsx'
import { ReadingsView } from './readings-view.tsx'
import { SchematicView } from './schematic-view.tsx'

/** What every view of the middle is given; each takes what it needs of it. */
export interface BenchViewProps {
  readonly evaluation: Evaluation
  readonly limits: readonly Limit[]
  /** Goes to what is known of a part. */
  readonly pick: (spot: string) => void
  /** The card of the part that was gone to. */
  readonly children: ReactNode
}

const TransformerView = lazy(() =>
  import('../transformer/transformer-view.tsx').then((m) => ({ default: m.TransformerView })),
)
const LoopView = lazy(() => import('../loop/loop-view.tsx').then((m) => ({ default: m.LoopView })))
const WaveformsView = lazy(() =>
  import('../waveforms/waveforms-view.tsx').then((m) => ({ default: m.WaveformsView })),
)
const MainsView = lazy(() => import('../mains/mains-view.tsx').then((m) => ({ default: m.MainsView })))
const FirstLightView = lazy(() =>
  import('../first-light/first-light-view.tsx').then((m) => ({ default: m.FirstLightView })),
)
const SupplyAnswers = lazy(() =>
  import('../answers/supply-answers.tsx').then((m) => ({ default: m.SupplyAnswers })),
)
const PapersView = lazy(() => import('./papers-view.tsx').then((m) => ({ default: m.PapersView })))

/** Views of the middle, in the order of their tabs; the first opens by itself, the heavy ones load when opened. */
const slots: Readonly<Record<BenchView, ComponentType<BenchViewProps>>> = {
  schematic: SchematicView,
  winding: TransformerView,
  loop: LoopView,
  waveforms: WaveformsView,
  readings: ReadingsView,
  heat: HeatView,
  mains: MainsView,
  'first-light': FirstLightView,
  answers: SupplyAnswers,
  papers: PapersView,
}

export const availableViews = Object.keys(slots) as readonly BenchView[]

export const viewOf = (view: BenchView): ComponentType<BenchViewProps> => slots[view]
