/** Words of the command list. */
export const commandStrings = {
  toLimits: 'Go to what gives first',
  toNeed: 'Go to the need',
  toBuild: 'Go to the build',
  toBench: 'Go to the drawing and readings',
  show: (view: string) => `Show ${view.toLowerCase()}`,
  save: 'Save now',
  print: 'Print',
  shelf: 'Go to the shelf',
  drawer: 'Go to the drawer',
  answers: 'Ask what can be built',
  open: (name: string) => `Open ${name}`,
  compare: (name: string) => `Compare with ${name}`,
  theme: (name: string) => `Colours: ${name.toLowerCase()}`,
} as const
