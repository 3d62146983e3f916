import { describe, expect, it } from 'vitest'
import { fixedReadingInfo, readingInfo } from '../../engine/supply/reading.ts'
import { setEquation } from './equation.ts'

const plain = (equation: string) =>
  setEquation(equation)
    .map((p) => (p.is === 'symbol' ? `<${p.letter}${p.index && `_${p.index}`}>` : p.text))
    .join('')

describe('equation setting', () => {
  it('sets symbols with their indices, and leaves words alone', () => {
    expect(plain('Llk Ip² f / 2 · Vc / (Vc - Vor)')).toBe('<L_lk> <I_p>² <f> ⁄ 2 · <V_c> ⁄ (<V_c> − <V_or>)')
    expect(plain('sqrt(2) Vin')).toBe('√(2) <V_in>')
    expect(plain('sum over harmonics of I² R Fr')).toBe('sum over harmonics of <I>² <R> <F_r>')
    expect(plain('Dowell')).toBe('Dowell')
    expect(plain('ΔI / Ip')).toBe('<ΔI> ⁄ <I_p>')
  })

  it('loses nothing of any equation in the tables of readings', () => {
    for (const info of Object.values({ ...readingInfo, ...fixedReadingInfo })) {
      const { equation } = info.explain
      const back = setEquation(equation)
        .map((p) => (p.is === 'symbol' ? p.letter + p.index : p.text))
        .join('')
      expect(back.replaceAll('−', '-').replaceAll('⁄', '/')).toBe(equation.replaceAll('sqrt', '√'))
    }
  })
})
