import type { Assessment } from '../engine/limits/index.ts'
import { paperAsText } from '../engine/papers/as-text.ts'
import { partsList, partsListCsv } from '../engine/papers/parts-list.ts'
import { windingSheet } from '../engine/papers/winding-sheet.ts'
import type { Drawer } from '../engine/parts/part.ts'
import { type Command, exitCode, InputError, plain } from './command.ts'
import { flags } from './flags.ts'
import { assessed, readDrawerFile, readSupplyFile, requiredWord, writeText } from './supply-file.ts'

type Maker = { summary: string; make: (a: Assessment, drawer: Drawer | null) => string }

const papers: Readonly<Record<string, Maker>> = {
  'winding-sheet': {
    summary: 'what to wind, in which order, with pins, lengths and readings to expect',
    make: ({ evaluation }) => `${paperAsText(windingSheet(evaluation))}\n`,
  },
  'parts-list': {
    summary: 'parts by rating, with what a substitute must stand',
    make: ({ evaluation, limits }, drawer) => `${paperAsText(partsList(evaluation, limits, drawer))}\n`,
  },
  'parts-csv': {
    summary: 'the parts list as a table file',
    make: ({ evaluation, limits }, drawer) => partsListCsv(evaluation, limits, drawer),
  },
}

const names = Object.keys(papers)

const help = `gapwright paper: print what the bench needs

  gapwright paper <name> <file.supply.json> [--drawer <file>] [--out <file>]

${names.map((name) => `  ${name.padEnd(16)}${papers[name]?.summary}`).join('\n')}

Plain text for a terminal or a printer; the page prints the same papers with drawings.
The bulk capacitor stays charged after the plug is out: discharge, measure, then touch.

  --drawer <file>   mark which parts are at hand in this drawer
  --out <file>      write there instead of to the screen

Examples
  gapwright paper winding-sheet ~/Gapwright/float-charger.supply.json
  gapwright paper parts-csv charger.supply.json --drawer ~/Gapwright/drawer.json --out parts.csv
`

export const paperCommand: Command = {
  name: 'paper',
  summary: 'print the winding sheet or the parts list',
  help,
  run: async (args, screen) => {
    const { values, positionals } = flags(args, { drawer: { type: 'string' }, out: { type: 'string' } }, 2)
    const name = requiredWord(positionals, `the name of a paper (${names.join(', ')})`)
    const maker = Object.hasOwn(papers, name) ? papers[name] : undefined
    if (maker === undefined) throw new InputError(`"${name}" is no paper; there are ${names.join(', ')}`)
    const supply = await readSupplyFile(requiredWord(positionals.slice(1), 'the file of a supply'))
    const drawer = values.drawer === undefined ? null : await readDrawerFile(values.drawer)
    const text = plain(maker.make(assessed(supply), drawer))
    if (values.out === undefined) screen.out(text)
    else await writeText(values.out, text, true)
    return exitCode.done
  },
}
