import { wireHeight_m, wireWidth_m } from '../wire/index.ts'
import type { StackError, StackInput } from './types.ts'

const mm = (value_m: number): string => `${Number((value_m * 1000).toPrecision(4))} mm`

/** Dimensions that make a winding impossible, each with a sentence that names it; empty when all can be wound. */
export const checkStack = (input: StackInput): StackError[] => {
  const errors: StackError[] = []
  const refuse = (field: string, value: number, limit: number, message: string): void => {
    errors.push({ field, value, limit, message })
  }
  const needPositive = (field: string, value: number, name: string): void => {
    if (!(value > 0 && Number.isFinite(value)))
      refuse(field, value, 0, `${name} is ${mm(value)}; it must be above 0 mm`)
  }
  const needNotNegative = (field: string, value: number, name: string): void => {
    if (!(value >= 0 && Number.isFinite(value)))
      refuse(field, value, 0, `${name} is ${mm(value)}; it must not be negative`)
  }
  const { former, core } = input
  needNotNegative('tape_m', input.tape_m, 'tape thickness')
  needNotNegative('margin_m', input.margin_m, 'margin')
  needNotNegative('tail_m', input.tail_m, 'tail length')
  needPositive('former.width_m', former.width_m, 'winding width of the former')
  needPositive('former.height_m', former.height_m, 'winding height of the former')
  needPositive('core.height_m', core.height_m, 'window height of the core')
  needPositive('core.width_m', core.width_m, 'window width of the core')
  if (!(core.coveredFraction >= 0 && core.coveredFraction <= 1))
    refuse(
      'core.coveredFraction',
      core.coveredFraction,
      1,
      `covered fraction of a turn is ${core.coveredFraction}; it must lie between 0 and 1`,
    )
  if (!(Number.isInteger(input.tapeLayersInside) && input.tapeLayersInside >= 0))
    refuse(
      'tapeLayersInside',
      input.tapeLayersInside,
      0,
      `tape inside a winding is ${input.tapeLayersInside} layers; it must be a whole number from 0`,
    )
  if (core.height_m < former.width_m + 2 * former.flange_m - 1e-9)
    refuse(
      'core.height_m',
      core.height_m,
      former.width_m + 2 * former.flange_m,
      `core window is ${mm(core.height_m)} high, smaller than the former with its flanges, ${mm(former.width_m + 2 * former.flange_m)}`,
    )
  if (core.width_m <= former.wall_m)
    refuse(
      'core.width_m',
      core.width_m,
      former.wall_m,
      `core window is ${mm(core.width_m)} wide, smaller than the wall of the former, ${mm(former.wall_m)}`,
    )
  const available_m = former.width_m - 2 * input.margin_m
  if (available_m <= 0)
    refuse(
      'margin_m',
      input.margin_m,
      former.width_m / 2,
      `two margins of ${mm(input.margin_m)} leave no width on a former of ${mm(former.width_m)}`,
    )
  input.stack.forEach((entry, index) => {
    if (entry.kind === 'tape') {
      if (!(Number.isInteger(entry.layers) && entry.layers >= 0))
        refuse(
          `stack.${index}.layers`,
          entry.layers,
          0,
          `tape at place ${index + 1} has ${entry.layers} layers; it must be a whole number from 0`,
        )
    } else if (entry.kind === 'shield')
      needPositive(`stack.${index}.thickness_m`, entry.thickness_m, 'shield')
    else {
      const used = input.wires[entry.winding]
      if (!(Number.isInteger(entry.turns) && entry.turns >= 1))
        refuse(
          `stack.${index}.turns`,
          entry.turns,
          1,
          `${entry.winding} at place ${index + 1} has ${entry.turns} turns; it must be a whole number from 1`,
        )
      if (used === undefined) {
        refuse(`wires.${entry.winding}`, 0, 1, `no wire is given for winding ${entry.winding}`)
        return
      }
      if (!(Number.isInteger(used.inHand) && used.inHand >= 1)) {
        refuse(
          `wires.${entry.winding}.inHand`,
          used.inHand,
          1,
          `${entry.winding} has ${used.inHand} wires in hand; it must be a whole number from 1`,
        )
        return
      }
      const foil = used.wire.construction === 'foil'
      const width_m = wireWidth_m(used.wire) * (foil ? 1 : used.inHand)
      if (available_m > 0 && width_m > available_m)
        refuse(
          `wires.${entry.winding}`,
          width_m,
          available_m,
          `one turn of ${entry.winding} is ${mm(width_m)} wide, more than the winding width between margins, ${mm(available_m)}`,
        )
      const height_m = wireHeight_m(used.wire) * (foil ? used.inHand : 1)
      if (former.height_m > 0 && height_m > former.height_m)
        refuse(
          `wires.${entry.winding}`,
          height_m,
          former.height_m,
          `${entry.winding} wire is ${mm(height_m)} thick, more than the height of the winding space, ${mm(former.height_m)}`,
        )
    }
  })
  return errors
}
