import { answersCommand } from './answers.ts'
import { type Command, exitCode, InputError, type Screen } from './command.ts'
import { deckCommand } from './deck.ts'
import { limitsCommand } from './limits.ts'
import { newCommand } from './new.ts'
import { version } from './package.ts'
import { pageCommand } from './page.ts'
import { paperCommand } from './paper.ts'
import { proveCommand } from './prove.ts'

export const commands: readonly Command[] = [
  newCommand,
  answersCommand,
  limitsCommand,
  proveCommand,
  deckCommand,
  paperCommand,
  pageCommand,
]

const overview = () => `gapwright: design, wind and power up small isolated mains supplies

  gapwright <command> [flags]

${commands.map((c) => `  ${c.name.padEnd(10)}${c.summary}`).join('\n')}

  gapwright <command> --help   what the command does, with examples
  gapwright --version

Exit code: 0 done, and all limits hold; 1 some limit is broken; 2 the input cannot be used.
`

const standardScreen: Screen = {
  out: (text) => process.stdout.write(text),
  error: (text) => process.stderr.write(text),
}

/** Runs one command line (without `node` and the script) and gives its exit code. */
export async function runCommand(argv: string[], screen: Screen = standardScreen): Promise<number> {
  const [name, ...args] = argv
  if (name === undefined || name === 'help' || name === '--help' || name === '-h') {
    const command = commands.find((c) => c.name === args[0])
    screen.out(command?.help ?? overview())
    return exitCode.done
  }
  if (name === '--version' || name === 'version') {
    screen.out(`${version()}\n`)
    return exitCode.done
  }
  const command = commands.find((c) => c.name === name)
  if (command === undefined) {
    screen.error(`There is no command "${name}".\n\n${overview()}`)
    return exitCode.badInput
  }
  if (args.includes('--help') || args.includes('-h')) {
    screen.out(command.help)
    return exitCode.done
  }
  try {
    return await command.run(args, screen)
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    screen.error(`${error.message}\n(gapwright ${name} --help shows how.)\n`)
    return exitCode.badInput
  }
}
