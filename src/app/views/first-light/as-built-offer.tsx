import { useState } from 'react'
import type { AsBuiltOffer } from '../../../engine/bench/index.ts'
import type { AsBuiltField } from '../../../engine/supply/bench-log.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { setting } from '../../fields/check.ts'
import { readValue } from '../../fields/parse.ts'
import { show } from '../../fields/show.ts'
import { editSupply } from '../../state/desk.ts'
import { go, routeStore } from '../../state/route.ts'
import { firstLightStrings } from '../../strings/first-light.ts'
import {
  hasFrequency,
  isSheetField,
  keepAsBuilt,
  type Meter,
  meterFor,
  meterOf,
  readingWith,
  unitOf,
} from '../transformer/as-built.ts'
import { TypedCell } from '../transformer/typed-cell.tsx'

const words = firstLightStrings.asBuilt
const notValue = firstLightStrings.check.noValue

const meterWords = ({ instrument, frequency_Hz, accuracy, test_V }: Meter): string =>
  `${instrument}${frequency_Hz === null ? '' : words.at(show(frequency_Hz, 'Hz'))}${test_V === null ? '' : words.at(show(test_V, 'V'))}${accuracy === null ? '' : words.within(show(accuracy, '%'))}`

const keep = (supply: Supply, field: AsBuiltField, value: number, meter: Meter): void => {
  const measured = readingWith(field, value, meter)
  if (isSheetField(field)) keepAsBuilt(supply, field, measured)
  else
    editSupply(supply.id, {
      label: `${words.bulk} ${show(measured.value, unitOf(field))}`,
      key: null,
      changes: setting(supply, [[['bench', 'asBuilt', field], measured]]),
    })
}

/** Offers a reading as built, asking what it was read with; once kept it says so. */
export const AsBuiltOfferRow = ({ supply, offer }: { supply: Supply; offer: AsBuiltOffer }) => {
  const { field, check, measured } = offer
  const kept = supply.bench.asBuilt[field] ?? null
  const unit = unitOf(field)
  const usual = isSheetField(field)
    ? meterFor(supply, field)
    : { frequency_Hz: null, accuracy: 0.05, test_V: null }
  const [meter, setMeter] = useState<Meter>({
    instrument: measured.instrument,
    frequency_Hz: hasFrequency(field) ? usual.frequency_Hz : null,
    accuracy: usual.accuracy,
    test_V: usual.test_V,
  })
  const sheet = () => {
    const route = routeStore.get()
    if (route.at === 'supply') go({ ...route, view: 'winding', focus: 'measured' })
  }
  if (kept && kept.value === measured.value)
    return (
      <p className="fl-kept">
        {words.kept(show(kept.value, unit, 4), meterWords(meterOf(kept)))}{' '}
        <button type="button" className="plain" onClick={sheet}>
          {words.sheet}
        </button>
      </p>
    )
  const { what } = check
  const of = (name: string): string => `${name}: ${what}`
  const number = (text: string, of_: string, most: number): number | null | undefined => {
    if (text.trim() === '') return null
    const value = readValue(of_ === '%' && /^[\d.,\s]+$/.test(text) ? `${text}%` : text, of_)
    return value !== null && value > 0 && value <= most ? value : undefined
  }
  return (
    <div className="fl-offer">
      <p>{words.offer}</p>
      <div className="fl-offer-fields">
        <TypedCell
          label={of(firstLightStrings.check.instrument)}
          shown={meter.instrument}
          commit={(text) => {
            setMeter({ ...meter, instrument: text.slice(0, 120) })
            return null
          }}
        />
        {hasFrequency(field) && (
          <TypedCell
            label={of(words.frequency)}
            shown={meter.frequency_Hz === null ? '' : show(meter.frequency_Hz, 'Hz')}
            commit={(text) => {
              const value = number(text, 'Hz', 1e8)
              if (value === undefined) return notValue(text)
              setMeter({ ...meter, frequency_Hz: value })
              return null
            }}
          />
        )}
        {field === 'insulation_ohm' && (
          <TypedCell
            label={of(words.testVolts)}
            shown={meter.test_V === null ? '' : show(meter.test_V, 'V')}
            commit={(text) => {
              const value = number(text, 'V', 1e4)
              if (value === undefined) return notValue(text)
              setMeter({ ...meter, test_V: value })
              return null
            }}
          />
        )}
        <TypedCell
          label={of(words.accuracy)}
          shown={meter.accuracy === null ? '' : show(meter.accuracy, '%')}
          commit={(text) => {
            const value = number(text, '%', 1)
            if (value === undefined) return notValue(text)
            setMeter({ ...meter, accuracy: value })
            return null
          }}
        />
        <button type="button" className="act" onClick={() => keep(supply, field, measured.value, meter)}>
          {words.keep}
        </button>
      </div>
    </div>
  )
}
