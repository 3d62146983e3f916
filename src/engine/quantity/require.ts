/**
 * Throws a RangeError that names the field, the value and the limit, unless `low <= value <= high`.
 * NaN is refused. `unit` is only used in the sentence.
 */
export function requireBetween(field: string, value: number, low: number, high: number, unit = ''): void {
  if (!(value >= low && value <= high))
    throw new RangeError(
      `${field} is ${value} ${unit}, outside ${low} to ${high} ${unit}`.replaceAll(' ,', ','),
    )
}
