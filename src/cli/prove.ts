import {
  type Corner,
  cornerById,
  corners,
  type Proof,
  proveGroup,
  proveSupply,
  spoils,
} from '../engine/stage/index.ts'
import type { Evaluation } from '../engine/supply/evaluation.ts'
import { type Command, exitCode, InputError, plain } from './command.ts'
import { flags, wholeNumber } from './flags.ts'
import {
  cornerInFull,
  cornersTable,
  findingsList,
  proofVerdict,
  provedTable,
  provedWeakest,
} from './prove-text.ts'
import { assessed, readSupplyFile, requiredWord } from './supply-file.ts'

const help = `gapwright prove: solve the actual circuit of a supply at every corner

  gapwright prove <file.supply.json> [--corner <id>] [--top <n>] [--json]

Solves the switched circuit with leakage, stray capacitance, clamp and filter for the cycle that repeats, at ${corners.length}
corners of mains, load, tolerance and temperature, and ranks the limits anew with what it finds. Each figure stands
beside its difference from the closed form. Takes about a second.
Names of corners: <input>-<bulk>-<load>-<tolerance>-<warmth>, as minimum-valley-100-flux-warm. Bulk is valley (lowest
input), crest (highest) or mean; tolerance is typical, power (least inductance and limit) or flux (most of both).
overload-minimum and overload-maximum run at the current limit, short-maximum into a short.
Exit code: 0 all limits hold and every load is held, 1 something does not hold, 2 the file cannot be used.

  --corner <id>   one corner only, every figure in full, with reasons for differences over 5 %
  --top <n>       only the first n limits   (12)
  --json          for programs: { supply, depth, holds, findings, corners, limits }; values in SI units

Examples
  gapwright prove ~/Gapwright/float-charger.supply.json
  gapwright prove charger.supply.json --corner maximum-crest-100-typical-warm
  gapwright prove charger.supply.json --json | jq '.corners[] | {id: .corner.id, drain: .figures.drainPeak_V}'
`

export const proveCommand: Command = {
  name: 'prove',
  summary: 'solve the actual circuit at every corner of mains, load and tolerance',
  help,
  run: async (args, screen) => {
    const { values, positionals } = flags(
      args,
      { corner: { type: 'string' }, top: { type: 'string' }, json: { type: 'boolean' } },
      1,
    )
    const corner = values.corner === undefined ? undefined : cornerNamed(values.corner)
    const top = wholeNumber('top', values.top) ?? (values.json ? Number.POSITIVE_INFINITY : 12)
    const supply = await readSupplyFile(requiredWord(positionals, 'the file of a supply'))
    const { evaluation } = assessed(supply)
    const { id, name, revision } = supply
    if (corner !== undefined) {
      const proved = proveGroup(evaluation.design, [corner])[0]!
      screen.out(
        values.json
          ? `${JSON.stringify({ supply: { id, name, revision }, ...proved }, null, 2)}\n`
          : plain(`${name}, revision ${revision}\n${cornerInFull(proved)}\n`),
      )
      return proved.ok ? exitCode.done : exitCode.limitBroken
    }
    const proof = proved(evaluation)
    const { depth, findings, limits } = proof
    const holds = holdsAll(proof)
    const first = limits.slice(0, top)
    if (values.json) {
      const answer = {
        supply: { id, name, revision },
        depth,
        holds,
        findings: findings.map(({ code, corner, sentence }) => ({ code, corner: corner.id, sentence })),
        corners: proof.corners,
        limits: first.map(({ limit, depth, closed }) => ({
          ...limit,
          depth,
          closed: closed?.reading ?? null,
        })),
      }
      screen.out(`${JSON.stringify(answer, null, 2)}\n`)
    } else {
      const parts = [
        `${name}, revision ${revision}\n${proofVerdict(proof)}`,
        provedWeakest(proof),
        ...(findings.length === 0 ? [] : [`Found by solving\n${findingsList(findings)}`]),
        cornersTable(proof.corners),
        provedTable(first),
      ]
      screen.out(plain(`${parts.join('\n\n')}\n`))
    }
    return holds ? exitCode.done : exitCode.limitBroken
  },
}

/** The corner of a name, or an InputError that lists them. */
export function cornerNamed(name: string): Corner {
  const found = cornerById.get(name)
  if (found !== undefined) return found
  throw new InputError(
    `there is no corner "${name}"; there are:\n${corners.map((corner) => `  ${corner.id}`).join('\n')}`,
  )
}

function proved(evaluation: Evaluation): Proof {
  const proof = proveSupply(evaluation)
  if (proof === null) throw new Error('a proof that nobody cancelled came to no end')
  return proof
}

const holdsAll = ({ limits, findings }: Proof): boolean =>
  limits.every(({ limit }) => limit.holds) && !findings.some(spoils)
