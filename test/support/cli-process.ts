import { runCommand } from '../../src/cli/main.ts'

process.exitCode = await runCommand(process.argv.slice(2))
