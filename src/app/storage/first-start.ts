import { demoSupplies } from '../../engine/demo/index.ts'
import { starterDrawer } from '../../engine/parts/starter/index.ts'
import type { Storage } from './storage.ts'

/** Lays the demo and the starter drawer where nothing was ever kept, as the program does with a new folder. */
export const layFirstThings = async (storage: Storage): Promise<void> => {
  const shelf = await storage.shelf()
  if (!shelf.ok || shelf.value.drawerTag !== null || shelf.value.supplies.length > 0) return
  await storage.writeDrawer(starterDrawer, null)
  for (const supply of demoSupplies()) await storage.writeSupply(supply, null)
}
