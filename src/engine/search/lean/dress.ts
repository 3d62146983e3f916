import { type ExcessResistance, harmonicCount } from '../../converter/harmonics.ts'
import { ringingResponse } from '../../converter/ringing.ts'
import { riseResponse } from '../../converter/rise.ts'
import { junctionToAmbient } from '../../heat/index.ts'
import { copperResistanceRatio } from '../../magnetics/wire/index.ts'
import type { Heatsink } from '../../parts/part.ts'
import type { Build } from '../../supply/build.ts'
import type { Design, PartsUsed } from '../../supply/design.ts'
import type { Plant } from '../../supply/evaluate/plant.ts'
import { chooseClamp } from '../../supply/resolve/clamp.ts'
import type { LaidCoil } from '../../supply/resolve/coil.ts'
import type { Gap } from '../../supply/resolve/gap.ts'
import { leakageDamping_ohm } from '../../supply/resolve/leakage-damping.ts'
import { newRises, risesOf } from '../../supply/resolve/rise-path.ts'
import { handoverLeakage_H, leadsAtPrimary_H, starWithTrack } from '../../supply/resolve/secondary-path.ts'
import type { Candidate } from '../space/candidate.ts'
import { type Frame, sinksOf, snubberOf } from '../space/frames.ts'
import type { Space } from '../space/space.ts'
import type { LeanCoil } from './bench.ts'
import type { QuickCoil } from './quick-coil.ts'
import type { Stand } from './stand.ts'

const dressed = new WeakMap<Stand, Map<string, PartsUsed>>()

/** The parts of a stand with the wires of a candidate. */
export function partsWith(stand: Stand, { primaryWire, secondaryWire }: Candidate): PartsUsed {
  let known = dressed.get(stand)
  if (!known) {
    known = new Map()
    dressed.set(stand, known)
  }
  const key = `${primaryWire.id} ${secondaryWire.id}`
  let parts = known.get(key)
  if (!parts) {
    parts = { ...stand.parts, primaryWire, secondaryWire }
    known.set(key, parts)
  }
  return parts
}

/** Hand-wound leakage strays this far, as the design takes it. */
const leakageSpread = { down: 0.7, up: 1.5 }

const noExcess = new Float64Array(harmonicCount)
const withoutExcess: ExcessResistance = {
  primary_ohm: noExcess,
  secondary_ohm: noExcess,
  mutual_ohm: noExcess,
}

/** All leakage on the secondary's side of the bias winding, which then takes most out of the clamp. */
const mostDrawn = { secondaryShare: 1, biasShare: 1 }

const unmoved = riseResponse({ leakage_H: 1, drain_F: 1, junction_F: 1, snubber: null })
/** Nothing handed over to a clamp that burns nothing. */
const noRise = { ...unmoved, energy: unmoved.energy.map(() => 0), settled: 0 }
const noRises = { typical: noRise, maximum: noRise }
const noClamp_ohm = 1e12

/** Puts a frame with its gap into the plant of its stand, with a coil that neither leaks nor resists. */
export function dressBare(stand: Stand, space: Space, frame: Frame, gap: Gap): void {
  const { plant: p } = stand
  dressFrame(stand, space, frame, gap)
  p.leakage_H = noLeakage
  p.drainCapacitance_F = stand.parts.switcher.outputCapacitance_F
  p.rise = noRises
  p.clampResistor_ohm = noClamp_ohm
  dressLightly(stand, { primary20_ohm: 0, secondary20_ohm: 0 })
}

const noLeakage = { minimum: 0, typical: 0, maximum: 0 }

/** Written over from candidate to candidate. */
const rises = newRises()

/** Puts a frame with its gap and laid coil into the plant of its stand, and the clamp that they ask for. */
export function dressLaid(stand: Stand, space: Space, frame: Frame, gap: Gap, laid: LaidCoil): void {
  const { plant: p, parts } = stand
  const { turns } = frame
  const { leakage_H, drainCapacitance_F: coil_F } = laid
  dressFrame(stand, space, frame, gap)
  p.leakage_H = handoverLeakage_H(
    {
      minimum: leakageSpread.down * leakage_H,
      typical: leakage_H,
      maximum: leakageSpread.up * leakage_H,
    },
    turns.turnsRatio,
  )
  p.drainCapacitance_F = parts.switcher.outputCapacitance_F + coil_F
  const snubber = snubberOf(space, frame)
  p.rise = risesOf(
    p.leakage_H,
    p.capacitorLeads_H,
    p.drainCapacitance_F,
    parts.rectifier,
    snubber,
    turns.turnsRatio,
    rises,
  )
  const clamp = chooseClamp(
    { ...resistorClamp, snubber, outputCount: p.outputCount },
    parts,
    turns,
    leakage_H,
    coil_F,
    frame.estimate,
    p.rise.typical,
  )
  if (clamp.ok) {
    p.clampResistor_ohm = clamp.value.resistor_ohm
    p.clampCapacitor_F = clamp.value.capacitor_F
  }
}

