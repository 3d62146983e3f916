import type { Supply } from '../supply/supply.ts'
import { assemble } from './assemble.ts'
import { charger } from './charger.ts'
import { lights } from './lights.ts'
import { sockets } from './sockets.ts'

/**
 * An invented scenario: a village tool library builds its charging wall, three supplies for what its members bring
 * back flat. Nothing of it is real; the first start opens on it.
 */
export const demoSupplies = (): Supply[] => [charger, lights, sockets].map(assemble)
