import { useMemo, useState } from 'react'
import { calliperDrawing } from '../../../drawing/field/calliper.ts'
import {
  identifyCore,
  type UnknownCore,
  unknownFerrite,
} from '../../../engine/magnetics/unknown-core/index.ts'
import { addPart, freeId } from '../../../engine/parts/drawer.ts'
import type { Core, Material } from '../../../engine/parts/part.ts'
import type { Design } from '../../../engine/supply/design.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { show, showPercent } from '../../fields/show.ts'
import { desk, editDrawer } from '../../state/desk.ts'
import { say } from '../../state/status.ts'
import { createStore, useStore } from '../../state/store.ts'
import { transformerStrings } from '../../strings/transformer.ts'
import { Numbered } from './numbered.tsx'
import { OwnRing } from './own-ring.tsx'
import { sentence } from './sentence.ts'

const words = transformerStrings.own

const letters = ['A_m', 'B_m', 'C_m', 'D_m', 'E_m', 'F_m'] as const
type Letter = (typeof letters)[number]

interface OwnCore {
  readonly shape: 'E' | 'ETD'
  readonly dimensions: Readonly<Record<Letter, number | null>>
  readonly turns: number | null
  readonly ungapped_H: number | null
  readonly film_m: number | null
  readonly gapped_H: number | null
  readonly accuracy: number
}

/** What has been typed, kept while the page lives. */
const ownCore = createStore<OwnCore>({
  shape: 'E',
  dimensions: { A_m: null, B_m: null, C_m: null, D_m: null, E_m: null, F_m: null },
  turns: null,
  ungapped_H: null,
  film_m: null,
  gapped_H: null,
  accuracy: 0.03,
})
const put = (change: Partial<OwnCore>) => ownCore.set((core) => ({ ...core, ...change }))

const dimensionsOf = (core: OwnCore): Core['dimensions'] | null => {
  const d = core.dimensions
  if (d.A_m === null || d.B_m === null || d.C_m === null) return null
  if (d.D_m === null || d.E_m === null || d.F_m === null) return null
  return { A_m: d.A_m, B_m: d.B_m, C_m: d.C_m, D_m: d.D_m, E_m: d.E_m, F_m: d.F_m }
}

const identify = (core: OwnCore) => {
  const dimensions = dimensionsOf(core)
  if (dimensions === null || core.turns === null || core.ungapped_H === null) return null
  return identifyCore({
    shape: core.shape,
    dimensions,
    turns: core.turns,
    ungapped_H: core.ungapped_H,
    ...(core.film_m !== null &&
      core.gapped_H !== null && {
        gapped: { inductance_H: core.gapped_H, place: 'all-legs' as const, gap_m: core.film_m },
      }),
    accuracy: { inductance: core.accuracy, resistance: 0.03, calliper_m: 50e-6 },
  })
}

/** A core and a ferrite of careful figures, as parts for the drawer. */
const partsOf = (core: OwnCore, dimensions: Core['dimensions'], found: UnknownCore) => {
  const mm = (value: number) => String(Math.round(value * 1e3))
  const size = `${core.shape}${mm(dimensions.A_m)}/${mm(dimensions.B_m)}/${mm(dimensions.C_m)}`
  const note = words.note(String(core.turns), show(core.ungapped_H ?? 0, 'H'))
  const mu = found.permeability
  const part: Core = {
    id: `own-${size.toLowerCase().replaceAll('/', '-')}`,
    kind: 'core',
    name: words.name(size),
    shape: core.shape,
    size,
    dimensions,
    note,
  }
  const ferrite: Material = {
    ...unknownFerrite,
    id: `own-ferrite-${Math.round(mu.value)}`,
    name: words.ferriteName(String(Number(mu.value.toPrecision(2)))),
    note,
    initialPermeability: {
      minimum: mu.value * Math.max(0, 1 - mu.uncertainty),
      typical: mu.value,
      maximum: mu.value * (1 + mu.uncertainty),
    },
  }
  return { part, ferrite }
}

const keepParts = (core: OwnCore, found: UnknownCore) => {
  const dimensions = dimensionsOf(core)
  const drawer = desk.get().drawer?.history.value
  if (dimensions === null || drawer === undefined) return
  const { part, ferrite } = partsOf(core, dimensions, found)
  const first = addPart(drawer, { ...part, id: freeId(drawer, part.id) })
  const next = addPart(first, { ...ferrite, id: freeId(first, ferrite.id) })
  editDrawer(words.kept(part.name), [{ path: ['entries'], from: drawer.entries, to: next.entries }])
  say(words.kept(part.name))
}

