/** What a core is most likely made of, and whether it may carry a flyback transformer. */
export interface Grade {
  readonly likely:
    | 'power-ferrite'
    | 'gapped-power-ferrite'
    | 'high-permeability-ferrite'
    | 'powder'
    | 'unknown'
  readonly usable: boolean
  readonly reason: string
}

/**
 * Bounds on relative permeability as closed, without a gap. Power ferrites of IEC 61332 classes lie at 1500 to 3500;
 * closed halves read down to 1000 through the film of air between them; ferrites for suppression start at 4000;
 * iron and alloy powders end at 200. From memory of the class tables; common practice.
 */
const bounds = { powder: 200, residual: 1000, power: 3800 } as const

/**
 * Grade from the effective permeability of a core of two halves. The permeability tells classes apart, not makes: the
 * grade of a usable core stays unknown for flux and loss.
 */
export function gradeOfHalves(permeability: number): Grade {
  if (permeability > bounds.power)
    return {
      likely: 'high-permeability-ferrite',
      usable: false,
      reason: `effective permeability ${show(permeability)} is that of suppression ferrite: it saturates early and runs hot, not for a main core`,
    }
  if (permeability >= bounds.residual)
    return {
      likely: 'power-ferrite',
      usable: true,
      reason: `effective permeability ${show(permeability)} fits ungapped power ferrite; the make stays unknown`,
    }
  if (permeability >= 20)
    return {
      likely: 'gapped-power-ferrite',
      usable: true,
      reason: `effective permeability ${show(permeability)} fits power ferrite with a gap already in it`,
    }
  return {
    likely: 'unknown',
    usable: false,
    reason: `effective permeability ${show(permeability)} is too low for a closed core: a shorted turn, a wrong count or halves that do not meet`,
  }
}

/** Grade of a ring, which nobody can gap by hand. */
export function gradeOfRing(permeability: number): Grade {
  if (permeability <= bounds.powder)
    return {
      likely: 'powder',
      usable: false,
      reason: `permeability ${show(permeability)} in a ring is iron or alloy powder: good for an output choke, too lossy for a main core`,
    }
  const suppression = permeability > bounds.power
  return {
    likely: suppression ? 'high-permeability-ferrite' : 'power-ferrite',
    usable: false,
    reason: suppression
      ? `permeability ${show(permeability)} in a ring is suppression ferrite: for a mains choke, not for a main core`
      : `a ring of ferrite cannot be gapped by hand: without a gap it saturates as a flyback core`,
  }
}

const show = (permeability: number) => Number(permeability.toPrecision(3))
