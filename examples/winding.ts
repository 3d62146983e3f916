import { field, type PartOf, stack, wire } from '../src/engine/index.ts'

// A transformer of one's own, without a supply around it: 60 turns, tape, 8 turns of three wires in hand.
const enamelled = (bare_m: number): PartOf<'wire'> => ({
  ...{ id: 'wire', name: 'enamelled wire', kind: 'wire', construction: 'enamelled', temperature_C: 155 },
  ...{ bare_m, grade: 2, overall_m: wire.enamelledOverall_m(bare_m, 2) },
})
const laid = stack.layOut({
  stack: [
    { kind: 'winding', winding: 'primary', turns: 60, direction: 'clockwise', startPin: 1, finishPin: 2 },
    { kind: 'tape', layers: 3 },
    { kind: 'winding', winding: 'secondary', turns: 8, direction: 'clockwise', startPin: 10, finishPin: 9 },
    { kind: 'tape', layers: 2 },
  ],
  wires: {
    primary: { wire: enamelled(0.315e-3), inHand: 1 },
    secondary: { wire: enamelled(0.5e-3), inHand: 3 },
  },
  tape_m: 60e-6,
  former: {
    ...{ width_m: 15.4e-3, height_m: 4.5e-3, wall_m: 0.8e-3, flange_m: 0.8e-3 },
    barrel: { section: 'rectangular', width_m: 9.2e-3, depth_m: 9.2e-3 },
  },
  core: {
    ...{ height_m: 17.4e-3, width_m: 5.4e-3, coveredFraction: 0.5 },
    post: { section: 'rectangular', width_m: 7.4e-3, depth_m: 7.4e-3 },
  },
  ...{ margin_m: 0, tapeLayersInside: 1, tail_m: 0.08 },
})
if (!laid.ok) throw new Error(laid.errors[0]?.message)

// The field of every turn in the window, with a gap of 0.3 mm in the post that takes 90 % of the ampere-turns.
const solved = field.stackField(laid.layout, field.postGap(0.3e-3, 0.9))
const leakage_H = field.leakage_H(solved, 'primary', 'secondary')!
const estimate_H = stack.leakageClosedForm(laid.layout, 'primary', 'secondary')!.leakage_H
const primary = stack.windingCopper(laid.layout, 'primary', 20)!
export const lines = [
  `leakage ${(leakage_H * 1e6).toFixed(1)} µH by the field, ${(estimate_H * 1e6).toFixed(1)} µH in closed form`,
  `primary ${primary.dcResistance_ohm.toFixed(2)} ohm at 20 °C`,
]
