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

/** A flag that takes a whole number from 1; undefined when left out. */
export function wholeNumber(
  flag: string,
  text: string | undefined,
  most = Number.POSITIVE_INFINITY,
): number | undefined {
  if (text === undefined) return undefined
  const number = Number(text)
  if (!Number.isInteger(number) || number < 1)
    throw new InputError(`--${flag} ${text} is not a whole number from 1`)
  if (number > most) throw new InputError(`--${flag} ${text} is over ${most}`)
  return number
}
