import { type Command, exitCode, plain } from './command.ts'
import { flags, wholeNumber } from './flags.ts'
import { limitsTable, verdict, weakest } from './limits-text.ts'
import { assessed, readSupplyFile, requiredWord } from './supply-file.ts'

const help = `gapwright limits: what gives first in a supply

  gapwright limits <file.supply.json> [--top <n>] [--json]

Reads every rating, rule and wish as a limit, at the condition where it is worst, and lists the weakest first.
"left" is the room as a part of the rating. "worst at" names the input and the load in percent, or the corner:
power-corner (least inductance, current limit and bulk), flux-corner (most inductance), overload, short.
Exit code: 0 all hold, 1 some limit is broken, 2 the file cannot be used.

  --top <n>   only the first n
  --json      for programs: { supply, depth, holds, limits }; values in SI units

Examples
  gapwright limits ~/Gapwright/float-charger.supply.json
  gapwright limits charger.supply.json --top 5
  gapwright limits charger.supply.json --json | jq '.limits[] | select(.holds | not) | .title'
`

export const limitsCommand: Command = {
  name: 'limits',
  summary: 'list what gives first in a supply',
  help,
  run: async (args, screen) => {
    const { values, positionals } = flags(args, { top: { type: 'string' }, json: { type: 'boolean' } }, 1)
    const supply = await readSupplyFile(requiredWord(positionals, 'the file of a supply'))
    const assessment = assessed(supply)
    const { limits, evaluation, holds, givesFirst } = assessment
    const shown = limits.slice(0, wholeNumber('top', values.top) ?? limits.length)
    if (values.json) {
      const { id, name, revision } = supply
      const answer = { supply: { id, name, revision }, depth: evaluation.depth, holds, limits: shown }
      screen.out(`${JSON.stringify(answer, null, 2)}\n`)
    } else {
      screen.out(`${supply.name}, revision ${supply.revision}\n${verdict(assessment)}\n\n`)
      screen.out(plain(`${weakest(givesFirst)}\n\n`))
      screen.out(plain(`${limitsTable(shown)}\n`))
    }
    return holds ? exitCode.done : exitCode.limitBroken
  },
}
