/** What a deck of a stage saves. */
export interface Columns {
  readonly time: number[]
  readonly drain_V: number[]
  readonly primary_A: number[]
  readonly output_V: number[]
}

interface Simulator {
  start(): Promise<void>
  setNetList(text: string): void
  runSim(): Promise<{ data: { name: string; values: number[] }[] }>
  getError(): string[]
}

let running: Simulator | null = null

/** Runs the deck of a stage in eecircuit-engine (ngspice in WebAssembly). Throws what the simulator complains of. */
export async function runDeck(text: string): Promise<Columns> {
  if (running === null) {
    const { Simulation } = await import('eecircuit-engine')
    running = new Simulation() as unknown as Simulator
    await running.start()
  }
  running.setNetList(text)
  const { data } = await running.runSim()
  const errors = running.getError()
  if (errors.length > 0) throw new Error(errors.join('; '))
  const column = (name: string) => data.find((item) => item.name === `v(probe_${name})`)!.values
  return {
    time: data[0]!.values,
    drain_V: column('drain_v'),
    primary_A: column('primary_a'),
    output_V: column('output_v'),
  }
}
