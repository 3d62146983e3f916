import { supplyText } from '../engine/file/file.ts'
import type { Drawer } from '../engine/parts/part.ts'
import { starterDrawer } from '../engine/parts/starter/index.ts'
import {
  answersText,
  chooseProved,
  type Effort,
  offersOf,
  type SearchState,
  type Space,
  searchAll,
  searchOptions,
  searchSpace,
  supplyOfOffer,
  thoroughness,
  type WhyNot,
  whyNot,
  withProposal,
} from '../engine/search/index.ts'
import type { Need } from '../engine/supply/need.ts'
import { type Command, exitCode, InputError, plain } from './command.ts'
import { flags, wholeNumber } from './flags.ts'
import { needFromFlags, needHelp, needOptions } from './need-flags.ts'
import { readDrawerFile, readSupplyFile, writeText } from './supply-file.ts'

const help = `gapwright answers: what can be built for a need from a drawer, and why not the rest

  gapwright answers --volts <V> --amps <A> [flags]
  gapwright answers <file.supply.json> [flags]     for the need in that file

Tries every core with every switcher, wound in many ways, and judges them by the limits at every corner. Lists the
supplies that nothing outdoes in loss, size, parts to buy, margin and ease of winding together; then, for every core
and chip without an answer, the limit that stops it and how much more would do. Takes some seconds.
Exit code: 0 something holds every limit, 1 nothing does, 2 the input cannot be used, or the drawer lacks a kind.

The need; values as you write them ("13,8 V", "150 mV", "10 ms"), what is usual in brackets
${needHelp}

The rest
  --drawer <file>    parts at hand   (the starter drawer of generic parts)
  --buy              also starter parts that the drawer lacks; they are counted as to buy
  --effort <how>     quick, usual or fine: the steps of turns and gap   (usual)
  --seed <n>         order in which cores and chips are gone through; the answers are the same   (1)
  --top <n>          answers shown   (9)
  --write <n>        write answer n as a supply; where there is none, why not is said instead
  --out <file>       where to write it; - for the screen   (answer-<n>.supply.json)
  --replace          write over a file that is there
  --json             for programs: { need, drawer, search, answers, whyNot }; values in SI units

Examples
  gapwright answers --volts 12 --amps 2 --effort quick
  gapwright answers --volts 24 --amps 3 --drawer ~/Gapwright/drawer.json --buy
  gapwright answers charger.supply.json --write 1 --out smaller.supply.json
`

const efforts: readonly Effort[] = ['quick', 'usual', 'fine']

export const answersCommand: Command = {
  name: 'answers',
  summary: 'what can be built for a need from a drawer, and why not the rest',
  help,
  run: async (args, screen) => {
    const { values, positionals } = flags(
      args,
      {
        ...needOptions,
        drawer: { type: 'string' },
        buy: { type: 'boolean' },
        effort: { type: 'string' },
        seed: { type: 'string' },
        top: { type: 'string' },
        write: { type: 'string' },
        out: { type: 'string' },
        replace: { type: 'boolean' },
        json: { type: 'boolean' },
      },
      1,
    )
    const need = await needOf(positionals[0], values)
    const drawer = values.drawer === undefined ? starterDrawer : await readDrawerFile(values.drawer)
    const top = wholeNumber('top', values.top) ?? 9
    const options = searchOptions(effortOf(values.effort), {}, wholeNumber('seed', values.seed) ?? 1)
    const made = searchSpace(need, drawer, options, values.buy ? starterDrawer : null)
    if (!made.ok)
      throw new InputError(
        `Nothing can be put together from ${drawer.name} yet; add what it lacks:\n${made.problems.map((p) => `  ${p.message}`).join('\n')}`,
      )
    const space = made.value
    const state = withProposal(space, searchAll(space))
    const write = wholeNumber('write', values.write)
    const found = chooseProved(space, state.front, 1).answers.length > 0
    if (write !== undefined && found) {
      const file = values.out ?? `answer-${write}.supply.json`
      const text = supplyText(answerNumbered(space, state, top, write))
      if (file === '-') screen.out(text)
      else {
        await writeText(file, text, values.replace === true)
        screen.out(`Wrote ${file}\n`)
      }
    } else {
      const reasons = whyNot(space, state)
      screen.out(
        values.json
          ? `${JSON.stringify(forPrograms(drawer, space, state, reasons, top), null, 2)}\n`
          : plain(`${answersText(space, state, reasons, top)}\n`),
      )
    }
    return found ? exitCode.done : exitCode.limitBroken
  },
}

/** The need of a file, or of the flags; both at once are two needs. */
async function needOf(file: string | undefined, values: Parameters<typeof needFromFlags>[0]): Promise<Need> {
  if (file === undefined) return needFromFlags(values)
  const given = (Object.keys(needOptions) as (keyof typeof needOptions)[]).find(
    (k) => values[k] !== undefined,
  )
  if (given !== undefined)
    throw new InputError(`${file} brings its own need, and --${given} says another; give one of them`)
  return (await readSupplyFile(file)).need
}

function effortOf(text: string | undefined): Effort {
  if (text === undefined) return 'usual'
  const found = efforts.find((effort) => effort === text)
  if (found !== undefined) return found
  throw new InputError(`--effort ${text} is none of ${efforts.join(', ')}`)
}

function answerNumbered(space: Space, state: SearchState, top: number, number: number) {
  const offers = offersOf(space, chooseProved(space, state.front, top).answers)
  const offer = offers[number - 1]
  if (offer !== undefined) return supplyOfOffer(space, offer)
  throw new InputError(`there is no answer ${number}; there are ${offers.length}`)
}

const forPrograms = (
  drawer: Drawer,
  space: Space,
  state: SearchState,
  reasons: readonly WhyNot[],
  top: number,
) => ({
  need: space.need,
  drawer: drawer.name,
  search: {
    seed: space.options.seed,
    counts: state.counts,
    front: state.front.length,
    thoroughness: plain(thoroughness(space, state)),
  },
  answers: offersOf(space, chooseProved(space, state.front, top).answers).map(({ answer, ...words }) => ({
    ...words,
    measures: answer.measures,
    givesFirst: answer.limit,
    build: answer.build,
  })),
  whyNot: reasons.map(({ of, id, name, limit, sentence }) => ({
    of,
    id,
    name,
    limit: limit?.id ?? null,
    reading: limit?.reading ?? null,
    rating: limit?.rating ?? null,
    sentence: plain(sentence),
  })),
})