const Found = ({ core, found }: { core: OwnCore; found: UnknownCore }) => {
  const { effective } = found.geometry
  const hidden = found.hiddenGap_m
  const facts: [string, string][] = [
    [words.area, `${(effective.area_m2 * 1e6).toPrecision(3)} mm²`],
    [words.length, show(effective.length_m, 'm')],
    [words.volume, `${Number((effective.volume_m3 * 1e9).toPrecision(3))} mm³`],
    [words.factor, `${show(found.factor_H.value, 'H')} ± ${showPercent(found.factor_H.uncertainty)}`],
    [
      words.permeability,
      `${Number(found.permeability.value.toPrecision(3))} ± ${showPercent(found.permeability.uncertainty)}`,
    ],
    [
      words.hidden,
      hidden.maximum < 10e-6
        ? words.none
        : hidden.minimum > 0
          ? transformerStrings.bench.to(show(hidden.minimum, 'm', 2), show(hidden.maximum, 'm', 2))
          : words.upTo(show(hidden.maximum, 'm', 2)),
    ],
  ]
  if (found.turns)
    facts.push([
      words.turnsFound,
      `${found.turns.value.toPrecision(3)} ± ${showPercent(found.turns.uncertainty)}`,
    ])
  return (
    <div className="own-found" role="status">
      <dl className="figures-wound">
        {facts.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <p>
        <b>{words.grade}.</b> {sentence(found.grade.reason)}{' '}
        {found.grade.usable ? words.usable : <strong>{words.unusable}</strong>}
      </p>
      <ul className="plain-list">
        {found.flags.map((flag) => (
          <li key={flag.code}>{sentence(flag.message)}</li>
        ))}
      </ul>
      {found.grade.usable && (
        <button type="button" className="act" onClick={() => keepParts(core, found)}>
          {words.keep}
        </button>
      )}
    </div>
  )
}

/** An unmarked core measured with a calliper and an inductance meter, and below it an unmarked ring. */
export const OwnCorePanel = ({ design }: { design: Design }) => (
  <>
    <OwnHalves design={design} />
    <OwnRing />
  </>
)

const OwnHalves = ({ design }: { design: Design }) => {
  const core = useStore(ownCore, (c) => c)
  const [marked, setMarked] = useState<Letter | null>(null)
  const result = useMemo(() => identify(core), [core])
  const drawn = dimensionsOf(core)
  const node = useMemo(
    () =>
      calliperDrawing({
        ...(drawn && drawn.F_m < drawn.E_m && drawn.E_m < drawn.A_m && drawn.D_m < drawn.B_m
          ? drawn
          : { A_m: 25e-3, B_m: 12.5e-3, C_m: 7e-3, D_m: 8.7e-3, E_m: 17.5e-3, F_m: 7e-3 }),
        round: core.shape === 'ETD',
        marked: marked?.charAt(0) ?? null,
      }),
    [drawn, core.shape, marked],
  )
  const { dimensions } = design.parts.core
  return (
    <section className="own-core">
      <h3>{words.title}</h3>
      <p className="lead">{words.lead}</p>
      <div className="own-grid">
        <figure className="own-drawing">
          <Drawing node={node} />
        </figure>
        <div className="own-fields">
          <div className="own-field">
            <label htmlFor="own-shape">{words.shape}</label>
            <select
              id="own-shape"
              className="choice"
              value={core.shape}
              onChange={(event) => put({ shape: event.target.value as OwnCore['shape'] })}
            >
              {(['E', 'ETD'] as const).map((shape) => (
                <option key={shape} value={shape}>
                  {words.shapes[shape]}
                </option>
              ))}
            </select>
          </div>
          {letters.map((letter) => (
            <Numbered
              key={letter}
              label={words.dimensions[letter]}
              value={core.dimensions[letter]}
              unit="m"
              onFocus={() => setMarked(letter)}
              change={(value) => put({ dimensions: { ...core.dimensions, [letter]: value } })}
            />
          ))}
          <button
            type="button"
            className="plain"
            onClick={() =>
              put({
                shape: design.core.geometry.post.section.kind === 'round' ? 'ETD' : 'E',
                dimensions: {
                  A_m: dimensions.A_m,
                  B_m: dimensions.B_m,
                  C_m: dimensions.C_m,
                  D_m: dimensions.D_m,
                  E_m: dimensions.E_m,
                  F_m: dimensions.F_m,
                },
              })
            }
          >
            {words.fill}
          </button>
        </div>
        <div className="own-fields">
          <Numbered label={words.turns} value={core.turns} unit="" whole change={(turns) => put({ turns })} />
          <Numbered
            label={words.ungapped}
            value={core.ungapped_H}
            unit="H"
            change={(ungapped_H) => put({ ungapped_H })}
          />
          <Numbered label={words.film} value={core.film_m} unit="m" change={(film_m) => put({ film_m })} />
          <Numbered
            label={words.gapped}
            value={core.gapped_H}
            unit="H"
            change={(gapped_H) => put({ gapped_H })}
          />
          <Numbered
            label={words.accuracy}
            value={core.accuracy}
            unit="%"
            change={(accuracy) => put({ accuracy: accuracy ?? 0.03 })}
          />
        </div>
      </div>
      {result === null && <p className="empty">{words.waiting}</p>}
      {result && !result.ok && (
        <ul className="problem" role="alert">
          {result.problems.map((problem) => (
            <li key={problem.path}>{problem.message}</li>
          ))}
        </ul>
      )}
      {result?.ok && <Found core={core} found={result.value} />}
    </section>
  )
}
