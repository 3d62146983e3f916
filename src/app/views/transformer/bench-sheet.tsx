import { memo, useMemo, useState } from 'react'
import { type Finding, transformerGate } from '../../../engine/bench/index.ts'
import { aidingInductance_H, opposingInductance_H } from '../../../engine/converter/turns.ts'
import type { Estimate } from '../../../engine/magnetics/unknown-core/index.ts'
import type { Spread } from '../../../engine/quantity/index.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { type MeasuredTransformer, readTransformer } from '../../../engine/supply/transformer/index.ts'
import { dryInsulation_ohm } from '../../../engine/supply/transformer/insulation-band.ts'
import { plannedBands } from '../../../engine/supply/transformer/planned-bands.ts'
import { readValue } from '../../fields/parse.ts'
import { show, showPercent } from '../../fields/show.ts'
import { transformerStrings } from '../../strings/transformer.ts'
import {
  hasFrequency,
  keepAsBuilt,
  type Meter,
  meterFor,
  meterOf,
  readingWith,
  readTyped,
  type SheetField,
  sheetFields,
  unitOf,
} from './as-built.ts'
import { GateVerdict } from './gate-verdict.tsx'
import { sentence } from './sentence.ts'
import { TypedCell } from './typed-cell.tsx'
import type { Fields } from './use-fields.ts'
import { usePlanned } from './use-planned.ts'

const words = transformerStrings.bench

const Row = ({ supply, field, expected }: { supply: Supply; field: SheetField; expected: number | null }) => {
  const measured = supply.bench.asBuilt[field] ?? null
  const unit = unitOf(field)
  const label = words.fields[field]
  const [meter, setMeter] = useState<Meter | null>(null)
  const now: Meter = (measured && meterOf(measured)) ?? meter ?? meterFor(supply, field)
  const change = (next: Meter): string | null => {
    setMeter(next)
    return measured === null ? null : keepAsBuilt(supply, field, readingWith(field, measured.value, next))
  }
  const number = (text: string, unitName: string): number | null | undefined => {
    if (text.trim() === '') return null
    return readValue(text, unitName) ?? undefined
  }
  return (
    <tr data-read={measured !== null || undefined}>
      <th scope="row">{label}</th>
      <td>
        {expected === null
          ? ''
          : field === 'insulation_ohm'
            ? words.atLeast(show(expected, unit))
            : show(expected, unit)}
      </td>
      <td>
        <TypedCell
          label={label}
          shown={measured === null ? '' : show(measured.value, unit, 5)}
          placeholder="–"
          commit={(text) => {
            if (text.trim() === '') return keepAsBuilt(supply, field, null)
            const value = readTyped(field, text)
            if (value === null || !(value > 0)) return words.notNumber(label, text)
            return keepAsBuilt(supply, field, readingWith(field, value, now))
          }}
        />
      </td>
      <td>
        <TypedCell
          label={words.of(words.instrument, label)}
          shown={now.instrument}
          commit={(text) => change({ ...now, instrument: text.slice(0, 120) })}
        />
      </td>
      <td>
        {hasFrequency(field) && (
          <TypedCell
            label={words.of(words.frequency, label)}
            shown={now.frequency_Hz === null ? '' : show(now.frequency_Hz, 'Hz')}
            commit={(text) => {
              const value = number(text, 'Hz')
              if (value === undefined || (value !== null && !(value > 0)))
                return words.notNumber(words.frequency, text)
              return change({ ...now, frequency_Hz: value })
            }}
          />
        )}
        {field === 'insulation_ohm' && (
          <TypedCell
            label={words.of(words.testVolts, label)}
            shown={now.test_V === null ? '' : show(now.test_V, 'V')}
            commit={(text) => {
              const value = number(text, 'V')
              if (value === undefined || (value !== null && !(value > 0)))
                return words.notNumber(words.testVolts, text)
              return change({ ...now, test_V: value })
            }}
          />
        )}
      </td>
      <td>
        <TypedCell
          label={words.of(words.accuracy, label)}
          shown={now.accuracy === null ? '' : show(now.accuracy, '%')}
          commit={(text) => {
            const value = number(/^[\d.,\s]+$/.test(text) ? `${text}%` : text, '%')
            if (value === undefined || (value !== null && !(value >= 0 && value <= 1)))
              return words.notNumber(words.accuracy, text)
            return change({ ...now, accuracy: value })
          }}
        />
      </td>
    </tr>
  )
}

