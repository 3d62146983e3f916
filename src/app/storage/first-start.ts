import { demoSupplies } from '../../engine/demo/index.ts'
import { starterDrawer } from '../../engine/parts/starter/index.ts'
import type { Storage } from './storage.ts'

/** Lays the demo and the starter drawer where nothing was ever kept, as the program does with a new folder; the supply to open, or null. */
export const layFirstThings = async (storage: Storage): Promise<string | null> => {
  const shelf = await storage.shelf()
  if (!shelf.ok || shelf.value.drawerTag !== null || shelf.value.supplies.length > 0) return null
  await storage.writeDrawer(starterDrawer, null)
  const first = demoSupplies()
  for (const supply of first) await storage.writeSupply(supply, null)
  return first[0]?.id ?? null
}
