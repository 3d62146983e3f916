import { spawn } from 'node:child_process'

/** Whether there is a person in front of a screen who wants to see the page. */
export function wantsBrowser(env: NodeJS.ProcessEnv, platform: NodeJS.Platform): boolean {
  if (env.CI || env.GAPWRIGHT_NO_OPEN) return false
  if (platform === 'darwin' || platform === 'win32') return true
  return Boolean(env.DISPLAY || env.WAYLAND_DISPLAY)
}

/** Asks the system to show an address; where it cannot, the printed address has to do. */
export function openBrowser(url: string, platform: NodeJS.Platform): void {
  const [command, ...args] =
    platform === 'darwin'
      ? ['open', url]
      : platform === 'win32'
        ? ['cmd', '/c', 'start', '""', url]
        : ['xdg-open', url]
  const child = spawn(command!, args, { stdio: 'ignore', detached: true })
  child.on('error', () => undefined)
  child.unref()
}
