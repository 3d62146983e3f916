export const paperIds = [
  'winding-sheet',
  'parts-list',
  'schematic',
  'build-order',
  'board-notes',
  'power-up',
  'probing',
  'fault-card',
  'results',
  'bench-log',
  'label',
  'report',
  'record',
] as const

/** A paper as data: what it says, in order, without markup. Shells print it as page, text or table file. */
export interface Paper {
  readonly id: (typeof paperIds)[number]
  readonly title: string
  /** Supply, revision and what it is for, in one line. */
  readonly subtitle: string
  /** Line at the foot: provenance and the standing caution. */
  readonly foot: string
  readonly blocks: readonly Block[]
}

/** Drawings that a paper may hold; the drawing room makes them from the same supply. */
export type FigureName =
  | 'winding-section'
  | 'winding-connections'
  | 'former-above'
  | 'former-pins'
  | 'schematic'

export interface Cell {
  readonly text: string
  /** Numbers stand to the right, a tick is an empty box to tick, a blank is a line to write on. */
  readonly kind?: 'number' | 'tick' | 'blank' | 'strong'
}

/** One reading to take: what, what it should be, and room to write it down. */
export interface Checkpoint {
  readonly what: string
  readonly expect: string
  readonly unit: string
}

/** One step of a job at the bench: a row of the table of steps, what to do after it, and what to read. */
export interface Step {
  readonly number: number
  /** One cell a column; a single cell for a step that is words alone. */
  readonly cells: readonly Cell[]
  /** Turns to tick off while winding; null where there is nothing to count. */
  readonly tally: Tally | null
  readonly notes: readonly string[]
  readonly checks: readonly Checkpoint[]
}

export interface Tally {
  readonly label: string
  readonly count: number
  readonly every: number
  /** Turns after which a layer is full. */
  readonly layerEnds: readonly number[]
}

interface Column {
  readonly title: string
  readonly number?: boolean
}

export type Block =
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'caution'; readonly text: string }
  | { readonly kind: 'facts'; readonly facts: readonly { readonly label: string; readonly value: string }[] }
  | {
      readonly kind: 'table'
      readonly caption: string
      readonly columns: readonly Column[]
      readonly rows: readonly (readonly Cell[])[]
    }
  | {
      readonly kind: 'steps'
      readonly caption: string
      readonly columns: readonly Column[]
      readonly steps: readonly Step[]
    }
  /** Sentences one under the other; with a box before each where they are to be ticked. */
  | { readonly kind: 'list'; readonly items: readonly string[]; readonly ticked: boolean }
  /** Labelled lines to write on. */
  | { readonly kind: 'blanks'; readonly labels: readonly string[] }
  /** A label to cut out and stick on, in rows from the top. */
  | { readonly kind: 'plate'; readonly title: string; readonly rows: readonly PlateRow[] }
  | { readonly kind: 'figure'; readonly figure: FigureName; readonly caption: string }
  | {
      readonly kind: 'columns'
      readonly columns: readonly (readonly Block[])[]
      /** Widths against each other; all alike where it is left out. */
      readonly widths?: readonly number[]
    }
  | { readonly kind: 'page-break' }

export interface PlateRow {
  readonly label: string
  readonly value: string
  readonly weight: 'title' | 'usual' | 'warning'
}

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
