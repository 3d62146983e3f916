import { useId, useMemo, useState } from 'react'
import { tryNetwork } from '../../../engine/limits/try-network.ts'
import type { Network as NetworkValues } from '../../../engine/loop/index.ts'
import { parseQuantity, seriesBetween } from '../../../engine/quantity/index.ts'
import type { Build } from '../../../engine/supply/build.ts'
import type { Design } from '../../../engine/supply/design.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { askedMargin_deg, askedShare, suggestFor } from '../../../engine/supply/loop/index.ts'
import { reference, type Spot } from '../../../engine/supply/refs.ts'
import { setting } from '../../fields/check.ts'
import { show } from '../../fields/show.ts'
import { loopOfEvaluation } from '../../state/assessment.ts'
import { desk, editSupply, settleSupply } from '../../state/desk.ts'
import { loopStrings } from '../../strings/loop.ts'
import { degrees, hertz } from './words.ts'

const words = loopStrings.network

type NetworkField = keyof typeof words.parts

const withNone = (values: number[]): number[] => [0, ...values]

const rows: readonly { field: NetworkField; spot: Spot; unit: string; values: readonly number[] }[] = [
  { field: 'ledResistor_ohm', spot: 'ledResistor', unit: 'Ω', values: seriesBetween(10, 100e3, 'E12') },
  {
    field: 'compensationResistor_ohm',
    spot: 'compensationResistor',
    unit: 'Ω',
    values: seriesBetween(100, 2.2e6, 'E24'),
  },
  {
    field: 'compensationCapacitor_F',
    spot: 'compensationCapacitor',
    unit: 'F',
    values: seriesBetween(47e-12, 10e-6, 'E6'),
  },
  {
    field: 'highFrequencyCapacitor_F',
    spot: 'highFrequencyCapacitor',
    unit: 'F',
    values: withNone(seriesBetween(10e-12, 1e-6, 'E6')),
  },
  {
    field: 'softFinishCapacitor_F',
    spot: 'softFinishCapacitor',
    unit: 'F',
    values: withNone(seriesBetween(1e-9, 100e-6, 'E6')),
  },
]

/** Values that are settled together once one of them is moved, so that the others stay where they are. */
const compensation: readonly NetworkField[] = [
  'compensationResistor_ohm',
  'compensationCapacitor_F',
  'highFrequencyCapacitor_F',
]

const nearest = (values: readonly number[], value: number): number => {
  let best = 0
  const distance = (v: number) =>
    v === 0 || value === 0 ? Math.abs(v - value) * 1e12 : Math.abs(Math.log(v / value))
  values.forEach((v, k) => {
    if (distance(v) < distance(values[best]!)) best = k
  })
  return best
}

const edit = (id: string, label: string, key: string | null, values: Partial<Build['feedback']>) => {
  const doc = desk.get().supplies[id]
  if (!doc) return
  editSupply(id, {
    label,
    key,
    changes: setting(
      doc.history.value,
      Object.entries(values).map(([field, value]) => [['build', 'feedback', field], value]),
    ),
  })
}

const move = (design: Design, field: NetworkField, value: number) => {
  const kept = compensation.includes(field)
    ? Object.fromEntries(compensation.map((name) => [name, design.feedback[name]]))
    : {}
  edit(design.supply.id, words.step(words.parts[field]), `loop:${field}`, { ...kept, [field]: value })
}

const readHertz = (text: string): number | null => {
  const read = parseQuantity(text, 'Hz')
  return read.ok ? read.value : null
}

const shown = (value: number, unit: string) => (value === 0 ? words.none : show(value, unit))

const NetworkRow = ({
  design,
  row: { field, spot, unit, values },
  begin,
}: {
  design: Design
  row: (typeof rows)[number]
  begin: () => void
}) => {
  const id = useId()
  const value = design.feedback[field]
  const { ledResistorMinimum_ohm: low, ledResistorMaximum_ohm: high } = design.feedback
  const isLed = field === 'ledResistor_ohm'
  const outside = isLed && (value > high || value < low)
  const settle = () => settleSupply(design.supply.id)
  return (
    <div className="loop-part" data-wrong={outside || undefined}>
      <label htmlFor={id}>
        <span className="part-ref">{reference[spot]}</span> {words.parts[field]}
      </label>
      <output htmlFor={id}>{shown(value, unit)}</output>
      <input
        id={id}
        type="range"
        min={0}
        max={values.length - 1}
        step={1}
        value={nearest(values, value)}
        aria-valuetext={shown(value, unit)}
        onFocus={begin}
        onPointerDown={begin}
        onChange={(event) => move(design, field, values[Number(event.target.value)]!)}
        onPointerUp={settle}
        onBlur={settle}
      />
      {isLed && (
        <small>
          {words.bracket(show(low, 'Ω', 2), show(high, 'Ω', 2))}
          {outside && `: ${words.outside}`}
        </small>
      )}
    </div>
  )
}

