import { useEffect, useState } from 'react'
import type { StageWave } from '../../../engine/stage/index.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { ask } from './stage-pool.ts'

export interface WaveHere {
  readonly wave: StageWave | null
  /** The wave belongs to the supply and the corner asked for. */
  readonly fresh: boolean
  readonly problem: string | null
}

const nothing: WaveHere = { wave: null, fresh: false, problem: null }

/** Typing settles before anything is solved. */
const pause_ms = 120

/** The waveforms of a supply at a corner, solved beside the page; those before stay until newer ones come. */
export const useWave = (supply: Supply | null, corner: string): WaveHere => {
  const [here, setHere] = useState<WaveHere>(nothing)
  useEffect(() => {
    if (supply === null) {
      setHere(nothing)
      return
    }
    setHere((before) => ({ ...before, fresh: false }))
    let asked: ReturnType<typeof ask<'wave'>> | null = null
    const timer = setTimeout(async () => {
      asked = ask(supply, { kind: 'wave', corner }, { first: true })
      const outcome = await asked.answer
      if (outcome.is === 'cancelled') return
      if (outcome.is === 'problems') setHere({ wave: null, fresh: true, problem: outcome.messages[0] ?? '' })
      else if (outcome.value.ok) setHere({ wave: outcome.value, fresh: true, problem: null })
      else setHere({ wave: null, fresh: true, problem: outcome.value.message })
    }, pause_ms)
    return () => {
      clearTimeout(timer)
      asked?.cancel()
    }
  }, [supply, corner])
  return here
}
