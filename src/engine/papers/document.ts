/** A paper as data: what it says, in order, without markup. Shells print it as page, text or table file. */
export interface Paper {
  readonly id: 'winding-sheet' | 'parts-list' | 'power-up' | 'board-notes' | 'label' | 'schematic' | 'report'
  readonly title: string
  /** Supply, revision and what it is for, in one line. */
  readonly subtitle: string
  /** Line at the foot: provenance and the standing caution. */
  readonly foot: string
  readonly blocks: readonly Block[]
}

/** Drawings that a paper may hold; the drawing room makes them from the same supply. */
export type FigureName = 'winding-section' | 'former-above' | 'former-pins' | 'schematic'

export interface Cell {
  readonly text: string
  /** Numbers stand to the right, a tick is an empty box to tick, a blank is a line to write on. */
  readonly kind?: 'number' | 'tick' | 'blank' | 'strong'
}

export type Block =
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'caution'; readonly text: string }
  | { readonly kind: 'facts'; readonly facts: readonly { readonly label: string; readonly value: string }[] }
  | {
      readonly kind: 'table'
      readonly caption: string
      readonly columns: readonly { readonly title: string; readonly number?: boolean }[]
      readonly rows: readonly (readonly Cell[])[]
    }
  | { readonly kind: 'tally'; readonly label: string; readonly count: number; readonly every: number }
  | { readonly kind: 'figure'; readonly figure: FigureName; readonly caption: string }
  | { readonly kind: 'columns'; readonly columns: readonly (readonly Block[])[] }
  | { readonly kind: 'page-break' }

/** Cell that holds words. */
export const words = (text: string): Cell => ({ text })
/** Cell that holds a figure, set to the right. */
export const figureCell = (text: string): Cell => ({ text, kind: 'number' })
/** Empty box to tick. */
export const tick: Cell = { text: '', kind: 'tick' }
/** Line to write on, with the unit after it. */
export const blank = (unit: string): Cell => ({ text: unit, kind: 'blank' })
/** Cell that stands out. */
export const strong = (text: string): Cell => ({ text, kind: 'strong' })
