import type { Former, Wire } from '../../parts/part.ts'

/** Turns of one winding that lie at one place of the stack. Parts of one winding join in the order they lie. */
export interface WindingEntry {
  readonly kind: 'winding'
  /** Name of the winding, for instance `primary`. */
  readonly winding: string
  readonly turns: number
  readonly direction: 'clockwise' | 'counter-clockwise'
  /** Null where two parts of a winding are joined off the pins. */
  readonly startPin: number | null
  readonly finishPin: number | null
}

export interface TapeEntry {
  readonly kind: 'tape'
  readonly layers: number
}

/** Open foil over the full winding width, one end to a pin. */
export interface ShieldEntry {
  readonly kind: 'shield'
  readonly thickness_m: number
  readonly pin: number
}

/** The winding stack from the former's barrel outward. */
export type StackEntry = WindingEntry | TapeEntry | ShieldEntry

/** What a winding is wound of: a wire and how many of it run side by side as one turn. */
export interface WindingWire {
  readonly wire: Wire
  readonly inHand: number
}

/** Opening of the core in which the winding lies. */
export interface CoreWindow {
  /** Along the post, between the two plates. */
  readonly height_m: number
  /** Across, from post to outer leg. */
  readonly width_m: number
  /** Cross-section of the post. */
  readonly post:
    | { readonly section: 'round'; readonly diameter_m: number }
    | { readonly section: 'rectangular'; readonly width_m: number; readonly depth_m: number }
  /**
   * Fraction of a mean turn that runs inside the core, with outer leg and plates round it; the rest runs in the
   * open with the post alone beside it. 1 for a pot, about 0.5 for an E.
   */
  readonly coveredFraction: number
}

export interface StackInput {
  readonly stack: readonly StackEntry[]
  /** Wire of each winding that the stack names. */
  readonly wires: Readonly<Record<string, WindingWire>>
  /** Thickness of one layer of tape. */
  readonly tape_m: number
  readonly former: Pick<Former, 'width_m' | 'height_m' | 'barrel' | 'wall_m' | 'flange_m'>
  readonly core: CoreWindow
  /** Margin tape at each side, 0 with triple-insulated wire. */
  readonly margin_m: number
  /** Tape between the layers of one winding entry. */
  readonly tapeLayersInside: number
  /** Extra wire at each end of a winding entry, for the lead to its pin. */
  readonly tail_m: number
}

/** One physical layer: turns that lie side by side at one height. Heights are above the barrel, z from mid-width. */
export interface WoundLayer {
  /** Index of its entry in the stack. */
  readonly entry: number
  readonly winding: string
  readonly turns: number
  readonly inHand: number
  /** Bottom and top of the layer above the barrel. */
  readonly bottom_m: number
  readonly top_m: number
  /** Axial extent of the wound turns, insulation included, from the middle of the winding width. */
  readonly axialStart_m: number
  readonly axialEnd_m: number
  /** Distance from one turn to the next. */
  readonly pitch_m: number
  readonly meanTurn_m: number
}

export interface WoundTape {
  readonly entry: number
  readonly layers: number
  readonly bottom_m: number
  readonly top_m: number
  readonly between: 'entries' | 'layers'
}

export interface WoundShield {
  readonly entry: number
  readonly pin: number
  readonly bottom_m: number
  readonly top_m: number
  readonly axialStart_m: number
  readonly axialEnd_m: number
}

/** One winding entry as wound. */
export interface WoundSection {
  readonly entry: number
  readonly winding: string
  readonly turns: number
  readonly layers: number
  readonly turnsPerLayer: number
  readonly bottom_m: number
  readonly top_m: number
  readonly meanTurn_m: number
  /** Length of each wire in hand, from tail to tail: what to cut. */
  readonly cutLength_m: number
  /** Null where two parts of a winding are joined off the pins. */
  readonly startPin: number | null
  readonly finishPin: number | null
  readonly direction: 'clockwise' | 'counter-clockwise'
}

export type Fit = 'fits' | 'tight' | 'does-not-fit'

export interface StackLayout {
  readonly input: StackInput
  readonly windings: readonly string[]
  readonly sections: readonly WoundSection[]
  readonly layers: readonly WoundLayer[]
  readonly tapes: readonly WoundTape[]
  readonly shields: readonly WoundShield[]
  /** Winding width left between margins. */
  readonly availableWidth_m: number
  /** Sum of all heights. */
  readonly build_m: number
  /** Height that may be filled: the former's, or what the core leaves above the barrel, whichever is less. */
  readonly windowHeight_m: number
  /** Build over window height, 1 is full. */
  readonly fill: number
  /** Copper area over former area. */
  readonly copperFill: number
  readonly fit: Fit
  /** Radius of the round barrel whose circumference equals that of the barrel. */
  readonly barrelRadius_m: number
}

/** A dimension that makes the winding impossible. */
export interface StackError {
  readonly field: string
  readonly value: number
  readonly limit: number
  readonly message: string
}

export type StackResult =
  | { readonly ok: true; readonly layout: StackLayout }
  | { readonly ok: false; readonly errors: readonly StackError[] }
