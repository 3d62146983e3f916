import { type ParseArgsConfig, parseArgs } from 'node:util'
import { InputError } from './command.ts'

type Options = NonNullable<ParseArgsConfig['options']>

/** Reads flags strictly; an unknown flag, a missing value or a surplus word is an input error. */
export function flags<O extends Options>(args: string[], options: O, words = 0) {
  try {
    const parsed = parseArgs({ args, options, strict: true, allowPositionals: words > 0 })
    const surplus = parsed.positionals[words]
    if (surplus !== undefined) throw new InputError(`"${surplus}" is one word too many`)
    return parsed
  } catch (error) {
    if (error instanceof InputError) throw error
    throw new InputError((error as Error).message.split('. ')[0] ?? 'these flags cannot be read')
  }
}