/**
 * Puts the resistance of a coil at direct current into a plant, without skin and proximity loss: what breaks or is
 * outdone so is so in earnest.
 */
export function dressLightly(
  { plant: p }: Stand,
  coil: Pick<QuickCoil, 'primary20_ohm' | 'secondary20_ohm'>,
): void {
  p.primaryResistance20_ohm = coil.primary20_ohm
  p.secondaryResistance20_ohm = coil.secondary20_ohm
  p.biasResistance20_ohm = 0
  p.leakageStar = mostDrawn
  p.excess = withoutExcess
}

/** Puts all that a coil does into the plant that it has been laid for. */
export function dressCoil(stand: Stand, frame: Frame, coil: LeanCoil): void {
  const { plant: p } = stand
  stand.rings = null
  p.primaryResistance20_ohm = coil.primary.dcResistance_ohm
  p.secondaryResistance20_ohm = coil.secondary.dcResistance_ohm
  p.biasResistance20_ohm = coil.bias.dcResistance_ohm
  p.leakageStar = starWithTrack(coil.star, coil.leakage_H, frame.turns.turnsRatio)
  p.excess = coil.excess
}

function dressFrame(stand: Stand, space: Space, frame: Frame, gap: Gap): void {
  const { plant: p, parts } = stand
  const { turns } = frame
  p.primaryTurns = turns.primary
  p.turnsRatio = turns.turnsRatio
  p.biasPrimaryRatio = turns.bias / turns.primary
  p.inductance_H = gap.inductance_H
  p.capacitorLeads_H = leadsAtPrimary_H(turns.turnsRatio, p.outputCount)
  p.bias_V =
    (turns.reflectedVoltage_V / turns.turnsRatio) * (turns.bias / turns.secondary) - parts.biasDiode.drop_V
  p.snubber_F = snubberOf(space, frame)?.capacitor_F ?? 0
  const sinks = sinksOf(space, frame)
  p.switchHeat_K_per_W = heatPath(space, parts.switcher, sinks.switcher)
  p.rectifierHeat_K_per_W = heatPath(space, parts.rectifier, sinks.rectifier)
}

/** Quality of the ring of leakage and drain capacitance that a coil leaves, as the evaluation works it out. */
export function coilQuality(p: Plant, coil: LeanCoil): number {
  const transformer = { coil, turnsRatio: p.turnsRatio } as Design['transformer']
  const { leakage_H, drainCapacitance_F } = p
  const f = p.frequency_Hz.typical
  return (
    leakageDamping_ohm({ transformer }, f, leakage_H.typical, drainCapacitance_F) /
    Math.sqrt(leakage_H.typical / drainCapacitance_F)
  )
}

/** What rings on the rectifier of a dressed plant whose leakage rings with a quality, as the evaluation works it out. */
export const ringingOf = (p: Plant, quality: number, snubber: Build['snubber']): Plant['ringing'] => {
  const square = p.turnsRatio ** 2
  return ringingResponse({
    leakage_H: p.secondaryLoop_H,
    damping_ohm: (quality * Math.sqrt(p.leakage_H.typical / p.drainCapacitance_F)) / square,
    series_ohm:
      copperResistanceRatio(20, 80) * (p.secondaryResistance20_ohm + p.primaryResistance20_ohm / square) +
      p.onResistance25_ohm / square,
    junction_F: Math.max(1e-12, p.rectifierCapacitance_F),
    snubber,
  })
}

/** The clamp that candidates have. */
const resistorClamp: Pick<Build, 'clamp'> = {
  clamp: { style: 'resistor-capacitor', voltage_V: null, resistor_ohm: null, capacitor_F: null },
}

function heatPath(
  space: Space,
  part: { readonly junctionToCase_K_per_W: number; readonly junctionToAmbient_K_per_W: number },
  sink: string | null,
): number {
  const heatsink = sink === null ? null : (space.parts.get(sink) as Heatsink)
  return junctionToAmbient({
    junctionToCase_K_per_W: part.junctionToCase_K_per_W,
    junctionToAmbient_K_per_W: part.junctionToAmbient_K_per_W,
    heatsink,
    pad: null,
  })
}
