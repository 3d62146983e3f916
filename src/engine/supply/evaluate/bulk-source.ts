import type { BulkSource } from '../../mains/bulk.ts'
import type { Condition } from '../condition.ts'
import type { Need } from '../need.ts'

/** What the bulk capacitor is fed from at one end of the input range. */
export function bulkSource(need: Need, input: Condition['input']): BulkSource {
  const s = need.source
  if (s.kind === 'mains')
    return { kind: 'mains', voltage_Vrms: s[`${input}_Vrms`], frequency_Hz: s.frequency_Hz }
  return { kind: 'dc', voltage_V: s[`${input}_V`] }
}
