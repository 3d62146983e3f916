/** How a part stands against its limits; drawn as line, weight and mark, never by colour alone. */
export type Standing = 'holds' | 'near' | 'broken'

/** One part of the circuit as the schematic shows it. */
export interface SchematicItem {
  readonly reference: string
  readonly value: string
  /** Live reading beside the part, for instance its dissipation. */
  readonly reading?: string
  readonly standing?: Standing
  /** Spoken description for people who do not see the drawing. */
  readonly description?: string
}

/** Every spot of the flyback circuit where a part may stand. */
export const spots = [
  'fuse',
  'ntc',
  'varistor',
  'xCapacitor',
  'bleed',
  'commonModeChoke',
  'bridge',
  'bulkCapacitor',
  'clampResistor',
  'clampCapacitor',
  'clampAvalanche',
  'clampDiode',
  'transformer',
  'switcher',
  'controlCapacitor',
  'biasDiode',
  'biasCapacitor',
  'optocoupler',
  'rectifier',
  'snubberResistor',
  'snubberCapacitor',
  'outputCapacitor',
  'choke',
  'secondCapacitor',
  'indicatorResistor',
  'indicator',
  'ledResistor',
  'biasResistor',
  'reference',
  'compensationResistor',
  'compensationCapacitor',
  'highFrequencyCapacitor',
  'softFinishCapacitor',
  'dividerTop',
  'trimmer',
  'dividerBottom',
  'yCapacitor',
] as const

export type Spot = (typeof spots)[number]

/** Nodes at which live values are written. */
export interface NodeReadings {
  readonly input?: string
  readonly bulk?: string
  readonly drain?: string
  readonly bias?: string
  readonly output?: string
}

/** Nodes that can be probed. */
export type TestNode = Exclude<keyof NodeReadings, 'input'> | 'primaryCommon' | 'outputCommon'

/** A point to probe at power-up: its name on the drawing, its node, and what it is. */
export interface TestPoint {
  readonly name: string
  readonly node: TestNode
  readonly what: string
}

/** Data of a schematic: which spots are filled and with what; an absent series part is wired through. */
export interface SchematicModel {
  readonly title: string
  readonly source: 'mains' | 'dc'
  readonly items: Readonly<Partial<Record<Spot, SchematicItem>>>
  readonly nodes: NodeReadings
  /** Turns of each winding, written beside it. */
  readonly turns: { readonly primary: string; readonly secondary: string; readonly bias: string }
  /** Pins of the transformer at the upper and the lower end of each winding, where they are shown. */
  readonly pins?: Readonly<Record<'primary' | 'secondary' | 'bias', readonly [upper: string, lower: string]>>
  /** How the chip is steered: current into one pin that also feeds it, or current drawn out of a feedback pin. */
  readonly control: 'voltage-mode' | 'peak-current'
  readonly senseAfterChoke: boolean
  readonly ledFeedAfterChoke: boolean
  readonly testPoints?: readonly TestPoint[]
  /** Lines of the block in the corner of a printed sheet: label and value. */
  readonly titleBlock?: readonly (readonly [label: string, value: string])[]
}
