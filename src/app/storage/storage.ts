import type { FileProblem } from '../../engine/file/problem.ts'
import type { Drawer } from '../../engine/parts/part.ts'
import type { Supply } from '../../engine/supply/supply.ts'
import type { Shelf } from '../../server/api-types.ts'

/** Why something could not be read or kept, in a sentence for the person. */
export interface StorageFailure {
  readonly ok: false
  /** `conflict`: what is kept is not what was to be replaced; `unreachable`: try again later. */
  readonly why: 'conflict' | 'missing' | 'invalid' | 'unreachable' | 'refused'
  readonly message: string
  readonly problems: readonly FileProblem[]
}

export type Outcome<T> = { readonly ok: true; readonly value: T } | StorageFailure

/** A file with the tag that names its exact content. */
export interface Kept<T> {
  readonly tag: string
  readonly value: T
}

/**
 * Where supplies and the drawer are kept. Writing says which content it replaces (null: none, a new file), and is
 * refused as a conflict when something else is there, so that nothing is overwritten unseen.
 */
export interface Storage {
  /** For people: a folder's path, or that it is this browser. */
  readonly place: () => Promise<string>
  readonly shelf: () => Promise<Outcome<Shelf>>
  readonly readSupply: (id: string) => Promise<Outcome<Kept<Supply>>>
  readonly writeSupply: (supply: Supply, replaces: string | null) => Promise<Outcome<string>>
  readonly removeSupply: (id: string, replaces: string) => Promise<Outcome<null>>
  readonly readDrawer: () => Promise<Outcome<Kept<Drawer>>>
  readonly writeDrawer: (drawer: Drawer, replaces: string | null) => Promise<Outcome<string>>
}

export const succeeded = <T>(value: T): Outcome<T> => ({ ok: true, value })

export const failed = (
  why: StorageFailure['why'],
  message: string,
  problems: readonly FileProblem[] = [],
): StorageFailure => ({ ok: false, why, message, problems })
