import { type Controller, type LinearForm, scaled, sum } from '../circuit/index.ts'
import type { ChipValues } from './parameters.ts'

/** Before any soft start. */
const longAgo_s = 1e3

export interface ChipOptions {
  readonly period_s: number
  readonly chip: ChipValues
  /** What the control asks for: duty, or peak amperes. */
  readonly command: LinearForm
  /** Winding current. */
  readonly sense: LinearForm
  /** Positive while the control asks for all it can get: no feedback arrives. Absent: the chip never restarts. */
  readonly asking?: LinearForm
  /** True when it has long started at time zero: no soft start. */
  readonly running?: boolean
  /** Voltage of the chip's supply, judged at the end of each try. */
  readonly supply?: LinearForm
}

/** Most clocks that are skipped in a row while the current stays above the limit; typical of the trade, no source. */
const mostSkipped = 15

/** Part of the current limit at which a soft start begins; typical, no source. */
const softStartFrom = 0.25

/**
 * The switcher's control: a clock turns the switch on; it turns off when a ramp of 0 to 1 over the period passes the
 * commanded duty (voltage mode) or the current, with slope compensation, passes the commanded peak (peak-current
 * mode); and in any case when the current passes the limit after blanking and delay, or at the greatest duty. A
 * command too small for the shortest on-time skips the pulse. The limit rises over the soft start. Without feedback
 * for the restart time, or without its supply by then, the chip pauses and tries again. Knob `hot` above 0 holds it off.
 *
 * Memory: `since_s` start of the try, `fed_s` when feedback was last seen, `tries`, `trips` at the current limit,
 * `pulses`, `paused`, clocks still to `skip` and last `waited`.
 */
export function switcherControl(options: ChipOptions): Controller {
  const { period_s, chip, command, sense, asking, supply } = options
  const peakMode = chip.style === 'peak-current'
  const restarts = asking !== undefined && chip.restartTry_s > 0
  return {
    name: 'switcher',
    watches: {
      limit: sense,
      ends: peakMode ? sum(sense, scaled(-1, command)) : scaled(-1, command),
      command,
      ...(asking ? { asking } : {}),
      ...(supply ? { supply } : {}),
    },
    memory: {
      since_s: options.running === true ? -longAgo_s : 0,
      fed_s: 0,
      tries: 1,
      trips: 0,
      pulses: 0,
      skip: 0,
      waited: 0,
      paused: false,
    },
    start: (io) => io.timerAt('clock', 0),
    react: (event, io) => {
      const number = (key: string) => io.recall(key) as number
      const off = () => {
        io.set('S1', false)
        for (const watch of ['ends', 'limit']) io.disarm(watch)
        for (const timer of ['off', 'most', 'blanked']) io.cancel(timer)
      }
      switch (event) {
        case 'resume':
          io.remember('paused', false)
          io.remember('since_s', io.time_s)
          io.remember('fed_s', io.time_s)
          io.remember('tries', number('tries') + 1)
          io.timerAt('clock', io.time_s)
          return
        case 'clock': {
          const now = io.time_s
          if (io.knob('hot') > 0) {
            io.timerAt('clock', now + period_s)
            io.remember('since_s', now)
            io.remember('fed_s', now)
            return
          }
          if (restarts) {
            const starved =
              supply !== undefined && io.read('supply') < 0 && now - number('since_s') > chip.restartTry_s
            if (io.read('asking') <= 0) io.remember('fed_s', now)
            if (starved || now - number('fed_s') > chip.restartTry_s) {
              io.remember('paused', true)
              io.timerAt('resume', now + chip.restartPause_s)
              return
            }
          }
          io.timerAt('clock', now + period_s)
          if (number('skip') > 0) {
            io.remember('skip', number('skip') - 1)
            return
          }
          const asked = io.read('command')
          if (peakMode ? asked <= 0 : asked * period_s < chip.minimumOnTime_s) return
          io.remember('pulses', number('pulses') + 1)
          io.set('S1', true)
          io.timerAt('blanked', now + chip.blanking_s)
          io.timerAt('most', now + chip.maximumDuty * period_s)
          if (!peakMode) io.arm('ends', { slope_per_s: 1 / period_s })
          return
        }
        case 'blanked': {
          const soft =
            chip.softStart_s > 0
              ? Math.min(
                  1,
                  softStartFrom + ((1 - softStartFrom) * (io.time_s - number('since_s'))) / chip.softStart_s,
                )
              : 1
          if (chip.skipsWhenShorted) {
            const above = io.read('limit') > soft * chip.limit_A
            const wait = above ? Math.min(mostSkipped, 2 * number('waited') + 1) : number('waited') >> 1
            io.remember('waited', wait)
            io.remember('skip', wait)
          }
          io.arm('limit', { offset: -soft * chip.limit_A })
          if (peakMode)
            io.arm('ends', { offset: chip.slope_A_per_s * chip.blanking_s, slope_per_s: chip.slope_A_per_s })
          return
        }
        case 'limit':
          io.remember('trips', number('trips') + 1)
          io.disarm('ends')
          io.timerAfter('off', chip.delay_s)
          return
        case 'ends':
          if (peakMode && chip.delay_s > 0) {
            io.disarm('limit')
            io.timerAfter('off', chip.delay_s)
            return
          }
      }
      off()
    },
  }
}
