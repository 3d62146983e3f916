import { memo, useId } from 'react'
import type { Need } from '../../../engine/supply/need.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { CheckField, ChoiceField, FieldRow } from '../../controls/field.tsx'
import { nominalIn, outputChanges, setting, sourceRangeChanges } from '../../fields/check.ts'
import { readMains } from '../../fields/parse.ts'
import { showAbout } from '../../fields/show.ts'
import { editSupply, settleSupply } from '../../state/desk.ts'
import type { Path } from '../../state/edits.ts'
import { needStrings as words } from '../../strings/need.ts'
import { fieldKey, NumberOf, RangeOf } from './supply-fields.tsx'

const { labels, help } = words

const options = <T extends string | number>(
  texts: Readonly<Record<T, string>>,
  keys: readonly NoInfer<T>[],
): { readonly value: T; readonly label: string }[] => keys.map((value) => ({ value, label: texts[value] }))

/** The other kind of source, with a range in which the supply still makes sense. */
const otherSource = (source: Need['source']): Need['source'] =>
  source.kind === 'mains'
    ? { kind: 'dc', minimum_V: 120, nominal_V: 325, maximum_V: 375 }
    : {
        kind: 'mains',
        minimum_Vrms: 85,
        nominal_Vrms: nominalIn(85, 265, 230),
        maximum_Vrms: 265,
        frequency_Hz: 50,
      }

const SourceFields = ({ supply }: { supply: Supply }) => {
  const { source } = supply.need
  const isMains = source.kind === 'mains'
  const low = isMains ? source.minimum_Vrms : source.minimum_V
  const high = isMains ? source.maximum_Vrms : source.maximum_V
  const usual = isMains ? source.nominal_Vrms : source.nominal_V
  const nominal: Path = ['need', 'source', isMains ? 'nominal_Vrms' : 'nominal_V']
  const label = isMains ? labels.mains : labels.dc
  return (
    <>
      <ChoiceField
        label={words.source}
        value={source.kind}
        options={options(words.sourceKinds, ['mains', 'dc'])}
        choose={(kind) => {
          if (kind === source.kind) return
          editSupply(supply.id, {
            label: words.sourceKinds[kind],
            key: null,
            changes: setting(supply, [[['need', 'source'], otherSource(source)]]),
          })
        }}
      />
      <RangeOf
        supply={supply}
        path={['need', 'source']}
        label={label}
        unit="V"
        low={low}
        high={high}
        shown={showAbout(low, usual, high)}
        {...(isMains && { read: readMains })}
        changes={(range) => sourceRangeChanges(supply, range)}
        help={isMains ? help.range : help.bus}
        spot="input"
        wrong={(text) => words.needsRange(label, text)}
      />
      <NumberOf
        supply={supply}
        design={null}
        path={nominal}
        label={labels.nominal}
        unit="V"
        help={help.nominal}
      />
      {isMains && (
        <ChoiceField
          label={labels.frequency}
          value={source.frequency_Hz}
          options={[...new Set([50, 60, source.frequency_Hz])].map((f) => ({ value: f, label: `${f} Hz` }))}
          help={help.frequency}
          choose={(f) =>
            editSupply(supply.id, {
              label: `${labels.frequency} ${f} Hz`,
              key: null,
              changes: setting(supply, [[['need', 'source', 'frequency_Hz'], f]]),
            })
          }
        />
      )}
    </>
  )
}

/** Revision and note: what a second person needs to know that no number says. */
const RecordFields = ({ supply }: { supply: Supply }) => {
  const id = useId()
  const put = (field: 'revision' | 'note', value: string) =>
    editSupply(supply.id, {
      label: labels[field],
      key: fieldKey(supply, [field]),
      changes: setting(supply, [[[field], value]]),
    })
  return (
    <section className="chapter" aria-label={words.parts.record}>
      <h3>{words.parts.record}</h3>
      <FieldRow label={labels.revision} htmlFor={`${id}-revision`}>
        <input
          id={`${id}-revision`}
          className="value"
          maxLength={20}
          autoComplete="off"
          value={supply.revision}
          onChange={(event) => event.target.value !== '' && put('revision', event.target.value)}
          onFocus={(event) => event.target.select()}
          onBlur={() => settleSupply(supply.id)}
        />
      </FieldRow>
      <label className="unseen" htmlFor={`${id}-note`}>
        {labels.note}
      </label>
      <textarea
        id={`${id}-note`}
        className="value note"
        rows={4}
        maxLength={20000}
        placeholder={words.notePlaceholder}
        value={supply.note}
        onChange={(event) => put('note', event.target.value)}
        onBlur={() => settleSupply(supply.id)}
      />
    </section>
  )
}

