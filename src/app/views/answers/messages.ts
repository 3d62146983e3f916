import type { Drawer } from '../../../engine/parts/part.ts'
import type {
  Effort,
  Family,
  Mending,
  MostPower,
  Offer,
  RangeMap,
  Retarget,
  SearchState,
  Substitute,
  Verdicts,
  WhyNot,
} from '../../../engine/search/index.ts'
import type { Place } from '../../../engine/supply/build.ts'
import type { Need } from '../../../engine/supply/need.ts'
import type { Result } from '../../../engine/supply/result.ts'
import type { Supply } from '../../../engine/supply/supply.ts'

/** What is searched: a need, the parts at hand, whether starter parts may be bought, how finely, in which order. */
export interface Question {
  readonly need: Need
  readonly drawer: Drawer
  readonly buy: boolean
  readonly effort: Effort
  readonly seed: number
}

/** A question as it is first asked. */
export const plainQuestion = (need: Need, drawer: Drawer): Question => ({
  need,
  drawer,
  buy: false,
  effort: 'usual',
  seed: 1,
})

/** A core, former and chip that serve one need. */
export type Server = Omit<Family, 'serves'>

/** Work for one worker. */
export type Job =
  | {
      readonly kind: 'search'
      readonly question: Question
      readonly share: number
      readonly of: number
      /** Where the share was left; null for its beginning. */
      readonly from: SearchState | null
    }
  | {
      readonly kind: 'prove'
      readonly question: Question
      readonly state: SearchState
      readonly share: number
      readonly of: number
    }
  | {
      readonly kind: 'offers'
      readonly question: Question
      readonly state: SearchState
      /** What has been proved of them already. */
      readonly verdicts: Verdicts
    }
  | { readonly kind: 'why'; readonly question: Question; readonly state: SearchState }
  | { readonly kind: 'power'; readonly question: Question; readonly core: string; readonly switcher: string }
  | { readonly kind: 'changes'; readonly supply: Supply; readonly drawer: Drawer }
  | { readonly kind: 'substitutes'; readonly supply: Supply; readonly drawer: Drawer; readonly place: Place }
  | { readonly kind: 'range'; readonly supply: Supply; readonly drawer: Drawer }
  | {
      readonly kind: 'retarget'
      readonly supply: Supply
      readonly drawer: Drawer
      readonly output_V: number
      readonly output_A: number
    }
  | { readonly kind: 'servers'; readonly need: Need; readonly drawer: Drawer }
  | {
      readonly kind: 'one'
      readonly need: Need
      readonly drawer: Drawer
      readonly core: string
      readonly switcher: string
    }

export interface Offers {
  readonly offers: readonly Offer[]
  readonly supplies: readonly Supply[]
  readonly thoroughness: string
  readonly all: SearchState['front']
  /** The search that they are of, with what was proposed where it found nothing. */
  readonly state: SearchState
}

/** How far a share of a search has come; its first report with an answer carries the answers as they are shown. */
export interface SearchPart {
  readonly state: SearchState
  readonly offers: Offers | null
}

export interface Replies {
  readonly prove: Result<Verdicts>
  readonly search: Result<SearchState>
  readonly offers: Result<Offers>
  readonly why: Result<readonly WhyNot[]>
  readonly power: Result<Omit<MostPower, 'space'> & { readonly supply: Supply }>
  readonly changes: Mending
  readonly substitutes: readonly Substitute[]
  readonly range: Result<RangeMap>
  readonly retarget: Result<Retarget>
  readonly servers: readonly Server[]
  readonly one: Result<Supply>
}

/** A job, null to give up the search of that id, or what other workers have found beside it. */
export type Request =
  | { readonly id: number; readonly job: Job | null }
  | { readonly id: number; readonly beside: SearchState['front'] }

/** `part` is an answer so far, and more follows; `gone` is a search given up. */
export interface Reply {
  readonly id: number
  readonly is: 'part' | 'answer' | 'failed' | 'gone'
  readonly value: unknown
}
