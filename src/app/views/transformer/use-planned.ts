import { useMemo } from 'react'
import { emptyBench } from '../../../engine/supply/bench-log.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { assessmentOf } from '../../state/assessment.ts'

/** The supply as it was planned, before anything of it was measured; null where it cannot be calculated. */
export const usePlanned = (supply: Supply): Evaluation | null =>
  useMemo(() => {
    const result = assessmentOf({
      ...supply,
      bench: { ...supply.bench, asBuilt: emptyBench().asBuilt },
    })
    return result.ok ? result.value.evaluation : null
  }, [supply])
