import { benchPaperNames, benchPaperOf, benchPapersOf } from '../drawing/paper/bench-papers.ts'
import { pageOf, paperDocument } from '../drawing/paper/pages.ts'
import { recordHtml } from '../drawing/record/record-html.ts'
import type { Assessment } from '../engine/limits/index.ts'
import { paperAsText } from '../engine/papers/as-text.ts'
import type { Paper } from '../engine/papers/document.ts'
import { paperNames, paperOf } from '../engine/papers/index.ts'
import { partsListCsv } from '../engine/papers/parts-list.ts'
import type { Drawer } from '../engine/parts/part.ts'
import { type Command, exitCode, InputError, plain } from './command.ts'
import { flags } from './flags.ts'
import { assessed, readDrawerFile, readSupplyFile, requiredWord, writeText } from './supply-file.ts'

const csvName = 'parts-csv'
const recordName = 'record'
const printed: readonly string[] = [...paperNames, ...benchPaperNames]
const names: readonly string[] = [...printed, csvName, recordName]

const help = `gapwright paper: print what the bench needs

  gapwright paper <name> <file.supply.json> [--html] [--drawer <file>] [--out <file>]

Names: ${paperNames.join(', ')},
${benchPaperNames.join(', ')};
${csvName}, ${recordName}; or "all" with --html.

Plain text for a terminal, or with --html one page for a browser to print, drawings included, which needs no network.
"record" is the build record: one page with every paper, what was measured, and the project file inside.
The bulk capacitor stays charged after the plug is out: discharge, measure, then touch.

  --html            a page to print instead of text
  --drawer <file>   mark which parts are at hand in this drawer, and take its lamps for the power-up
  --out <file>      write there instead of to the screen

Examples
  gapwright paper winding-sheet ~/Gapwright/float-charger.supply.json
  gapwright paper power-up charger.supply.json --drawer ~/Gapwright/drawer.json
  gapwright paper all charger.supply.json --html --out charger.html
  gapwright paper record charger.supply.json --out charger.record.html
  gapwright paper parts-csv charger.supply.json --drawer ~/Gapwright/drawer.json --out parts.csv
`

export const paperCommand: Command = {
  name: 'paper',
  summary: 'print the winding sheet, the schematic, the parts list and more',
  help,
  run: async (args, screen) => {
    const { values, positionals } = flags(
      args,
      { drawer: { type: 'string' }, out: { type: 'string' }, html: { type: 'boolean' } },
      2,
    )
    const wanted = requiredWord(positionals, `the name of a paper (${names.join(', ')})`)
    const chosen = papersNamed(wanted, values.html === true)
    const supply = await readSupplyFile(requiredWord(positionals.slice(1), 'the file of a supply'))
    const drawer = values.drawer === undefined ? null : await readDrawerFile(values.drawer)
    const assessment = assessed(supply)
    const text =
      wanted === recordName
        ? recordHtml(assessment, drawer, benchPapersOf(assessment, drawer))
        : written(chosen, values.html === true, assessment, drawer)
    if (values.out === undefined) screen.out(text)
    else await writeText(values.out, text, true)
    return exitCode.done
  },
}

/** The papers that a word stands for; none for the table file, which is no paper. */
function papersNamed(word: string, html: boolean): readonly string[] {
  if (html && word === 'all') return printed
  if (printed.includes(word)) return [word]
  if (word === recordName || (word === csvName && !html)) return []
  const kinds = html ? [...printed, recordName, 'all'] : names
  throw new InputError(`"${word}" is no paper${html ? ' with --html' : ''}; there are ${kinds.join(', ')}`)
}

function paperNamed(word: string, assessment: Assessment, drawer: Drawer | null): Paper {
  const name = paperNames.find((n) => n === word)
  if (name !== undefined) return paperOf(name, assessment, drawer)
  return benchPaperOf(benchPaperNames.find((n) => n === word)!, assessment, drawer)
}

/** Papers as one page, or under one another as text; the table file where there are none. */
function written(
  chosen: readonly string[],
  html: boolean,
  assessment: Assessment,
  drawer: Drawer | null,
): string {
  const { evaluation, limits } = assessment
  const papers = chosen.map((name) => paperNamed(name, assessment, drawer))
  if (html)
    return paperDocument(
      evaluation.design.supply.name,
      papers.map((paper) => pageOf(paper, assessment)),
    )
  const text =
    papers.length === 0 ? partsListCsv(evaluation, limits, drawer) : papers.map(paperAsText).join('\n\n')
  return `${plain(text).trimEnd()}\n`
}
