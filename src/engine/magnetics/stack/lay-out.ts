import { copperArea_m2, wireHeight_m, wireWidth_m } from '../wire/index.ts'
import { barrelPerimeter_m, coreLimit_m, turnLength_m } from './barrel.ts'
import { checkStack } from './check-stack.ts'
import type {
  Fit,
  StackInput,
  StackResult,
  WindingEntry,
  WoundLayer,
  WoundSection,
  WoundShield,
  WoundTape,
} from './types.ts'

/** Fill above which a hand winding becomes difficult. Common practice, no source. */
export const tightFill = 0.85

/**
 * Turns that fit side by side. A winding is a helix: at its start the layer shows one bundle more than it has
 * turns, so one place is lost. Common practice, no source.
 */
export const turnsPerLayer = (available_m: number, bundleWidth_m: number): number =>
  Math.max(1, Math.floor(available_m / bundleWidth_m + 1e-9) - 1)

const fitOf = (fill: number): Fit => (fill > 1 ? 'does-not-fit' : fill > tightFill ? 'tight' : 'fits')

/**
 * Geometry of a winding stack, from the barrel outward. Every layer spreads its turns evenly over the width between
 * margins; foil lies one turn a layer; several foils in hand lie on each other. Runs in microseconds; coordinates of
 * single turns come from `turnPositions`.
 */
export const layOut = (input: StackInput): StackResult => {
  const errors = checkStack(input)
  if (errors.length > 0) return { ok: false, errors }
  const { former } = input
  const available_m = former.width_m - 2 * input.margin_m
  const perimeter_m = barrelPerimeter_m(former.barrel)
  const layers: WoundLayer[] = []
  const sections: WoundSection[] = []
  const tapes: WoundTape[] = []
  const shields: WoundShield[] = []
  const windings: string[] = []
  let height_m = 0
  let copper_m2 = 0

  const wind = (entry: WindingEntry, index: number): void => {
    const { wire, inHand } = input.wires[entry.winding]!
    const foil = wire.construction === 'foil'
    const layerHeight_m = wireHeight_m(wire) * (foil ? inHand : 1)
    const bundle_m = wireWidth_m(wire) * (foil ? 1 : inHand)
    const capacity = foil ? 1 : turnsPerLayer(available_m, bundle_m)
    const count = Math.ceil(entry.turns / capacity)
    const bottom_m = height_m
    let length_m = 0
    let left = entry.turns
    for (let layer = 0; layer < count; layer++) {
      if (layer > 0 && input.tapeLayersInside > 0) {
        const top_m = height_m + input.tapeLayersInside * input.tape_m
        tapes.push({
          entry: index,
          layers: input.tapeLayersInside,
          bottom_m: height_m,
          top_m,
          between: 'layers',
        })
        height_m = top_m
      }
      const turns = Math.min(capacity, left)
      left -= turns
      const meanTurn_m = turnLength_m(perimeter_m, height_m + layerHeight_m / 2)
      // An even helix from margin to margin: turns · pitch + one bundle = available width.
      const pitch_m = Math.max(bundle_m, (available_m - bundle_m) / turns)
      const half_m = ((turns - 1) * pitch_m + bundle_m) / 2
      layers.push({
        entry: index,
        winding: entry.winding,
        turns,
        inHand,
        bottom_m: height_m,
        top_m: height_m + layerHeight_m,
        axialStart_m: -half_m,
        axialEnd_m: half_m,
        pitch_m,
        meanTurn_m,
      })
      length_m += turns * meanTurn_m
      height_m += layerHeight_m
    }
    copper_m2 += entry.turns * inHand * copperArea_m2(wire)
    if (!windings.includes(entry.winding)) windings.push(entry.winding)
    sections.push({
      entry: index,
      winding: entry.winding,
      turns: entry.turns,
      layers: count,
      turnsPerLayer: capacity,
      bottom_m,
      top_m: height_m,
      meanTurn_m: length_m / entry.turns,
      cutLength_m: length_m + 2 * input.tail_m,
      startPin: entry.startPin,
      finishPin: entry.finishPin,
      direction: entry.direction,
    })
  }

  input.stack.forEach((entry, index) => {
    if (entry.kind === 'winding') wind(entry, index)
    else {
      const bottom_m = height_m
      height_m += entry.kind === 'tape' ? entry.layers * input.tape_m : entry.thickness_m
      if (entry.kind === 'tape')
        tapes.push({ entry: index, layers: entry.layers, bottom_m, top_m: height_m, between: 'entries' })
      else
        shields.push({
          entry: index,
          pin: entry.pin,
          bottom_m,
          top_m: height_m,
          axialStart_m: -available_m / 2,
          axialEnd_m: available_m / 2,
        })
    }
  })

  const windowHeight_m = Math.min(former.height_m, coreLimit_m(input.core, former))
  const fill = height_m / windowHeight_m
  return {
    ok: true,
    layout: {
      input,
      windings,
      sections,
      layers,
      tapes,
      shields,
      availableWidth_m: available_m,
      build_m: height_m,
      windowHeight_m,
      fill,
      copperFill: copper_m2 / (former.width_m * former.height_m),
      fit: fitOf(fill),
      barrelRadius_m: perimeter_m / (2 * Math.PI),
    },
  }
}
