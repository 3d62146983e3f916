import { requireBetween } from '../quantity/require.ts'

/**
 * Quasi-peak limit of conducted emission for class B equipment at a frequency, dB above 1 uV: 66 falling to 56 with the
 * logarithm of frequency from 150 to 500 kHz, 56 to 5 MHz, 60 to 30 MHz (CISPR 32 / EN 55032 class B; from memory).
 * Null outside 150 kHz to 30 MHz.
 */
export function emissionLimit(frequency_Hz: number): number | null {
  if (frequency_Hz < 150e3 || frequency_Hz > 30e6) return null
  if (frequency_Hz <= 500e3) return 66 - (10 * Math.log(frequency_Hz / 150e3)) / Math.log(500 / 150)
  return frequency_Hz <= 5e6 ? 56 : 60
}

export interface EmissionSource {
  readonly frequency_Hz: number
  /** Current drawn from the bulk capacitor: pulse height and duty. */
  readonly pulse_A: number
  readonly duty: number
  /** Series resistance and inductance of the bulk capacitor. */
  readonly bulkResistance_ohm: number
  readonly bulkInductance_H: number
  /** Swing of the switch node and its edge time. */
  readonly swing_V: number
  readonly edge_s: number
  /** Capacitance from the primary to the secondary winding, and from the switch node to earth. */
  readonly windingCapacitance_F: number
  readonly strayCapacitance_F: number
  /** Capacitance from the output to earth (a lead and a load on a bench), or a large value for an earthed output. */
  readonly outputToEarth_F: number
}

export interface EmissionFilter {
  readonly differentialInductance_H: number
  readonly xCapacitance_F: number
  readonly commonInductance_H: number
  readonly yCapacitance_F: number
}

export interface EmissionPoint {
  readonly frequency_Hz: number
  readonly differential_dBuV: number
  readonly common_dBuV: number
  readonly limit_dBuV: number
}

export interface EmissionEstimate {
  readonly points: readonly EmissionPoint[]
  /** Least distance below the limit over all points and both kinds, dB; negative is above it. */
  readonly differentialMargin_dB: number
  readonly commonMargin_dB: number
  readonly note: string
}

/**
 * Conducted emission of a switching stage at its harmonics from 150 kHz on, behind a 50 uH/50 ohm artificial mains
 * network. An estimate for sizing a filter, good to perhaps 10 dB where layout and coupling are kind.
 *
 * Harmonics by the envelope of a trapezoid, 2 A d min(1, 1/(pi n d)) min(1, 1/(pi n f tr)), rms. Differential: the
 * current's harmonics make a voltage on the bulk capacitor's impedance, which reaches 100 ohm through the series
 * inductance with the X capacitor across; each 50 ohm sees half. Common: the switch node drives the winding capacitance
 * into the secondary, whence the Y capacitor takes it home and the output's capacitance to earth leads the rest through
 * choke and 25 ohm; the stray to earth adds directly. Sources: the usual equivalent circuits, e.g. Paul, Introduction
 * to Electromagnetic Compatibility, ch. 5 to 7 (from memory). Quasi-peak taken equal to the harmonic's rms, as for any
 * repetition above the receiver's bandwidth of 9 kHz.
 */
export function estimateEmission(source: EmissionSource, filter: EmissionFilter): EmissionEstimate {
  requireBetween('frequency_Hz', source.frequency_Hz, 1e4, 2e6, 'Hz')
  requireBetween('duty', source.duty, 0.001, 0.999)
  requireBetween('edge_s', source.edge_s, 1e-10, 1e-5, 's')
  const points: EmissionPoint[] = []
  let differentialMargin = Number.POSITIVE_INFINITY
  let commonMargin = Number.POSITIVE_INFINITY
  for (let n = Math.ceil(150e3 / source.frequency_Hz); n * source.frequency_Hz <= 30e6; n++) {
    const f = n * source.frequency_Hz
    const limit_dBuV = emissionLimit(f)
    if (limit_dBuV === null) continue
    const differential_dBuV = decibels(differential(source, filter, n))
    const common_dBuV = decibels(common(source, filter, n))
    differentialMargin = Math.min(differentialMargin, limit_dBuV - differential_dBuV)
    commonMargin = Math.min(commonMargin, limit_dBuV - common_dBuV)
    points.push({ frequency_Hz: f, differential_dBuV, common_dBuV, limit_dBuV })
  }
  return {
    points,
    differentialMargin_dB: differentialMargin,
    commonMargin_dB: commonMargin,
    note: 'estimate; a receiver and an artificial mains network decide',
  }
}

