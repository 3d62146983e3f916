import type { CircuitState } from '../../circuit/index.ts'

/** What the chip remembers in a state; it is the first controller of a regulated stage. */
export function chipMemory(state: CircuitState) {
  const memory = state.controllers[0]?.memory ?? {}
  const number = (key: string) => (typeof memory[key] === 'number' ? memory[key] : 0)
  return {
    paused: memory.paused === true,
    fed_s: number('fed_s'),
    tries: number('tries'),
    trips: number('trips'),
    pulses: number('pulses'),
  }
}

/** The same state with feedback last seen earlier: the restart comes sooner by that. */
export const withRestartSooner = (state: CircuitState, by_s: number): CircuitState => ({
  ...state,
  controllers: state.controllers.map((controller, i) =>
    i === 0
      ? { ...controller, memory: { ...controller.memory, fed_s: chipMemory(state).fed_s - by_s } }
      : controller,
  ),
})

/** Looks in a row that must be alike before a try counts as settled. */
const alikeLooks = 6
const alikeWithin = 0.02

/** Notices when a try of the chip has become the same from look to look, once a try. */
export class Sameness {
  private last_A = 0
  private count = 0
  private usedTry = 0

  /** True when the rest of this try would only repeat what was seen. */
  see(peak_A: number, tries: number, paused: boolean): boolean {
    const alike = !paused && Math.abs(peak_A - this.last_A) < alikeWithin * this.last_A
    this.count = alike ? this.count + 1 : 0
    this.last_A = peak_A
    if (this.count < alikeLooks || this.usedTry >= tries) return false
    this.usedTry = tries
    return true
  }
}
