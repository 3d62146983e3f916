import type { ReactNode } from 'react'
import { setEquation } from './equation.ts'

const Equation = ({ plain }: { plain: string }) => (
  <span className="maths">
    {setEquation(plain).map((piece, at) =>
      piece.is === 'text' ? (
        piece.text
      ) : (
        // biome-ignore lint/suspicious/noArrayIndexKey: the pieces of one equation never move
        <span key={at}>
          <i>{piece.letter}</i>
          {piece.index && <sub>{piece.index}</sub>}
        </span>
      ),
    )}
  </span>
)

export interface Explanation {
  readonly what: string
  readonly why: string
  readonly equation?: string
  readonly source?: string
}

/** What a quantity is, why it matters, how it is found and from where: shown where the quantity stands. */
export const Explain = ({ of, id, children }: { of: Explanation; id?: string; children?: ReactNode }) => (
  <div className="explain" id={id}>
    <p>
      {of.what} {of.why}
    </p>
    {of.equation && (
      <p>
        <Equation plain={of.equation} />
      </p>
    )}
    {of.source && <p className="explain-source">{of.source}</p>}
    {children}
  </div>
)