/** What is asked of the supply. */
export const NeedPanel = memo(({ supply }: { supply: Supply }) => {
  const { need } = supply
  const choose =
    (field: 'cooling' | 'feeds' | 'insulation' | 'pollutionDegree') => (value: string | number) =>
      editSupply(supply.id, {
        label: `${labels[field]}: ${value}`,
        key: null,
        changes: setting(supply, [[['need', field], value]]),
      })
  const number = (
    field: 'output_A' | 'ripple_Vpp' | 'holdUp_s' | 'ambient_C' | 'altitude_m',
    unit: string,
    about: (typeof help)[keyof typeof help],
    spot?: string,
  ) => (
    <NumberOf
      supply={supply}
      design={null}
      path={['need', field]}
      label={labels[field]}
      unit={unit}
      help={about}
      spot={spot}
    />
  )
  return (
    <>
      <section className="chapter" aria-label={words.parts.input}>
        <h3>{words.parts.input}</h3>
        <SourceFields supply={supply} />
        {number('holdUp_s', 's', help.holdUp)}
      </section>
      <section className="chapter" aria-label={words.parts.output}>
        <h3>{words.parts.output}</h3>
        <NumberOf
          supply={supply}
          design={null}
          path={['need', 'output_V']}
          label={labels.output_V}
          unit="V"
          changes={(value) => outputChanges(supply, value)}
          help={help.output}
          spot="output"
        />
        <RangeOf
          supply={supply}
          path={['need', 'trim']}
          label={labels.trim}
          unit="V"
          low={need.trimLow_V}
          high={need.trimHigh_V}
          changes={({ low, high }) =>
            setting(supply, [
              [['need', 'trimLow_V'], low],
              [['need', 'trimHigh_V'], high],
            ])
          }
          help={help.trim}
          wrong={(text) => words.needsRange(labels.trim, text)}
        />
        {number('output_A', 'A', help.current)}
        {number('ripple_Vpp', 'V', help.ripple)}
        <ChoiceField
          label={labels.feeds}
          value={need.feeds}
          options={options(words.feeds, ['electronics', 'charging', 'resistive'])}
          choose={choose('feeds')}
          help={help.feeds}
        />
        <CheckField
          label={labels.outputEarthed}
          value={need.outputEarthed ?? false}
          help={help.outputEarthed}
          choose={(on) =>
            editSupply(supply.id, {
              label: labels.outputEarthed,
              key: null,
              changes: setting(supply, [[['need', 'outputEarthed'], on]]),
            })
          }
        />
      </section>
      <section className="chapter" aria-label={words.parts.place}>
        <h3>{words.parts.place}</h3>
        {number('ambient_C', '°C', help.ambient)}
        <ChoiceField
          label={labels.cooling}
          value={need.cooling}
          options={options(words.cooling, ['open', 'case-vented', 'case-closed', 'fan'])}
          choose={choose('cooling')}
          help={help.cooling}
        />
        <ChoiceField
          label={labels.insulation}
          value={need.insulation}
          options={options(words.insulation, ['reinforced', 'basic'])}
          choose={choose('insulation')}
          help={help.insulation}
        />
        <ChoiceField
          label={labels.pollutionDegree}
          value={need.pollutionDegree}
          options={options(words.pollution, [1, 2, 3])}
          choose={choose('pollutionDegree')}
          help={help.pollution}
        />
        {number('altitude_m', 'metre', help.altitude)}
      </section>
      <RecordFields supply={supply} />
    </>
  )
})
