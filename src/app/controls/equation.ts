/** A piece of a printed equation: a symbol with its index, or anything else as it stands. */
export type Piece =
  | { readonly is: 'symbol'; readonly letter: string; readonly index: string }
  | { readonly is: 'text'; readonly text: string }

/** Words that begin like a symbol and are none. */
const words = /^(Dowell|Tambient|CTR.*|ESR.*|[A-Z]{3,})$/
const symbol = /^(Δ?[A-Zdfkrt]|Δ?[α-ω])([A-Za-z0-9]{0,9})$/
const lowerWords = /^[a-z]{2,}$/

const indexed: Record<string, Piece> = {
  Tambient: { is: 'symbol', letter: 'T', index: 'ambient' },
  CTRmax: { is: 'symbol', letter: 'CTR', index: 'max' },
}

/**
 * Splits an equation written as plain text (`Llk Ip² f / 2`) into symbols with indices and the rest, so that it can
 * be set as a book sets it: symbols in italics, indices and words upright.
 */
export const setEquation = (plain: string): Piece[] => {
  const pieces: Piece[] = []
  const text = (t: string) => {
    const last = pieces.at(-1)
    if (last?.is === 'text') pieces[pieces.length - 1] = { is: 'text', text: last.text + t }
    else pieces.push({ is: 'text', text: t })
  }
  for (const token of plain.match(/[A-Za-zΔα-ωΑ-Ω][A-Za-z0-9α-ωΑ-Ω]*|[^A-Za-zΔα-ωΑ-Ω]+/g) ?? []) {
    const known = indexed[token]
    if (known) pieces.push(known)
    else if (token === 'sqrt') text('√')
    else if (words.test(token) || lowerWords.test(token)) text(token)
    else {
      const parts = symbol.exec(token)
      if (parts === null) text(token)
      else pieces.push({ is: 'symbol', letter: parts[1]!, index: parts[2]! })
    }
  }
  return pieces.map((p) =>
    p.is === 'text' ? { is: 'text', text: p.text.replaceAll(' - ', ' − ').replaceAll(' / ', ' ⁄ ') } : p,
  )
}
