import { runCommand } from '../../src/cli/main.ts'

/** Runs a command line in this process: its exit code and what it says. */
export async function run(...argv: string[]): Promise<{ code: number; out: string; error: string }> {
  let out = ''
  let error = ''
  const code = await runCommand(argv, {
    out: (text) => {
      out += text
    },
    error: (text) => {
      error += text
    },
  })
  return { code, out, error }
}
