import { readRecord, recordHtml } from '../src/drawing/index.ts'
import { assessWhole, demoSupplies, readSupply, starterDrawer, supplyText } from '../src/engine/index.ts'

// A supply of the demo, judged; its build record is one HTML file with every paper and the project file inside.
const supply = demoSupplies()[0]!
const judged = assessWhole(supply)
if (!judged.ok) throw new Error(judged.problems[0]?.message)
const html = recordHtml(judged.value, starterDrawer)

// What somebody else sends is text until the strict reader has passed it.
const record = readRecord(html)
if (!record.ok) throw new Error(record.problems[0]?.message)
const again = readSupply(record.text)
if (!again.ok) throw new Error(again.problems[0]?.message)
export const lines = [
  judged.value.holds ? 'every limit holds' : `${judged.value.givesFirst.title} is broken`,
  supplyText(again.value) === supplyText(supply) ? 'the record opens as the same supply' : 'it differs',
]
