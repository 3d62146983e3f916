import { type Corner, cornerById } from '../../../engine/stage/index.ts'
import { createStore, useStore } from '../../state/store.ts'
import { waveformStrings } from '../../strings/waveforms.ts'

const words = waveformStrings.corner

/** The corner whose waveforms are shown. */
export const cornerStore = createStore<string>('maximum-crest-100-typical-warm')

type PointId = keyof typeof words.points
const points = Object.keys(words.points) as PointId[]
const limits = Object.keys(words.limit) as (keyof typeof words.limit)[]
const tolerances = ['typical', 'power', 'flux'] as const
const warmths = ['warm', 'cold'] as const

interface Choice {
  readonly point: PointId
  readonly load: number
  readonly tolerance: Corner['tolerance']
  readonly warmth: Corner['warmth']
}

const usual: Choice = { point: 'maximum-crest', load: 100, tolerance: 'typical', warmth: 'warm' }

const choiceOf = (corner: Corner | undefined): Choice =>
  corner === undefined || corner.load === null
    ? usual
    : {
        point: `${corner.input}-${corner.bulk}` as PointId,
        load: Math.round(100 * corner.load),
        tolerance: corner.tolerance,
        warmth: corner.warmth,
      }

const isMean = (point: PointId): boolean => point.endsWith('mean')
const loadsAt = (point: PointId): readonly number[] => (isMean(point) ? [100, 50, 10] : [100, 10])

/** The corner nearest to a choice among those that are solved. */
const cornerOf = (choice: Choice): string => {
  const load = loadsAt(choice.point).includes(choice.load) ? choice.load : 100
  const { tolerance, warmth } = isMean(choice.point) ? usual : choice
  return `${choice.point}-${load}-${tolerance}-${warmth}`
}

const Row = <T extends string | number>({
  name,
  values,
  now,
  text,
  pick,
  disabled = false,
}: {
  name: string
  values: readonly T[]
  now: T | null
  text: (value: T) => string
  pick: (value: T) => void
  disabled?: boolean
}) => (
  <fieldset className="corner-row" disabled={disabled}>
    <legend>{name}</legend>
    <div className="corner-keys">
      {values.map((value) => (
        <button
          key={value}
          type="button"
          className="plate-cell"
          aria-pressed={value === now}
          onClick={() => pick(value)}
        >
          {text(value)}
        </button>
      ))}
    </div>
  </fieldset>
)

/** Input, load, tolerance and temperature as keys, and the corners at the current limit beside them. */
export const CornerPlate = () => {
  const id = useStore(cornerStore, (c) => c)
  const corner = cornerById.get(id)
  const steady = corner?.kind === 'steady'
  const choice = choiceOf(corner)
  const set = (change: Partial<Choice>) => cornerStore.set(() => cornerOf({ ...choice, ...change }))
  const mean = isMean(choice.point)
  return (
    <div className="corner-plate">
      <Row
        name={words.input}
        values={points}
        now={steady ? choice.point : null}
        text={(point) => words.points[point]}
        pick={(point) => set({ point })}
      />
      <Row
        name={words.load}
        values={loadsAt(choice.point)}
        now={steady ? choice.load : null}
        text={(load) => `${load} %`}
        pick={(load) => set({ load })}
      />
      <Row
        name={words.tolerance.label}
        values={tolerances}
        now={steady ? choice.tolerance : null}
        text={(tolerance) => words.tolerance[tolerance]}
        pick={(tolerance) => set({ tolerance })}
        disabled={mean || !steady}
      />
      <Row
        name={words.warmth.label}
        values={warmths}
        now={steady ? choice.warmth : null}
        text={(warmth) => words.warmth[warmth]}
        pick={(warmth) => set({ warmth })}
        disabled={mean || !steady}
      />
      <Row
        name={words.limits}
        values={limits}
        now={steady ? null : (id as (typeof limits)[number])}
        text={(limit) => words.limit[limit]}
        pick={(limit) => cornerStore.set(() => limit)}
      />
      {steady && mean && <p className="corner-note">{words.onlyTypical}</p>}
    </div>
  )
}
