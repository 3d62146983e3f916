import type { Switcher } from '../../parts/part.ts'

/** Junction of a power package against its case, typical of the trade, no source. */
const settle_s = 30e-3

/**
 * Junction of the chip as a slow state: it warms over its case with the chip's loss, the case itself stays for the
 * second that a run lasts. Beyond the shutdown temperature the chip is held off until it has cooled by its hysteresis.
 */
export class Junction {
  temperature_C: number
  hot = false
  private readonly case_C: number
  private readonly part: Switcher

  constructor(part: Switcher, start_C: number) {
    this.part = part
    this.case_C = start_C
    this.temperature_C = start_C
  }

  /** Lets a time pass with a loss, W. */
  pass(loss_W: number, span_s: number): void {
    const end_C = this.case_C + this.part.junctionToCase_K_per_W * Math.max(0, loss_W)
    this.temperature_C += (end_C - this.temperature_C) * -Math.expm1(-span_s / settle_s)
  }

  judge(): void {
    const { thermalShutdown_C, thermalHysteresis_K } = this.part
    const edge_C = thermalShutdown_C.typical - (this.hot ? thermalHysteresis_K : 0)
    this.hot = this.temperature_C > edge_C
  }
}
