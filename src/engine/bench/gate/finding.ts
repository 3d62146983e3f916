import type { AsBuiltField } from '../../supply/bench-log.ts'

/** A remedy with the work that it takes; less first. */
export interface Fix {
  readonly effort: 'minutes' | 'change the gap' | 'change a part' | 'rewind' | 'new core'
  readonly what: string
}

/** What one reading of the finished transformer says of it, good or bad. */
export interface Finding {
  readonly field: AsBuiltField
  /** 0 as it should be, 1 to be looked at, 2 not to be powered as it is. */
  readonly level: 0 | 1 | 2
  readonly message: string
  readonly fixes: readonly Fix[]
}
