// Errors of the winding models against the finite-element cases of test/reference/field, and of the closed forms
// against the field solution on many stacks; written into docs/models/winding-and-field.md.
import { readFileSync, writeFileSync } from 'node:fs'
import {
  leakage_H,
  postGap,
  solveWindow,
  stackField,
  stackResistances,
} from '../src/engine/magnetics/field/index.ts'
import {
  layerFields,
  layOut,
  leakageClosedForm,
  recommendStack,
  resistanceClosedForm,
  windingCopper,
} from '../src/engine/magnetics/stack/index.ts'
import { roundWireResponse, skinDepth_m } from '../src/engine/magnetics/wire/index.ts'
import {
  casesOf,
  foilSection,
  leakageLayout,
  leakageModel,
  resistanceRatio,
  resistivity_ohm_m,
  shareOf,
  wireLayout,
  wireSection,
} from '../test/reference/field/models.ts'
import { enamelled, sampleStack } from '../test/support/sample-stack.ts'

const percent = (value: number): string => `${value > 0 ? '+' : ''}${(100 * value).toFixed(2)} %`
const lines: string[] = []
const put = (...cells: string[]): void => {
  lines.push(`| ${cells.join(' | ')} |`)
}

put('case', 'finite elements', 'field solution', 'closed form')
put('---', '---', '---', '---')
for (const item of casesOf('leakage')) {
  const wanted = item.result.L_leak_per_Np2!
  const { energy_H: w } = solveWindow(leakageModel(item))
  const closed = leakageClosedForm(leakageLayout(item), 'primary', 'secondary')!
  put(
    item.id,
    `${(wanted * 1e9).toFixed(4)} nH per turn²`,
    percent((w[0]! - w[1]! - w[2]! + w[3]!) / wanted - 1),
    percent(closed.leakage_H / 4 / wanted - 1),
  )
}
for (const item of casesOf('ac_wire')) {
  const { diameter } = item.geometry as unknown as { diameter: number }
  const delta_m = skinDepth_m(item.excitation.frequency!, resistivity_ohm_m)
  const wanted = item.result.Rac_over_Rdc!
  put(
    item.id,
    wanted.toFixed(4),
    percent(roundWireResponse(diameter, delta_m).resistanceFactor / wanted - 1),
    '',
  )
}
for (const item of casesOf('ac_foil')) {
  const wanted = item.result.Rac_over_Rdc!
  put(
    item.id,
    wanted.toFixed(4),
    percent(resistanceRatio(foilSection(item), item.excitation.frequency!).whole / wanted - 1),
    '',
  )
}
for (const group of ['ac_round_wire', 'ac_round_wire_gapped'])
  for (const item of casesOf(group)) {
    const wanted = item.result.Rac_over_Rdc!
    let closed = ''
    if (group === 'ac_round_wire_gapped') {
      const layout = wireLayout(item)
      const post = shareOf(item.geometry, item.result.L_dc! / 3600)
      const matrix = resistanceClosedForm(
        layerFields(layout, { post, outerLegs: 0 }),
        item.excitation.frequency!,
        20,
      )
      const dc_ohm = windingCopper(layout, 'primary', 20)!.dcResistance_ohm
      closed = percent(matrix.resistance_ohm[0]! / dc_ohm / wanted - 1)
    }
    put(
      item.id,
      wanted.toFixed(4),
      percent(resistanceRatio(wireSection(item), item.excitation.frequency!).whole / wanted - 1),
      closed,
    )
  }

// Closed forms against the field solution on random usual stacks of an E25-like core, seeded.
let state = 20240607
const random = (): number => {
  state = (state * 1103515245 + 12345) % 2147483648
  return state / 2147483648
}
const whole = (from: number, to: number): number => from + Math.floor(random() * (to - from + 1))
const errors: Record<string, number[]> = {
  'leakage, primary to secondary': [],
  'leakage, primary to bias': [],
  'primary resistance at 100 kHz': [],
  'primary resistance at 300 kHz': [],
  'primary resistance at 1 MHz': [],
}
for (let run = 0; run < 200; run++) {
  const base = sampleStack()
  const laid = layOut({
    ...base,
    stack: recommendStack({
      primary: { name: 'primary', turns: whole(25, 90), pins: [1, 2] },
      secondary: { name: 'secondary', turns: whole(3, 20), pins: [10, 9] },
      bias: { name: 'bias', turns: whole(3, 18), pins: [4, 5] },
      splitPrimary: random() < 0.5,
      splitPin: 3,
      biasPlace: random() < 0.5 ? 'between' : 'after',
      barrierTapeLayers: whole(1, 4),
      outerTapeLayers: 2,
    }),
    wires: {
      primary: { wire: enamelled([0.2, 0.25, 0.315][whole(0, 2)]!), inHand: 1 },
      secondary: { wire: enamelled([0.4, 0.5][whole(0, 1)]!), inHand: whole(1, 3) },
      bias: { wire: enamelled(0.2), inHand: 1 },
    },
    margin_m: [0, 1.5e-3, 3e-3][whole(0, 2)]!,
    core: { ...base.core, coveredFraction: [0.45, 0.7, 1][whole(0, 2)]! },
  })
  if (!laid.ok || laid.layout.fit === 'does-not-fit') continue
  const { layout } = laid
  const field = stackField(layout, postGap(0.3e-3, 0.9))
  for (const other of ['secondary', 'bias'])
    errors[`leakage, primary to ${other}`]!.push(
      leakageClosedForm(layout, 'primary', other)!.leakage_H / leakage_H(field, 'primary', other)! - 1,
    )
  const solved = stackResistances(field, [1e5, 3e5, 1e6], 80)
  if (!solved.ok) throw new Error(solved.message)
  const seen = layerFields(layout, { post: 0.9, outerLegs: 0 })
  solved.matrices.forEach((matrix, i) => {
    const at = layout.windings.indexOf('primary') * (layout.windings.length + 1)
    errors[`primary resistance at ${['100 kHz', '300 kHz', '1 MHz'][i]}`]!.push(
      resistanceClosedForm(seen, matrix.frequency_Hz, 80).resistance_ohm[at]! / matrix.resistance_ohm[at]! -
        1,
    )
  })
}
lines.push('', '### Closed form against field solution, random usual stacks', '')
put('quantity', 'stacks', 'least', 'median', 'greatest')
put('---', '---', '---', '---', '---')
for (const [name, list] of Object.entries(errors)) {
  list.sort((p, q) => p - q)
  put(
    name,
    String(list.length),
    percent(list[0]!),
    percent(list[list.length >> 1]!),
    percent(list[list.length - 1]!),
  )
}

const path = 'docs/models/winding-and-field.md'
const [before, rest] = readFileSync(path, 'utf8').split('<!-- accuracy: begin -->')
const after = rest!.split('<!-- accuracy: end -->')[1]!
writeFileSync(
  path,
  `${before}<!-- accuracy: begin -->\n\n${lines.join('\n')}\n\n<!-- accuracy: end -->${after}`,
)
console.log(lines.join('\n'))
