export { chokeInductance, permeabilityLeft, turnsForInductance } from './bias.ts'
export { type ChokeDuty, type ChokeReadings, choke, ringRise } from './choke.ts'
export { type RingGeometry, ringGeometry, ringInductanceFactor } from './ring.ts'
export { type RingWinding, windingResistance, windRing } from './winding.ts'
