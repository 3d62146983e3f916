import { formatQuantity } from '../../quantity/index.ts'
import type { InsulationReading } from '../../supply/bench-log.ts'
import {
  dryInsulation_ohm,
  insulationTest_V,
  leastInsulation_ohm,
} from '../../supply/transformer/insulation-band.ts'
import type { Finding, Fix } from './finding.ts'

/** A tester that gives less than this finds gross faults only. Common practice, no source. */
const leastTest_V = 250

const again: Fix = {
  effort: 'minutes',
  what: 'discharge, wipe flux and fingerprints off pins and former, dry it warm for some hours, read again after a minute',
}
const open: Fix = {
  effort: 'rewind',
  what: 'open it: look for a lost margin, a crossing without sleeve, a nicked wire, core against wire; wind it again with new wire and tape',
}

const bound = 'it certifies nothing, and withstand is another test: local codes have the last word'

/**
 * What the insulation resistance between primary with bias and core, and secondary, says. Bands by common practice, no
 * source: 100 MΩ at least, above 1 GΩ where dry and clean, at 500 V dc.
 */
export function readInsulation({ value, test_V }: InsulationReading): Finding {
  const finding = (level: Finding['level'], message: string, ...fixes: Fix[]): Finding => ({
    field: 'insulation_ohm',
    level,
    message,
    fixes,
  })
  const shown = `${formatQuantity(value, 'ohm')} between the sides${test_V === null ? '' : ` at ${formatQuantity(test_V, 'V')} dc`}`
  if (value < leastInsulation_ohm)
    return finding(
      2,
      `${shown}, below ${formatQuantity(leastInsulation_ohm, 'ohm')}: the barrier is weak, do not fit this transformer`,
      again,
      open,
    )
  if (test_V === null || test_V < leastTest_V)
    return finding(
      1,
      `${shown}: ${test_V === null ? 'the test voltage is not noted, and' : ''} a test below ${leastTest_V} V finds gross faults only`.replace(
        /: {2}/,
        ': ',
      ),
      {
        effort: 'minutes',
        what: `read again at ${insulationTest_V} V dc for a minute, and discharge after it`,
      },
    )
  if (value < dryInsulation_ohm)
    return finding(
      1,
      `${shown}: above ${formatQuantity(leastInsulation_ohm, 'ohm')}, but a dry, clean winding usually reads over ${formatQuantity(dryInsulation_ohm, 'ohm')}`,
      again,
    )
  const gentle = test_V < insulationTest_V ? `; ${insulationTest_V} V is usual` : ''
  return finding(
    0,
    `${shown}, over ${formatQuantity(dryInsulation_ohm, 'ohm')} as a dry, clean winding reads${gentle}; ${bound}`,
  )
}