/** What each reading should be, from the plan; leakage as the field has it with the secondary shorted. */
const expectations = (planned: Evaluation, fields: Fields): Readonly<Record<SheetField, number | null>> => {
  const t = planned.design.transformer
  const L = t.plannedInductance_H.typical
  const bands = plannedBands(planned.design)
  return {
    primaryInductance_H: L,
    leakage_H: fields.answer?.leakage_H.field ?? null,
    secondaryInductance_H: L / t.turnsRatio ** 2,
    biasInductance_H: L * (t.biasTurns / t.primaryTurns) ** 2,
    aidingInductance_H: aidingInductance_H(L, t.turnsRatio),
    opposingInductance_H: opposingInductance_H(L, t.turnsRatio),
    primaryResistance_ohm: t.coil.primary.dcResistance_ohm,
    secondaryResistance_ohm: t.coil.secondary.dcResistance_ohm,
    biasResistance_ohm: t.coil.bias.dcResistance_ohm,
    secondaryVoltsRatio: bands.secondaryVolts.typical,
    biasVoltsRatio: bands.biasVolts.typical,
    saturationCurrent_A: bands.saturation.typical,
    insulation_ohm: dryInsulation_ohm,
  }
}

const estimated = (e: Estimate, text: string): string => words.plusMinus(text, showPercent(e.uncertainty))
const ranged = (s: Spread, unit: string): string =>
  `${show(s.typical, unit)} (${words.to(show(s.minimum, unit), show(s.maximum, unit))})`

const Shows = ({
  found,
  findings,
  said,
}: {
  found: MeasuredTransformer
  findings: readonly Finding[]
  said: string
}) => {
  const { winding, sense } = found
  const facts: [string, string][] = []
  if (found.factor_H) facts.push([words.factor, ranged(found.factor_H, 'H')])
  if (found.trueGap_m) facts.push([words.trueGap, ranged(found.trueGap_m, 'm')])
  if (winding?.leakage_H)
    facts.push([words.trueLeakage, estimated(winding.leakage_H, show(winding.leakage_H.value, 'H'))])
  if (winding?.leakageFraction)
    facts.push([
      words.leakageShare,
      estimated(winding.leakageFraction, showPercent(winding.leakageFraction.value)),
    ])
  if (winding?.turnsRatio)
    facts.push([
      words.ratio,
      `${estimated(winding.turnsRatio, winding.turnsRatio.value.toPrecision(4))}${winding.secondaryTurns === null ? '' : `, ${words.secondaryTurns(winding.secondaryTurns)}`}`,
    ])
  if (sense?.coupling != null && sense.coupling <= 1) facts.push([words.coupling, sense.coupling.toFixed(3)])
  const flags = [
    ...(found.gap ? [found.gap.message] : []),
    ...(winding?.flags.map((flag) => flag.message) ?? []),
    ...found.problems,
    ...findings.map((finding) => finding.message),
  ].filter((flag) => !said.includes(flag))
  if (facts.length === 0 && flags.length === 0 && sense === null) return null
  return (
    <section className="bench-shows">
      <h3>{words.shows}</h3>
      <dl className="figures-wound">
        {facts.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <ul className="plain-list">
        {flags.map((flag) => (
          <li key={flag}>{sentence(flag)}</li>
        ))}
        {sense && (sense.unclear || sense.right) && (
          <li>{sense.unclear ? words.senseUnclear : words.senseRight}</li>
        )}
        {sense && !sense.unclear && !sense.right && !said.includes('iding reads') && (
          <li>{words.senseWrong}</li>
        )}
      </ul>
    </section>
  )
}

/** The finished transformer's readings, what they show, and whether it may be soldered in. */
export const BenchSheet = memo(({ evaluation, fields }: { evaluation: Evaluation; fields: Fields }) => {
  const { design } = evaluation
  const { supply } = design
  const planned = usePlanned(supply)
  const gate = useMemo(
    () => (planned === null ? null : transformerGate(planned, supply.bench.asBuilt)),
    [planned, supply.bench.asBuilt],
  )
  const found = useMemo(() => readTransformer(design), [design])
  const expected = expectations(planned ?? evaluation, fields)
  return (
    <div className="bench-sheet">
      <section>
        <h3>{words.title}</h3>
        <p className="lead">{words.lead}</p>
        <div className="table-scroll">
          <table className="reading-table sheet-table">
            <thead>
              <tr>
                <th scope="col">{words.quantity}</th>
                <th scope="col">{words.expected}</th>
                <th scope="col">{words.read}</th>
                <th scope="col">{words.instrument}</th>
                <th scope="col">{words.frequency}</th>
                <th scope="col">{words.accuracy}</th>
              </tr>
            </thead>
            <tbody>
              {sheetFields.map((field) => (
                <Row key={field} supply={supply} field={field} expected={expected[field]} />
              ))}
            </tbody>
          </table>
        </div>
        <p className="quiet-text">{words.how}</p>
        <p className="caution">{words.caution}</p>
        <p className="caution">{words.cautionTests}</p>
      </section>
      {gate && <GateVerdict gate={gate} />}
      <Shows found={found} findings={gate?.findings ?? []} said={gate?.reasons.join(' ') ?? ''} />
    </div>
  )
})
