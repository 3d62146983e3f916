import { supplyText } from '../engine/file/file.ts'
import { starterDrawer } from '../engine/parts/starter/index.ts'
import { proposeSupply } from '../engine/search/propose.ts'
import { type Command, exitCode, InputError, plain } from './command.ts'
import { flags } from './flags.ts'
import { verdict, weakest } from './limits-text.ts'
import { needFromFlags, needHelp, needOptions } from './need-flags.ts'
import { assessed, readDrawerFile, requiredWord, writeText } from './supply-file.ts'

const help = `gapwright new: propose a supply for a need, from the parts of a drawer

  gapwright new <id> --volts <V> --amps <A> [flags]

Tries cores from the smallest and switchers from the weakest that will do, settles the rest, and writes the first
supply in which every limit holds, or the nearest to it. The id becomes the file's name: a-z, 0-9 and hyphen.
Exit code: 0 all limits hold, 1 some limit is broken (the file is written all the same), 2 the input cannot be used.

The need; values as you write them ("13,8 V", "150 mV", "10 ms"), what is usual in brackets
${needHelp}

The rest
  --name <words>     name for people   (the id)
  --drawer <file>    parts at hand   (the starter drawer of generic parts)
  --out <file>       where to write; - for the screen   (<id>.supply.json)
  --replace          write over a file that is there

Examples
  gapwright new bench-24v --volts 24 --amps 3
  gapwright new float --volts 13.8 --amps 5 --feeds charging --trim 13.2-14.4 --out ~/Gapwright/float.supply.json
  gapwright new travel --volts 5 --amps 4 --input 85-265V --cooling case-closed --drawer ~/Gapwright/drawer.json
`

export const newCommand: Command = {
  name: 'new',
  summary: 'propose a supply for a need',
  help,
  run: async (args, screen) => {
    const { values, positionals } = flags(
      args,
      {
        ...needOptions,
        name: { type: 'string' },
        drawer: { type: 'string' },
        out: { type: 'string' },
        replace: { type: 'boolean' },
      },
      1,
    )
    const id = idOf(requiredWord(positionals, 'the id of the new supply'))
    const need = needFromFlags(values)
    const drawer = values.drawer === undefined ? starterDrawer : await readDrawerFile(values.drawer)
    const proposed = proposeSupply(need, drawer, { id, name: values.name ?? id })
    if (!proposed.ok)
      throw new InputError(
        `No supply can be put together from ${drawer.name}:\n${proposed.problems.map((p) => `  ${p.path}: ${p.message}`).join('\n')}`,
      )
    const assessment = assessed(proposed.value)
    const text = supplyText(proposed.value)
    const file = values.out ?? `${id}.supply.json`
    if (file === '-') screen.out(text)
    else await writeText(file, text, values.replace === true)
    const say = file === '-' ? screen.error : screen.out
    if (file !== '-') say(`Wrote ${file}\n`)
    say(plain(`${verdict(assessment)}\n${weakest(assessment.givesFirst)}\n`))
    return assessment.holds ? exitCode.done : exitCode.limitBroken
  },
}

function idOf(word: string): string {
  if (/^[a-z0-9][a-z0-9-]{0,63}$/.test(word)) return word
  throw new InputError(
    `"${word}" is no id: 1 to 64 of a-z, 0-9 and hyphen, and a letter or digit in front; --name takes any words`,
  )
}