/** The values round the reference as sliders along preferred values, and a suggestion of them. */
export const Network = ({ evaluation, begin }: { evaluation: Evaluation; begin: () => void }) => {
  const { design } = evaluation
  const [found, setFound] = useState<{ of: Evaluation; answer: ReturnType<typeof suggestFor> } | null>(null)
  const answer = found?.of === evaluation ? found.answer : null
  const trial = useMemo(
    () => (answer?.ok ? tryNetwork(evaluation, answer.network, loopOfEvaluation(evaluation)) : null),
    [evaluation, answer],
  )
  const usual_Hz = askedShare * design.parts.switcher.frequency_Hz.typical
  const [crossover, setCrossover] = useState('')
  const [margin, setMargin] = useState('')
  const id = useId()
  const f = crossover.trim() === '' ? usual_Hz : readHertz(crossover)
  const m = margin.trim() === '' ? askedMargin_deg : Number(margin.replace('°', '').replace(',', '.'))
  const sound = f !== null && f >= 1 && f <= 1e6 && m >= 5 && m <= 90
  const take = (network: NetworkValues) => {
    begin()
    edit(design.supply.id, words.taken, null, network)
  }
  const isOpen = compensation.every((field) => design.supply.build.feedback[field] === null)
  return (
    <section className="loop-network">
      <h3>{words.title}</h3>
      <p className="lead">{words.lead}</p>
      {rows.map((row) => (
        <NetworkRow key={row.field} row={row} design={design} begin={begin} />
      ))}
      <p className="loop-asked">
        <label htmlFor={`${id}-f`}>{words.crossover}</label>
        <input
          id={`${id}-f`}
          className="value"
          value={crossover}
          placeholder={hertz(usual_Hz)}
          autoComplete="off"
          aria-invalid={!sound}
          onChange={(event) => setCrossover(event.target.value)}
        />
        <label htmlFor={`${id}-m`}>{words.margin}</label>
        <input
          id={`${id}-m`}
          className="value"
          value={margin}
          placeholder={degrees(askedMargin_deg)}
          inputMode="decimal"
          autoComplete="off"
          aria-invalid={!sound}
          onChange={(event) => setMargin(event.target.value)}
        />
      </p>
      <p className="loop-acts">
        <button
          type="button"
          className="act"
          title={sound ? words.suggestMeans : words.aims}
          disabled={!sound}
          onClick={() =>
            f !== null &&
            setFound({
              of: evaluation,
              answer: suggestFor(design, evaluation.conditions, {}, { crossover_Hz: f, phaseMargin_deg: m }),
            })
          }
        >
          {words.suggest}
        </button>
        <button
          type="button"
          className="plain"
          disabled={isOpen}
          onClick={() => {
            begin()
            edit(design.supply.id, words.freed, null, {
              compensationResistor_ohm: null,
              compensationCapacitor_F: null,
              highFrequencyCapacitor_F: null,
            })
          }}
        >
          {words.free}
        </button>
      </p>
      <div className="loop-suggested" role="status">
        {!sound && <p className="problem">{words.aims}</p>}
        {answer && !answer.ok && <p className="problem">{answer.message}</p>}
        {answer?.ok && trial?.worse && (
          <>
            <p className="problem">
              {words.noBetter(degrees(trial.then_deg ?? 0), degrees(trial.now_deg ?? 0))}
            </p>
            <p>{words.helps}</p>
            <ul>
              {words.remedies(design.parts.switcher.control.style === 'voltage-mode').map((remedy) => (
                <li key={remedy}>{remedy}</li>
              ))}
            </ul>
          </>
        )}
        {answer?.ok && trial && !trial.worse && (
          <>
            <p>{words.suggested(degrees(trial.then_deg ?? 0), hertz(answer.aimed_Hz))}</p>
            <dl>
              {rows.slice(0, 4).map(({ field, spot, unit }) => (
                <div key={field}>
                  <dt>{reference[spot]}</dt>
                  <dd>{shown(answer.network[field as keyof NetworkValues], unit)}</dd>
                </div>
              ))}
            </dl>
            {answer.warnings.map((warning) => (
              <p key={warning} className="loop-warning">
                {warning}
              </p>
            ))}
            <button type="button" className="act" onClick={() => take(answer.network)}>
              {words.use}
            </button>
          </>
        )}
      </div>
    </section>
  )
}
