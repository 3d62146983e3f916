import { type Controller, current, sum } from '../../../circuit/index.ts'
import { type SwitchedLoop, takenAway } from './loop.ts'

/** One sine of the test signal that is added to duty or peak current. */
export interface Tone {
  readonly frequency_Hz: number
  readonly amplitude: number
  readonly phase_rad: number
}

/** Value and slope of the test signal. */
function testSignal(tones: readonly Tone[], time_s: number): { value: number; slope_per_s: number } {
  let value = 0
  let slope = 0
  for (const { frequency_Hz, amplitude, phase_rad } of tones) {
    const w = 2 * Math.PI * frequency_Hz
    value += amplitude * Math.sin(w * time_s + phase_rad)
    slope += amplitude * w * Math.cos(w * time_s + phase_rad)
  }
  return { value, slope_per_s: slope }
}

/**
 * The test signal as a straight line through its value at the expected end of the on-time, so that it bends less than
 * a thousandth of its amplitude where the comparison is made.
 */
function testLine(
  tones: readonly Tone[],
  scale: number,
  start_s: number,
  end_s: number,
): { value: number; slope_per_s: number } {
  if (scale === 0) return { value: 0, slope_per_s: 0 }
  const { value, slope_per_s } = testSignal(tones, end_s)
  return { value: scale * (value - slope_per_s * (end_s - start_s)), slope_per_s: scale * slope_per_s }
}

/** Natural sampling: on at the clock, off when the ramp passes the duty asked for. */
export function dutyControl(loop: SwitchedLoop, tones: readonly Tone[]): Controller {
  const period_s = 1 / loop.stage.frequency_Hz
  const rest = loop.point.duty
  return {
    name: 'modulator',
    watches: { over: takenAway(loop) },
    memory: { on_s: rest * period_s, since_s: 0 },
    start: (io) => io.timerAt('clock', 0),
    react: (event, io) => {
      if (event === 'clock') {
        io.timerAt('clock', io.time_s + period_s)
        const test = testLine(tones, io.knob('test'), io.time_s, io.time_s + (io.recall('on_s') as number))
        const offset = -rest - test.value
        if (io.read('over') + offset >= 0) return
        io.remember('since_s', io.time_s)
        io.set('switch', true)
        io.arm('over', { offset, slope_per_s: 1 / period_s - test.slope_per_s })
        io.timerAt('most', io.time_s + loop.mostDuty * period_s)
        return
      }
      io.remember('on_s', io.time_s - (io.recall('since_s') as number))
      io.set('switch', false)
      io.disarm('over')
      io.cancel('most')
    },
  }
}

/** On at the clock, off when the primary current with slope compensation passes the peak asked for. */
export function peakControl(loop: SwitchedLoop, tones: readonly Tone[]): Controller {
  const { point, modulator } = loop
  const period_s = 1 / loop.stage.frequency_Hz
  const slope = modulator.style === 'peak-current' ? modulator.slope_A_per_s : 0
  const rest_A = point.primary_Apeak + slope * point.duty * period_s
  return {
    name: 'modulator',
    watches: { over: sum(current('switch'), takenAway(loop)), limit: current('switch') },
    memory: { on_s: point.duty * period_s, since_s: 0 },
    start: (io) => io.timerAt('clock', 0),
    react: (event, io) => {
      if (event === 'clock') {
        io.timerAt('clock', io.time_s + period_s)
        const test = testLine(tones, io.knob('test'), io.time_s, io.time_s + (io.recall('on_s') as number))
        if (io.read('over') - rest_A - test.value >= 0) return
        io.remember('since_s', io.time_s)
        io.set('switch', true)
        io.arm('over', { offset: -rest_A - test.value, slope_per_s: slope - test.slope_per_s })
        io.arm('limit', { offset: -loop.mostPeak_A, slope_per_s: 0 })
        io.timerAt('most', io.time_s + loop.mostDuty * period_s)
        return
      }
      io.remember('on_s', io.time_s - (io.recall('since_s') as number))
      io.set('switch', false)
      io.disarm('over')
      io.disarm('limit')
      io.cancel('most')
    },
  }
}
