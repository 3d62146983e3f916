import type { WoundSection } from '../../magnetics/stack/index.ts'

const letters: Record<string, string> = { primary: 'P', secondary: 'S', bias: 'B' }

/** Short name of each winding entry in the order of winding: P1, S, B, P2; a number only where there are several. */
export function sectionNames(sections: readonly Pick<WoundSection, 'winding'>[]): string[] {
  const total = new Map<string, number>()
  for (const section of sections) total.set(section.winding, (total.get(section.winding) ?? 0) + 1)
  const seen = new Map<string, number>()
  return sections.map(({ winding }) => {
    const index = (seen.get(winding) ?? 0) + 1
    seen.set(winding, index)
    const letter = letters[winding] ?? winding.slice(0, 1).toUpperCase()
    return total.get(winding) === 1 ? letter : `${letter}${index}`
  })
}
