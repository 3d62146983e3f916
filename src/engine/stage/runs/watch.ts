import type { Design } from '../../supply/design.ts'
import type { StageParameters } from '../parameters.ts'
import type { TraceRow } from './trace.ts'

/** A limit that a run can pass. */
export interface RunLimit {
  /** Id of the limit of the closed form where there is one. */
  readonly id: string
  readonly label: string
  readonly unit: 'V' | 'A' | '°C'
  readonly rating: number
  readonly read: (row: TraceRow) => number
  /** Beyond it the part is gone, and the run with it. */
  readonly destroys: boolean
}

/** A limit passed: when first, and how far in the end. */
export interface PassedLimit {
  readonly id: string
  readonly label: string
  readonly unit: 'V' | 'A' | '°C'
  readonly rating: number
  readonly reading: number
  readonly time_s: number
  readonly destroys: boolean
}

/** Part of the output voltage beyond which a load is at risk; common practice, no source. */
const loadRisk = 1.15

/** The ratings that a run is watched against. */
export function runLimits(d: Design, p: StageParameters): RunLimit[] {
  const { parts } = d
  const third = p.knees[1]
  return [
    {
      id: 'switcher.drain-voltage',
      label: 'drain voltage',
      unit: 'V',
      rating: parts.switcher.drainVoltage_V,
      read: (r) => r.drainMost_V,
      destroys: true,
    },
    {
      id: 'rectifier.reverse-margin',
      label: 'rectifier reverse voltage',
      unit: 'V',
      rating: parts.rectifier.reverse_V,
      read: (r) => r.reverseMost_V,
      destroys: true,
    },
    ...(third
      ? [
          {
            id: 'core.saturation',
            label: 'current at which the core has lost a third of its inductance',
            unit: 'A' as const,
            rating: third.current_A,
            read: (r: TraceRow) => r.currentMost_A,
            destroys: false,
          },
        ]
      : []),
    {
      id: 'output-capacitor.voltage',
      label: 'output capacitor voltage',
      unit: 'V',
      rating: parts.outputCapacitor.voltage_V,
      read: (r) => r.outputMost_V,
      destroys: true,
    },
    {
      id: 'output.over',
      label: 'output, 15 % over what it should be',
      unit: 'V',
      rating: loadRisk * Math.max(d.need.trimHigh_V, p.output_V),
      read: (r) => r.outputMost_V,
      destroys: false,
    },
    {
      id: 'bias-capacitor.voltage',
      label: 'bias capacitor voltage',
      unit: 'V',
      rating: parts.biasCapacitor.voltage_V,
      read: (r) => r.bias_V,
      destroys: true,
    },
    {
      id: 'switcher.bias-high',
      label: 'bias voltage of the chip',
      unit: 'V',
      rating: parts.switcher.biasVoltage_V.maximum,
      read: (r) => r.bias_V,
      destroys: false,
    },
    {
      id: 'switcher.junction',
      label: 'junction temperature at which the chip shuts down',
      unit: '°C',
      rating: parts.switcher.thermalShutdown_C.typical,
      read: (r) => r.junction_C,
      destroys: false,
    },
  ]
}

/** Keeps which limits were passed. */
export class LimitWatch {
  readonly passed = new Map<string, PassedLimit>()
  private readonly limits: readonly RunLimit[]

  constructor(limits: readonly RunLimit[]) {
    this.limits = limits
  }

  see(row: TraceRow): void {
    for (const limit of this.limits) {
      const reading = limit.read(row)
      if (!(reading > limit.rating)) continue
      const before = this.passed.get(limit.id)
      const { id, label, unit, rating, destroys } = limit
      this.passed.set(id, {
        id,
        label,
        unit,
        rating,
        destroys,
        reading: Math.max(reading, before?.reading ?? 0),
        time_s: before?.time_s ?? row.time_s,
      })
    }
  }

  /** When the first part was destroyed; infinite while none is. */
  get destroyedAt_s(): number {
    return Math.min(
      Number.POSITIVE_INFINITY,
      ...[...this.passed.values()].filter((limit) => limit.destroys).map((limit) => limit.time_s),
    )
  }
}
