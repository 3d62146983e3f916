/** What the power stage of a flyback sees in one switching cycle, all at the primary. SI units. */
export interface StageInput {
  /** Voltage across the primary in the on-time: bulk less the drop of the switch. */
  readonly on_V: number
  /** Voltage across the primary while the rectifier conducts: reflected voltage. */
  readonly reflected_V: number
  readonly inductance_H: number
  readonly frequency_Hz: number
  /** Mean current to be drawn from the bulk. */
  readonly average_A: number
  /** Shortest on-time of the chip; below the power it carries, pulses are skipped. */
  readonly minimumOnTime_s: number
}

/** Currents and times of one cycle at the primary. */
export interface StageCycle {
  readonly mode: 'skip' | 'discontinuous' | 'continuous'
  /** Frequency of the clock. */
  readonly frequency_Hz: number
  /** On-time over period, while pulses come. */
  readonly duty: number
  /** Rectifier conduction over period, while pulses come. */
  readonly secondaryDuty: number
  /** Mean pulse rate. */
  readonly rate_Hz: number
  readonly peak_A: number
  /** Current at which the on-time starts. */
  readonly valley_A: number
}

/** Duty of continuous mode by volt-second balance: Vor / (Vor + Von). Any textbook. */
export const continuousDuty = (on_V: number, reflected_V: number): number =>
  reflected_V / (reflected_V + on_V)

/** Mean current at the boundary of modes: Von D² / (2 L f). */
export const boundaryAverage_A = (
  on_V: number,
  reflected_V: number,
  inductance_H: number,
  frequency_Hz: number,
): number => (on_V * continuousDuty(on_V, reflected_V) ** 2) / (2 * inductance_H * frequency_Hz)

/**
 * Solves one cycle of a flyback stage for the mean primary current it must draw, and says in which mode it runs.
 *
 * Continuous: D = Vor/(Vor + Von), ΔI = Von D/(L f), Ipk = Iavg/D + ΔI/2.
 * Discontinuous: Ipk = sqrt(2 Iavg Von/(L f)), D = Ipk L f/Von, Ds = Ipk L f/Vor.
 * Skip: Ipk = Von tmin/L, pulse rate = 2 Iavg Von/(L Ipk²).
 * Valid for fixed frequency, rigid input and output within a cycle, leakage small against the inductance.
 * Erickson and Maksimovic, Fundamentals of Power Electronics, ch. 5 and 6.
 */
export function stageCycle(input: StageInput): StageCycle {
  const { on_V, reflected_V, inductance_H: L, frequency_Hz: f, average_A, minimumOnTime_s } = input
  const duty = continuousDuty(on_V, reflected_V)
  const rise = (on_V * duty) / (L * f)
  if (average_A > 0.5 * rise * duty) {
    const peak = average_A / duty + 0.5 * rise
    return {
      mode: 'continuous',
      frequency_Hz: f,
      duty,
      secondaryDuty: 1 - duty,
      rate_Hz: f,
      peak_A: peak,
      valley_A: peak - rise,
    }
  }
  const least = (on_V * minimumOnTime_s) / L
  const peak = Math.sqrt((2 * average_A * on_V) / (L * f))
  if (peak >= least)
    return {
      mode: 'discontinuous',
      frequency_Hz: f,
      duty: (peak * L * f) / on_V,
      secondaryDuty: (peak * L * f) / reflected_V,
      rate_Hz: f,
      peak_A: peak,
      valley_A: 0,
    }
  return {
    mode: 'skip',
    frequency_Hz: f,
    duty: minimumOnTime_s * f,
    secondaryDuty: (least * L * f) / reflected_V,
    rate_Hz: (2 * average_A * on_V) / (L * least * least),
    peak_A: least,
    valley_A: 0,
  }
}
