import type { Controller } from './controller.ts'
import { current, type LinearForm } from './form.ts'

/** Drive a switch on at every period and off after `knob` (duty, 0..1) of it. */
export function fixedDuty(options: {
  readonly name: string
  readonly drives: string
  readonly period_s: number
  readonly dutyKnob: string
}): Controller {
  const { name, drives, period_s, dutyKnob } = options
  return {
    name,
    watches: {},
    memory: {},
    start: (io) => io.timerAt('on', 0),
    react: (event, io) => {
      if (event === 'off') {
        io.set(drives, false)
        return
      }
      const duty = io.knob(dutyKnob)
      io.timerAt('on', io.time_s + period_s)
      if (duty > 0) io.set(drives, true)
      if (duty < 1) io.timerAt('off', io.time_s + duty * period_s)
    },
  }
}

/**
 * Trailing-edge pulse-width modulator with natural sampling: on at the clock, off when a ramp of 0 to 1 over
 * the period passes `duty`, at the latest at `most`. No pulse when duty is not above zero at the clock.
 */
export function naturalPwm(options: {
  readonly name: string
  readonly drives: string
  readonly period_s: number
  readonly duty: LinearForm
  readonly most: number
}): Controller {
  const { name, drives, period_s, duty, most } = options
  return {
    name,
    watches: {
      low: { terms: duty.terms.map(({ gain, of }) => ({ gain: -gain, of })), offset: -duty.offset },
    },
    memory: {},
    start: (io) => io.timerAt('clock', 0),
    react: (event, io) => {
      if (event === 'clock') {
        io.timerAt('clock', io.time_s + period_s)
        if (io.read('low') >= 0) return
        io.set(drives, true)
        io.arm('low', { slope_per_s: 1 / period_s })
        io.timerAt('most', io.time_s + most * period_s)
        return
      }
      io.set(drives, false)
      io.disarm('low')
      io.cancel('most')
    },
  }
}

/**
 * Cycle-by-cycle peak current limit: on at the clock; off when the sensed current passes the limit (less a
 * slope compensation) after the blanking time and a propagation delay, at the latest at `most` of the period.
 */
export function peakCurrent(options: {
  readonly name: string
  readonly drives: string
  readonly period_s: number
  /** Element whose current is sensed. */
  readonly senses: string
  readonly limitKnob: string
  readonly blanking_s: number
  readonly delay_s?: number
  /** The limit falls by this much per second from the clock on. */
  readonly slope_A_per_s?: number
  readonly most: number
}): Controller {
  const { name, drives, period_s, senses, limitKnob, blanking_s, most } = options
  const delay = options.delay_s ?? 0
  const slope = options.slope_A_per_s ?? 0
  return {
    name,
    watches: { sensed: current(senses) },
    memory: {},
    start: (io) => io.timerAt('clock', 0),
    react: (event, io) => {
      switch (event) {
        case 'clock':
          io.set(drives, true)
          io.timerAt('clock', io.time_s + period_s)
          io.timerAt('blanked', io.time_s + blanking_s)
          io.timerAt('off', io.time_s + most * period_s)
          return
        case 'blanked':
          io.arm('sensed', { offset: slope * blanking_s - io.knob(limitKnob), slope_per_s: slope })
          return
        case 'sensed':
          if (delay > 0) {
            io.timerAfter('off', delay)
            return
          }
      }
      io.set(drives, false)
      io.disarm('sensed')
      io.cancel('off')
      io.cancel('blanked')
    },
  }
}