/**
 * Least inductance of one kind that brings its estimate a margin below the limit with the rest of the filter as it is;
 * null when 100 mH would not.
 */
export function inductanceNeeded(
  kind: 'differential' | 'common',
  source: EmissionSource,
  filter: EmissionFilter,
  margin_dB = 6,
): number | null {
  const margin = (inductance: number): number =>
    kind === 'differential'
      ? estimateEmission(source, { ...filter, differentialInductance_H: inductance }).differentialMargin_dB
      : estimateEmission(source, { ...filter, commonInductance_H: inductance }).commonMargin_dB
  if (margin(0) >= margin_dB) return 0
  if (margin(0.1) < margin_dB) return null
  let low = Math.log(1e-7)
  let high = Math.log(0.1)
  for (let k = 0; k < 24; k++) {
    const middle = 0.5 * (low + high)
    if (margin(Math.exp(middle)) < margin_dB) low = middle
    else high = middle
  }
  return Math.exp(high)
}

const decibels = (volts: number): number => 20 * Math.log10(Math.max(volts, 1e-12) / 1e-6)

function envelope(height: number, duty: number, n: number, edgeOverPeriod: number): number {
  const flat = 2 * height * duty * Math.min(1, 1 / (Math.PI * n * duty))
  return (flat * Math.min(1, 1 / (Math.PI * n * edgeOverPeriod))) / Math.SQRT2
}

function differential(s: EmissionSource, filter: EmissionFilter, n: number): number {
  const w = 2 * Math.PI * n * s.frequency_Hz
  const edge = s.edge_s * s.frequency_Hz
  const volts =
    envelope(s.pulse_A, s.duty, n, edge) * Math.hypot(s.bulkResistance_ohm, w * s.bulkInductance_H)
  const b = w * filter.xCapacitance_F
  const g = 1 / 100
  const y2 = g * g + b * b
  const zr = g / y2
  const zi = -b / y2
  const divider =
    Math.hypot(zr, zi) /
    Math.hypot(zr + s.bulkResistance_ohm, zi + w * (filter.differentialInductance_H + s.bulkInductance_H))
  return 0.5 * volts * divider
}

function common(s: EmissionSource, filter: EmissionFilter, n: number): number {
  const w = 2 * Math.PI * n * s.frequency_Hz
  const volts = envelope(s.swing_V, s.duty, n, s.edge_s * s.frequency_Hz)
  const outside = Math.hypot(25, w * filter.commonInductance_H - 1 / (w * s.outputToEarth_F))
  const inside = 1 / (w * (filter.yCapacitance_F + s.windingCapacitance_F))
  const through =
    (w * s.windingCapacitance_F * volts * inside) / Math.max(1e-9, outsideLoop(s, filter, w, outside))
  const stray = (w * s.strayCapacitance_F * volts * 25) / Math.hypot(25, w * filter.commonInductance_H)
  return 25 * through + stray
}

/** Size of the series impedance of Y capacitor and outside path together. */
const outsideLoop = (s: EmissionSource, filter: EmissionFilter, w: number, outside: number): number =>
  Math.max(
    Math.hypot(
      25,
      w * filter.commonInductance_H -
        1 / (w * s.outputToEarth_F) -
        1 / (w * (filter.yCapacitance_F + s.windingCapacitance_F)),
    ),
    0.1 * outside,
  )
