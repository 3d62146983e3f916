import type { ExcessResistance } from '../../converter/harmonics.ts'
import type { RingingResponse } from '../../converter/ringing.ts'
import type { LossModel, SaturationCurve } from '../../magnetics/material/index.ts'
import type { BulkSource } from '../../mains/bulk.ts'
import type { Thermistor } from '../../mains/thermistor.ts'
import type { Spread } from '../../quantity/spread.ts'
import type { Condition } from '../condition.ts'
import type { Choke } from '../resolve/choke.ts'
import type { LeakageStar } from '../resolve/leakage-star.ts'
import type { Rises } from '../resolve/rise-path.ts'

/**
 * A design boiled down to the numbers that its operation needs, so that every condition is solved over plain
 * numbers. SI units; quantities with a spread are picked by the corner of the condition.
 */
export interface Plant {
  readonly source: Readonly<Record<Condition['input'], BulkSource>>
  readonly ambient_C: number
  readonly cooling: 'open' | 'case-vented' | 'case-closed' | 'fan'
  readonly caseSurface_m2: number

  readonly bulk_F: Spread
  readonly bulkCount: number
  readonly bulkResistance_ohm: number
  readonly bridgeDrop_V: number
  readonly bridgeSlope_ohm: number
  readonly bridgeHeat_K_per_W: number
  readonly thermistor: Thermistor | null
  readonly fixedInputResistance_ohm: number
  readonly bleed_ohm: number | null

  readonly frequency_Hz: Spread
  readonly minimumOnTime_s: number
  readonly maximumDuty: Spread
  readonly currentLimit_A: Spread
  readonly limitDelay_s: number
  readonly skipsWhenShorted: boolean
  /** Slope compensation, which lowers the limit as a pulse goes on; 0 in voltage mode. */
  readonly slope_A_per_s: number
  readonly onResistance25_ohm: number
  readonly onResistance100_ohm: number
  readonly drainCapacitance_F: number
  /** How drain and rectifier rise after turn-off. */
  readonly rise: Rises
  /** Quality of the ring of leakage and drain capacitance. */
  readonly leakageQuality: number
  readonly switchHeat_K_per_W: number
  readonly restartShare: number
  readonly chipSupply_A: number

  readonly primaryTurns: number
  readonly turnsRatio: number
  readonly inductance_H: Spread
  /** What hands the current over: of the coil, and of the way from the secondary's pins to its first capacitor. */
  readonly leakage_H: Spread
  /** Leads of the first capacitors, at the primary. */
  readonly capacitorLeads_H: number
  readonly area_m2: number
  readonly minimumArea_m2: number
  readonly coreVolume_m3: number
  readonly coreLoss: LossModel
  readonly saturation: SaturationCurve
  /** Flux at the root of the post over the flux that the turns link. */
  readonly rootFlux: number
  readonly postArea_m2: number
  readonly transformerSurface_m2: number
  readonly primaryResistance20_ohm: number
  readonly secondaryResistance20_ohm: number
  readonly biasResistance20_ohm: number
  readonly excess: ExcessResistance

  readonly clampStyle: 'resistor-capacitor' | 'avalanche'
  readonly clampResistor_ohm: number
  readonly clampCapacitor_F: number
  readonly clampDiodeDrop_V: number
  readonly avalanche_V: Spread
  readonly avalancheSlope_ohm: number
  readonly avalancheHeat_K_per_W: number

  readonly output_V: number
  readonly output_A: number
  readonly rectifierDrop_V: number
  readonly rectifierSlope_ohm: number
  readonly rectifierRecovery_s: number
  readonly rectifierCapacitance_F: number
  readonly rectifierHeat_K_per_W: number
  readonly snubber_F: number
  /** Leakage and capacitor leads at the secondary, in which the rectifier's current turns round. */
  readonly secondaryLoop_H: number
  readonly ringing: RingingResponse
  /** Lifetime of stored charge; 0 for a Schottky. */
  readonly rectifierLifetime_s: number
  readonly outputCapacitance_F: number
  readonly outputResistance_ohm: number
  readonly outputCount: number
  readonly choke: Choke | null
  readonly chokeResistance_ohm: number
  readonly secondCapacitance_F: number
  readonly secondResistance_ohm: number
  readonly standing_W: number

  /** By the ratio of turns alone. */
  readonly bias_V: number
  readonly biasDrop_V: number
  readonly biasCapacitance_F: number
  readonly biasPrimaryRatio: number
  readonly leakageStar: LeakageStar
}
