/** What one pin of a former takes: wires wrapped on it, and their copper; common practice, no source. */
export const wiresAPin = 4
export const copperAPin_m2 = 1.5e-6

/**
 * Pins that one end of a winding is spread over, no more than it needs: `ends` of them share a row of `row` pins.
 * `copper_m2` is the copper of one wire.
 */
export function pinsAnEnd(inHand: number, copper_m2: number, row: number, ends: number): number {
  const most = Math.max(1, Math.min(wiresAPin, Math.floor(copperAPin_m2 / copper_m2)))
  return Math.min(Math.max(1, Math.floor(row / ends)), Math.ceil(inHand / most))
}
