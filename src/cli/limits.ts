import { starterDrawer } from '../engine/parts/starter/index.ts'
import { cheapestChanges } from '../engine/search/index.ts'
import { asBuiltForPrograms, asBuiltText, transformerAsBuilt } from './as-built-text.ts'
import { type Command, exitCode, InputError, plain } from './command.ts'
import { flags, wholeNumber } from './flags.ts'
import { limitsTable, verdict, weakest } from './limits-text.ts'
import { mendForPrograms, mendText } from './mend-text.ts'
import { assessed, readDrawerFile, readSupplyFile, requiredWord } from './supply-file.ts'

const help = `gapwright limits: what gives first in a supply

  gapwright limits <file.supply.json> [--top <n>] [--mend [--drawer <file>]] [--json]

Reads every rating, rule and wish as a limit, at the condition where it is worst, and lists the weakest first.
"left" is the room as a part of the rating. "worst at" names the input and the load in percent, or the corner:
power-corner (least inductance, current limit and bulk), flux-corner (most inductance), overload, short.
Where readings of the finished transformer were kept, it says first what they tell of gap, core, turns and barrier.
Exit code: 0 all hold, 1 some limit is broken, 2 the file cannot be used.

  --top <n>   only the first n
  --mend      what would make it hold: one part or choice changed, else two, else three; and where none of those do,
              what comes closest and what it would still break
  --drawer <file>   parts at hand for that   (the starter drawer of generic parts)
  --json      for programs: { supply, depth, holds, transformer, limits, mend }; values in SI units

Examples
  gapwright limits ~/Gapwright/float-charger.supply.json
  gapwright limits charger.supply.json --top 5
  gapwright limits charger.supply.json --top 5 --mend --drawer ~/Gapwright/drawer.json
  gapwright limits charger.supply.json --json | jq '.limits[] | select(.holds | not) | .title'
`

export const limitsCommand: Command = {
  name: 'limits',
  summary: 'list what gives first in a supply',
  help,
  run: async (args, screen) => {
    const { values, positionals } = flags(
      args,
      {
        top: { type: 'string' },
        mend: { type: 'boolean' },
        drawer: { type: 'string' },
        json: { type: 'boolean' },
      },
      1,
    )
    if (values.drawer !== undefined && !values.mend)
      throw new InputError('--drawer is where --mend looks for parts, and --mend is not given')
    const supply = await readSupplyFile(requiredWord(positionals, 'the file of a supply'))
    const assessment = assessed(supply)
    const { limits, evaluation, holds, givesFirst } = assessment
    const shown = limits.slice(0, wholeNumber('top', values.top) ?? limits.length)
    const drawer = values.drawer === undefined ? starterDrawer : await readDrawerFile(values.drawer)
    const built = transformerAsBuilt(supply)
    const mend = values.mend ? cheapestChanges(supply, drawer) : null
    if (values.json) {
      const { id, name, revision } = supply
      const transformer = built === null ? {} : { transformer: asBuiltForPrograms(built) }
      const answer = {
        supply: { id, name, revision },
        depth: evaluation.depth,
        holds,
        ...transformer,
        limits: shown,
      }
      const mended = mend === null ? {} : { mend: mendForPrograms(mend) }
      screen.out(`${JSON.stringify({ ...answer, ...mended }, null, 2)}\n`)
    } else {
      screen.out(`${supply.name}, revision ${supply.revision}\n${verdict(assessment)}\n\n`)
      if (built !== null) screen.out(plain(`${asBuiltText(built)}\n\n`))
      screen.out(plain(`${weakest(givesFirst)}\n\n`))
      screen.out(plain(`${limitsTable(shown)}\n`))
      if (mend !== null) screen.out(plain(`\n${holds ? 'There is nothing to mend.' : mendText(mend)}\n`))
    }
    return holds ? exitCode.done : exitCode.limitBroken
  },
}
