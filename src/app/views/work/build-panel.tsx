import { lazy, memo, Suspense, useState } from 'react'
import type { Limit } from '../../../engine/limits/limit.ts'
import type { Place } from '../../../engine/supply/build.ts'
import type { Design } from '../../../engine/supply/design.ts'
import { reference } from '../../../engine/supply/refs.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { CheckField, ChoiceField, FieldRow } from '../../controls/field.tsx'
import { StandingMark } from '../../controls/gauge.tsx'
import { Icon } from '../../controls/icon.tsx'
import { type BuildSection, buildSections, sectionOfSpot } from '../../fields/build-fields.ts'
import type { BuildRow } from '../../fields/build-rows.ts'
import { setting } from '../../fields/check.ts'
import { partAt } from '../../fields/parts-in-use.ts'
import { editSupply } from '../../state/desk.ts'
import { type Path, valueAt } from '../../state/edits.ts'
import { showRoom, standing } from '../../state/limits.ts'
import { useStore } from '../../state/store.ts'
import { buildStrings as words } from '../../strings/build.ts'
import { controlStrings } from '../../strings/controls.ts'
import { limitStrings } from '../../strings/limits.ts'
import { openSections, toggleSection } from './sections.ts'
import { NumberOf } from './supply-fields.tsx'

const PartPicker = lazy(() => import('./part-picker.tsx').then((m) => ({ default: m.PartPicker })))

const edit = (supply: Supply, label: string, path: Path, value: unknown) =>
  editSupply(supply.id, { label, key: null, changes: setting(supply, [[path, value]]) })

const Count = ({ supply, path, place }: { supply: Supply; path: Path; place: Place }) => {
  const value = valueAt(supply, path) as number
  const most = path[1] === 'bulkCount' ? 10 : 20
  const to = (next: number) => edit(supply, `${words.places[place]} × ${next}`, path, next)
  return (
    <fieldset className="count" aria-label={controlStrings.count(words.places[place])}>
      <button type="button" aria-label="−" disabled={value <= 1} onClick={() => to(value - 1)}>
        −
      </button>
      <output>× {value}</output>
      <button type="button" aria-label="+" disabled={value >= most} onClick={() => to(value + 1)}>
        +
      </button>
    </fieldset>
  )
}

const PartRow = ({ supply, place, count }: { supply: Supply; place: Place; count: Path | undefined }) => {
  const [picking, setPicking] = useState(false)
  const part = partAt(supply, place)
  const label = words.places[place]
  return (
    <FieldRow
      label={label}
      spot={place}
      aside={count && part && <Count supply={supply} path={count} place={place} />}
    >
      <button
        type="button"
        className="part"
        data-empty={part === null || undefined}
        aria-label={`${words.change(label)}: ${part?.name ?? words.empty}`}
        aria-haspopup="dialog"
        onClick={() => setPicking(true)}
      >
        <span className="part-ref">{reference[place]}</span>
        <span className="part-name">{part?.name ?? words.empty}</span>
        <Icon name="down" />
      </button>
      {picking && (
        <Suspense>
          <PartPicker supply={supply} place={place} close={() => setPicking(false)} />
        </Suspense>
      )}
    </FieldRow>
  )
}

const SnubberRows = ({ supply }: { supply: Supply }) => {
  const { snubber } = supply.build
  return (
    <>
      <CheckField
        label={words.labels.snubber}
        value={snubber !== null}
        help={words.help.snubber}
        spot="snubberResistor snubberCapacitor"
        choose={(on) =>
          edit(
            supply,
            words.labels.snubber,
            ['build', 'snubber'],
            on ? { resistor_ohm: 22, capacitor_F: 470e-12 } : null,
          )
        }
      />
      {snubber && (
        <>
          <NumberOf
            supply={supply}
            design={null}
            path={['build', 'snubber', 'resistor_ohm']}
            label={words.labels.snubberResistor_ohm}
            unit="Ω"
          />
          <NumberOf
            supply={supply}
            design={null}
            path={['build', 'snubber', 'capacitor_F']}
            label={words.labels.snubberCapacitor_F}
            unit="F"
          />
        </>
      )}
    </>
  )
}

const Row = ({ row, supply, design }: { row: BuildRow; supply: Supply; design: Design | null }) => {
  switch (row.is) {
    case 'part':
      return <PartRow supply={supply} place={row.place} count={row.count} />
    case 'number':
      return (
        <NumberOf
          supply={supply}
          design={design}
          path={row.path}
          label={row.label}
          unit={row.unit}
          whole={row.whole}
          chosen={row.chosen}
          help={row.help}
          spot={row.spots.join(' ') || undefined}
        />
      )
    case 'choice':
      return (
        <ChoiceField
          label={row.label}
          value={valueAt(supply, row.path) as string}
          options={row.options}
          help={row.help}
          choose={(value) => edit(supply, `${row.label}: ${value}`, row.path, value)}
        />
      )
    case 'check':
      return (
        <CheckField
          label={row.label}
          value={valueAt(supply, row.path) as boolean}
          help={row.help}
          choose={(value) => edit(supply, row.label, row.path, value)}
        />
      )
    case 'snubber':
      return <SnubberRows supply={supply} />
  }
}

/** Rows which mean nothing while another choice stands. */
const isIdle = (row: BuildRow, { build }: Supply): boolean => {
  if (row.is === 'part') {
    if (row.place === 'clampAvalanche')
      return build.clamp.style !== 'avalanche' && build.places.clampAvalanche === null
    if (row.place === 'spacerFilm')
      return build.transformer.gapPlace !== 'all-legs' && build.places.spacerFilm === null
    if (row.place === 'chokeWire') return build.places.choke === null
    return false
  }
  if (row.is !== 'number') return false
  if (row.path[1] === 'chokeTurns' || row.path[1] === 'chokeInHand') return build.places.choke === null
  return build.clamp.style === 'avalanche' && row.path[1] === 'clamp'
}

/** The weakest limit of a section says on its heading whether a look inside is worth it. */
const Weakest = ({ limit }: { limit: Limit | undefined }) => {
  if (limit === undefined) return null
  const state = standing(limit)
  return (
    <span className="chapter-weakest" data-state={state} title={limit.title}>
      <StandingMark state={state} label={limitStrings[state]} /> {showRoom(limit)}
    </span>
  )
}

const Section = ({
  section,
  supply,
  design,
  weakest,
}: {
  section: BuildSection
  supply: Supply
  design: Design | null
  weakest: Limit | undefined
}) => {
  const open = useStore(openSections, (s) => s.has(section.id))
  return (
    <details
      className="chapter"
      open={open}
      onToggle={(e) => toggleSection(section.id, e.currentTarget.open)}
    >
      <summary>
        <h3>{words.sections[section.id]}</h3>
        <Weakest limit={weakest} />
      </summary>
      {open &&
        section.rows
          .filter((row) => !isIdle(row, supply))
          .map((row) => (
            <Row
              key={row.is === 'part' ? row.place : row.is === 'snubber' ? 'snubber' : row.path.join('.')}
              row={row}
              supply={supply}
              design={design}
            />
          ))}
    </details>
  )
}

/** Parts and free choices, by the place where they sit in the supply. */
export const BuildPanel = memo(
  ({ supply, design, limits }: { supply: Supply; design: Design | null; limits: readonly Limit[] }) => (
    <>
      {buildSections.map((section) => (
        <Section
          key={section.id}
          section={section}
          supply={supply}
          design={design}
          weakest={limits.find((l) => sectionOfSpot(l.spot) === section.id)}
        />
      ))}
    </>
  ),
)
