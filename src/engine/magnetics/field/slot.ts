/**
 * Radial problem of one axial harmonic in a slot between two walls.
 *
 * The vector potential of the winding window is A(r, z) = Σ A_n(r) cos(k z), k = nπ/h, because the plates at both
 * ends are mirrors. Each A_n obeys d/dr[(1/r) d(rA)/dr] − k² A = −μ0 J_n(r). With u = √r A it becomes
 * u″ − (k² + 3/(4 r²)) u = −μ0 √r J_n, and on an element in which r varies little the solution is a pair of
 * hyperbolic sines and a constant: the nodal equations built from them are exact for a planar slot and of second
 * order in element length over radius for a round one. On a wall of high permeability the only tangential field is
 * that of a current sheet put there. A planar slot is the same with u = A.
 */
export interface Slot {
  /** Surface of the post and of the outer leg: radii, or distances from the plane of symmetry. */
  readonly inner_m: number
  readonly outer_m: number
  readonly height_m: number
  readonly planar: boolean
}

export interface Band {
  readonly bottom_m: number
  readonly top_m: number
}

export interface SlotMesh {
  readonly slot: Slot
  readonly nodes_m: Float64Array
  /** First element of a band, the element just above its centre, and one past its last. */
  readonly bandFirst: Int32Array
  readonly bandCentre: Int32Array
  readonly bandEnd: Int32Array
  /** √r (or 1 in a planar slot) at element middle and at nodes, and 3/(4 r²) at element middle. */
  readonly rootMiddle: Float64Array
  readonly rootNode: Float64Array
  readonly curvature: Float64Array
}

const merge_m = 1e-9

/** Nodes at walls, at the edges and the centre of every band, and wherever a step would exceed a part of the radius. */
export const meshSlot = (slot: Slot, bands: readonly Band[]): SlotMesh => {
  const raw = [slot.inner_m, slot.outer_m]
  for (const band of bands) raw.push(band.bottom_m, (band.bottom_m + band.top_m) / 2, band.top_m)
  raw.sort((p, q) => p - q)
  const nodes: number[] = [raw[0]!]
  for (let i = 1; i < raw.length; i++) {
    const from = nodes[nodes.length - 1]!
    const step = raw[i]! - from
    if (step < merge_m) continue
    const parts = slot.planar ? 1 : Math.ceil(step / (0.2 * from))
    for (let p = 1; p <= parts; p++) nodes.push(from + (step * p) / parts)
  }
  const nodes_m = Float64Array.from(nodes)
  const find = (value: number): number => nodes.findIndex((node) => Math.abs(node - value) < 2 * merge_m)
  const middles = nodes_m.subarray(1).map((node, i) => (node + nodes_m[i]!) / 2)
  return {
    slot,
    nodes_m,
    bandFirst: Int32Array.from(bands, (band) => find(band.bottom_m)),
    bandCentre: Int32Array.from(bands, (band) => find((band.bottom_m + band.top_m) / 2)),
    bandEnd: Int32Array.from(bands, (band) => find(band.top_m)),
    rootMiddle: middles.map((r) => (slot.planar ? 1 : Math.sqrt(r))),
    rootNode: nodes_m.map((r) => (slot.planar ? 1 : Math.sqrt(r))),
    curvature: middles.map((r) => (slot.planar ? 0 : 3 / (4 * r * r))),
  }
}

/** Factored equations of one harmonic; work arrays are reused from harmonic to harmonic. */
export interface SlotMode {
  /** Pivot and off-diagonal of the factored tridiagonal matrix. */
  readonly pivot: Float64Array
  readonly coupling: Float64Array
  /** Per element: κ/sinh κΔ, κ coth κΔ, load on each end node of unit density, own energy of unit density. */
  readonly transfer: Float64Array
  readonly stiffness: Float64Array
  readonly load: Float64Array
  readonly bubble: Float64Array
}

export const newSlotMode = (mesh: SlotMesh): SlotMode => {
  const elements = mesh.nodes_m.length - 1
  return {
    pivot: new Float64Array(elements + 1),
    coupling: new Float64Array(elements),
    transfer: new Float64Array(elements),
    stiffness: new Float64Array(elements),
    load: new Float64Array(elements),
    bubble: new Float64Array(elements),
  }
}

/** Set up and factor the equations for wave number k > 0. */
export const factorMode = (mesh: SlotMesh, k: number, mode: SlotMode): void => {
  const { nodes_m, rootMiddle, curvature, slot } = mesh
  const { pivot, coupling, transfer, stiffness, load, bubble } = mode
  const elements = nodes_m.length - 1
  pivot.fill(0)
  for (let e = 0; e < elements; e++) {
    const step = nodes_m[e + 1]! - nodes_m[e]!
    const kappa = Math.sqrt(k * k + curvature[e]!)
    const decay = Math.exp(-kappa * step)
    const spread = 1 - decay * decay
    const half = (1 - decay) / (1 + decay) / kappa
    transfer[e] = (2 * kappa * decay) / spread
    stiffness[e] = (kappa * (1 + decay * decay)) / spread
    load[e] = rootMiddle[e]! * half
    bubble[e] = (rootMiddle[e]! ** 2 * (step - 2 * half)) / (kappa * kappa)
    pivot[e]! += stiffness[e]!
    pivot[e + 1]! += stiffness[e]!
  }
  if (!slot.planar) {
    pivot[0]! -= 1 / (2 * slot.inner_m)
    pivot[elements]! += 1 / (2 * slot.outer_m)
  }
  for (let e = 0; e < elements; e++) {
    coupling[e] = transfer[e]! / pivot[e]!
    pivot[e + 1]! -= transfer[e]! * coupling[e]!
  }
}

/** Solve in place: `u` holds the nodal load and receives the nodal solution, starting at `offset`. */
export const solveMode = (mode: SlotMode, u: Float64Array, offset: number): void => {
  const { pivot, coupling } = mode
  const last = pivot.length - 1
  for (let i = 0; i < last; i++) u[offset + i + 1]! += coupling[i]! * u[offset + i]!
  u[offset + last]! /= pivot[last]!
  for (let i = last - 1; i >= 0; i--)
    u[offset + i] = u[offset + i]! / pivot[i]! + coupling[i]! * u[offset + i + 1]!
}
