/** A measurable quantity of a network: a voltage between two nodes, or the current through an element. */
export type Quantity =
  | { readonly kind: 'voltage'; readonly from: string; readonly to: string }
  | { readonly kind: 'current'; readonly element: string; readonly winding: number }

/** A constant plus a weighted sum of quantities: `offset + sum(gain * quantity)`, in the unit of its terms. */
export interface LinearForm {
  readonly terms: readonly { readonly gain: number; readonly of: Quantity }[]
  readonly offset: number
}

/** Voltage of node `from` against node `to` (ground when left out), in volts. */
export const voltage = (from: string, to = '0'): LinearForm => ({
  terms: [{ gain: 1, of: { kind: 'voltage', from, to } }],
  offset: 0,
})

/**
 * Current in amperes through an element, from its first node (`a`, or the dotted end of a winding) to its second.
 * A switch, diode or avalanche device with a capacitance counts its channel only, not the capacitance.
 * Elements with several windings need `winding` (from 0). For a source the current flows from `a` through
 * the source to `b`, so a source that delivers power has a negative current.
 */
export const current = (element: string, winding = 0): LinearForm => ({
  terms: [{ gain: 1, of: { kind: 'current', element, winding } }],
  offset: 0,
})

/** A constant as a form. */
export const constant = (offset: number): LinearForm => ({ terms: [], offset })

/** `gain * form`. */
export const scaled = (gain: number, form: LinearForm): LinearForm => ({
  terms: form.terms.map((term) => ({ gain: gain * term.gain, of: term.of })),
  offset: gain * form.offset,
})

/** Sum of forms. */
export const sum = (...forms: readonly LinearForm[]): LinearForm => ({
  terms: forms.flatMap((form) => form.terms),
  offset: forms.reduce((total, form) => total + form.offset, 0),
})

/** `plus - minus`. */
export const difference = (plus: LinearForm, minus: LinearForm): LinearForm => sum(plus, scaled(-1, minus))
