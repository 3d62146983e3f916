import { paperDocument, paperPage } from '../drawing/paper/pages.ts'
import type { Assessment } from '../engine/limits/index.ts'
import { paperAsText } from '../engine/papers/as-text.ts'
import { type PaperName, paperNames, paperOf } from '../engine/papers/index.ts'
import { partsListCsv } from '../engine/papers/parts-list.ts'
import type { Drawer } from '../engine/parts/part.ts'
import { type Command, exitCode, InputError, plain } from './command.ts'
import { flags } from './flags.ts'
import { assessed, readDrawerFile, readSupplyFile, requiredWord, writeText } from './supply-file.ts'

const csvName = 'parts-csv'
const names: readonly string[] = [...paperNames, csvName]

const help = `gapwright paper: print what the bench needs

  gapwright paper <name> <file.supply.json> [--html] [--drawer <file>] [--out <file>]

Names: ${names.join(', ')}; or "all" with --html.

Plain text for a terminal, or with --html one page for a browser to print, drawings included, which needs no network.
The bulk capacitor stays charged after the plug is out: discharge, measure, then touch.

  --html            a page to print instead of text
  --drawer <file>   mark which parts are at hand in this drawer
  --out <file>      write there instead of to the screen

Examples
  gapwright paper winding-sheet ~/Gapwright/float-charger.supply.json
  gapwright paper all charger.supply.json --html --out charger.html
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
    const text = values.html
      ? paperDocument(
          supply.name,
          chosen.map((name) => paperPage(assessment, name, drawer)),
        )
      : plainPaper(wanted, chosen, assessment, drawer)
    if (values.out === undefined) screen.out(text)
    else await writeText(values.out, text, true)
    return exitCode.done
  },
}

/** The papers that a word stands for; none for the table file, which is no paper. */
function papersNamed(word: string, html: boolean): readonly PaperName[] {
  if (html && word === 'all') return paperNames
  const paper = paperNames.find((name) => name === word)
  if (paper !== undefined) return [paper]
  if (word === csvName && !html) return []
  const kinds = html ? [...paperNames, 'all'] : names
  throw new InputError(`"${word}" is no paper${html ? ' with --html' : ''}; there are ${kinds.join(', ')}`)
}

function plainPaper(
  word: string,
  chosen: readonly PaperName[],
  assessment: Assessment,
  drawer: Drawer | null,
): string {
  if (word === csvName)
    return plain(`${partsListCsv(assessment.evaluation, assessment.limits, drawer).trimEnd()}\n`)
  return plain(chosen.map((name) => `${paperAsText(paperOf(name, assessment, drawer))}\n`).join('\n'))
}
