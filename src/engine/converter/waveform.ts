/**
 * rms of a current which rises or falls in a straight line between `valley` and `peak` for a share `duty` of the
 * period and is zero else: Ipk sqrt(D (K²/3 - K + 1)) with K = (peak - valley)/peak, which is Ipk sqrt(D/3) when
 * the valley is zero. Units A. Any textbook.
 */
export const trapezoidRms_A = (peak_A: number, valley_A: number, duty: number): number =>
  Math.sqrt((duty * (peak_A * peak_A + peak_A * valley_A + valley_A * valley_A)) / 3)

/** Mean of the same current, A. */
export const trapezoidAverage_A = (peak_A: number, valley_A: number, duty: number): number =>
  0.5 * duty * (peak_A + valley_A)

/** rms of what is left when the mean is taken away: what a capacitor beside it carries, A. */
export const alternatingRms_A = (rms_A: number, average_A: number): number =>
  Math.sqrt(Math.max(0, rms_A * rms_A - average_A * average_A))
