import { corners, stageDeck } from '../engine/stage/index.ts'
import { type Command, exitCode, InputError } from './command.ts'
import { flags, wholeNumber } from './flags.ts'
import { cornerNamed } from './prove.ts'
import { assessed, readSupplyFile, requiredWord, writeText } from './supply-file.ts'

const usual = 'maximum-crest-100-typical-warm'

const help = `gapwright deck: write the circuit of a supply as a plain SPICE netlist

  gapwright deck <file.supply.json> [--corner <id>] [--cycles <n>] [--out <file>]

The stage at one corner with the values it was solved with, started in its repeating cycle, for any simulator that
reads the common netlist format. Saved nodes: probe_drain_V, probe_primary_A, probe_secondary_A, probe_clamp_V,
probe_output_V and others. The netlist replays the edges that the chip gave; it does not contain the chip.

  --corner <id>   mains, load, tolerance and temperature   (${usual});
                  "gapwright prove" lists all ${corners.length}
  --cycles <n>    length of the run in cycles   (30)
  --out <file>    write there instead of to the screen

Examples
  gapwright deck ~/Gapwright/float-charger.supply.json > charger.cir
  gapwright deck charger.supply.json --corner minimum-valley-100-power-cold --cycles 100 --out low.cir
`

export const deckCommand: Command = {
  name: 'deck',
  summary: 'write the circuit at one corner as a SPICE netlist',
  help,
  run: async (args, screen) => {
    const { values, positionals } = flags(
      args,
      { corner: { type: 'string' }, cycles: { type: 'string' }, out: { type: 'string' } },
      1,
    )
    const corner = cornerNamed(values.corner ?? usual)
    const cycles = wholeNumber('cycles', values.cycles, 10_000)
    const supply = await readSupplyFile(requiredWord(positionals, 'the file of a supply'))
    const deck = stageDeck(assessed(supply).evaluation.design, corner.id, cycles)
    if (!deck.ok) throw new InputError(`no netlist at ${corner.label}: ${deck.message}`)
    if (values.out === undefined) screen.out(deck.text)
    else await writeText(values.out, deck.text, true)
    return exitCode.done
  },
}
