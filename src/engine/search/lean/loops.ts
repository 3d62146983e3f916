import { type Assessment, withLoopLimits } from '../../limits/index.ts'
import type { Frame, Ground } from '../space/frames.ts'

/** A loop this far short is not mended by other copper, and one with this much room not broken by it. */
const hopeless = -0.2
const plenty = 0.3
/** Reflected voltages this far apart, as a ratio, are one class. */
const classStep = 1.12

/**
 * Verdicts on loops, which take milliseconds. Frames of one chip with the same surroundings, ripple ratio and reflected
 * voltage have nearly the same loop whatever their copper: where the first of them is far short or has plenty of room the
 * rest are taken to be alike, and only between the two each is judged by itself.
 */
export class Loops {
  private readonly margins = new Map<string, number>()

  private key({ switcher }: Ground, { around, ripple, turns }: Frame): string {
    const step = Math.round(Math.log(turns.reflectedVoltage_V) / Math.log(classStep))
    return `${switcher.id} ${around} ${ripple} ${step}`
  }

  /** True where the loop of such frames is known to be far short. */
  hopeless(ground: Ground, frame: Frame): boolean {
    return (this.margins.get(this.key(ground, frame)) ?? 0) < hopeless
  }

  /** The assessment with the limits of the loop where they may matter; null where the loop is known to be short. */
  judge(ground: Ground, frame: Frame, fast: Assessment): Assessment | null {
    const key = this.key(ground, frame)
    const known = this.margins.get(key)
    if (known !== undefined && known < hopeless) return null
    if (known !== undefined && known > plenty) return fast
    const whole = withLoopLimits(fast)
    if (known === undefined) {
      const others = new Set(fast.limits.map((limit) => limit.id))
      let margin = Number.POSITIVE_INFINITY
      for (const limit of whole.limits)
        if (!others.has(limit.id) && !(limit.discrete && limit.holds)) margin = Math.min(margin, limit.margin)
      this.margins.set(key, margin)
    }
    return whole
  }
}
