import { useMemo } from 'react'
import { asPlanned } from '../../../engine/supply/as-planned.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { assessmentOf } from '../../state/assessment.ts'

/** The supply as it was planned, before anything of it was measured; null where it cannot be calculated. */
export const usePlanned = (supply: Supply): Evaluation | null =>
  useMemo(() => {
    const result = assessmentOf(asPlanned(supply))
    return result.ok ? result.value.evaluation : null
  }, [supply])
