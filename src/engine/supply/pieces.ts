import type { Build, Place } from './build.ts'

/** How many pieces of its part a place takes. */
export const piecesAt = (build: Build, place: Place): number =>
  place === 'bulkCapacitor'
    ? build.bulkCount
    : place === 'outputCapacitor'
      ? build.outputCount
      : place === 'secondCapacitor'
        ? build.secondCount
        : 1
