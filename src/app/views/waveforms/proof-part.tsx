import { memo, useState } from 'react'
import type { Comparison, Proof, ProvedCorner } from '../../../engine/stage/index.ts'
import { corners } from '../../../engine/stage/index.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { StandingMark } from '../../controls/gauge.tsx'
import { show, showPercent } from '../../fields/show.ts'
import { showAgainst, showRoom, standing } from '../../state/limits.ts'
import { useStore } from '../../state/store.ts'
import { limitStrings } from '../../strings/limits.ts'
import { waveformStrings } from '../../strings/waveforms.ts'
import { conditionText } from '../work/limit-list.tsx'
import { cornerStore } from './corner-plate.tsx'
import { proofOf, proofs } from './proof-state.ts'
import { cancelProof, proveAll } from './proof-store.ts'

const words = waveformStrings.proof
const figureWords = waveformStrings.figures

const signed = (share: number): string => `${share > 0 ? '+' : ''}${showPercent(share)}`

/** Closed form beside solved at one corner; differences over 5 % with their reason. */
const Comparisons = ({ comparisons }: { comparisons: readonly Comparison[] }) => (
  <div className="table-scroll">
    <table className="wave-table proof-figures">
      <thead>
        <tr>
          <th scope="col">{figureWords.quantity}</th>
          <th scope="col">{figureWords.closed}</th>
          <th scope="col">{figureWords.solved}</th>
          <th scope="col">{figureWords.difference}</th>
        </tr>
      </thead>
      <tbody>
        {comparisons.map((c) => (
          <tr key={c.id} data-apart={c.why !== null || undefined}>
            <th scope="row">
              {c.label}
              {c.why && <span className="proof-why">{c.why}</span>}
            </th>
            <td>{show(c.closed, c.unit)}</td>
            <td>
              <b>{show(c.solved, c.unit)}</b>
            </td>
            <td>{signed(c.difference)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </div>
)

const CornerRow = ({
  proved,
  open,
  toggle,
  look,
}: {
  proved: ProvedCorner
  open: boolean
  toggle: () => void
  look: (id: string) => void
}) => {
  const apart = proved.ok ? proved.comparisons.filter((c) => c.why !== null).length : 0
  const f = proved.ok ? proved.figures : null
  return (
    <>
      <tr data-open={open || undefined}>
        <th scope="row">
          <button type="button" className="reading-name" aria-expanded={open} onClick={toggle}>
            {proved.corner.label}
          </button>
        </th>
        {f ? (
          <>
            <td>{show(f.drainPeak_V, 'V')}</td>
            <td>{show(f.primaryPeak_A, 'A')}</td>
            <td>{show(f.clamp_W, 'W')}</td>
            <td>{show(f.efficiency, '%')}</td>
            <td>{apart}</td>
          </>
        ) : (
          <td colSpan={5}>{words.unsolved}</td>
        )}
      </tr>
      {open && (
        <tr className="reading-more">
          <td colSpan={6}>
            {proved.ok ? <Comparisons comparisons={proved.comparisons} /> : <p>{proved.message}</p>}
            <button type="button" className="plain" onClick={() => look(proved.corner.id)}>
              {words.look}
            </button>
          </td>
        </tr>
      )}
    </>
  )
}

const Limits = ({ proof }: { proof: Proof }) => (
  <section>
    <h3>{words.limits}</h3>
    <ol className="proof-limits">
      {proof.limits.slice(0, 12).map(({ limit, depth, closed }) => {
        const state = standing(limit)
        return (
          <li key={limit.id} data-state={state}>
            <StandingMark state={state} label={limitStrings[state]} />
            <span className="proof-title">{limit.title}</span>
            <span className="proof-margin">{showRoom(limit)}</span>
            <span className="proof-reading">
              <b>{showAgainst(limit).reading}</b> {showAgainst(limit).rating}, {conditionText(limit)}
              {depth === 'closed form' ? (
                <span title={waveformStrings.depth.closedMeans}> {waveformStrings.depth.closed}</span>
              ) : (
                closed && <span> {words.was(show(closed.reading, closed.unit))}</span>
              )}
            </span>
          </li>
        )
      })}
    </ol>
  </section>
)

/** Figures of each corner, solved so far; one at a time opens to all of its figures. */
const Corners = ({ solved, look }: { solved: readonly ProvedCorner[]; look: (id: string) => void }) => {
  const [open, setOpen] = useState<string | null>(null)
  return (
    <section>
      <h3>{words.corners}</h3>
      <div className="table-scroll">
        <table className="wave-table proof-corners">
          <thead>
            <tr>
              <th scope="col">{words.cornerColumn}</th>
              <th scope="col">{waveformStrings.traces.drain_V.heading}</th>
              <th scope="col">{waveformStrings.traces.primary_A.heading}</th>
              <th scope="col">{words.clamp}</th>
              <th scope="col">{words.efficiency}</th>
              <th scope="col">{words.apart}</th>
            </tr>
          </thead>
          <tbody>
            {solved.map((proved) => (
              <CornerRow
                key={proved.corner.id}
                proved={proved}
                open={open === proved.corner.id}
                toggle={() => setOpen((o) => (o === proved.corner.id ? null : proved.corner.id))}
                look={look}
              />
            ))}
          </tbody>
        </table>
      </div>
    </section>
  )
}

const Findings = ({ proof, look }: { proof: Proof; look: (id: string) => void }) => (
  <section>
    <h3>{words.findings}</h3>
    {proof.findings.length === 0 ? (
      <p>{words.noFindings}</p>
    ) : (
      <ul className="proof-findings">
        {proof.findings.map((finding) => (
          <li key={finding.corner.id}>
            {finding.sentence}{' '}
            <button type="button" className="plain" onClick={() => look(finding.corner.id)}>
              {words.look}
            </button>
          </li>
        ))}
      </ul>
    )}
  </section>
)

/** Every corner solved: findings, limits ranked anew, and closed form beside solved corner by corner. */
export const ProofPart = memo(
  ({ evaluation, look: turn }: { evaluation: Evaluation; look: (id: string) => void }) => {
    const { id } = evaluation.design.supply
    const state = useStore(proofs, (all) => proofOf(all, id))
    const { proof, under } = state
    const old = proof !== null && state.of !== evaluation
    const look = (corner: string) => {
      cornerStore.set(() => corner)
      turn(corner)
    }
    return (
      <section className="wave-proof" aria-label={waveformStrings.parts.proof}>
        <div className="proof-head">
          <p className="lead">{words.lead}</p>
          {under === null ? (
            <button type="button" className="act" onClick={() => void proveAll(evaluation)}>
              {proof ? words.again : words.prove}
            </button>
          ) : (
            <>
              <progress
                max={corners.length}
                value={under.length}
                aria-label={words.progress(under.length, corners.length)}
              />
              <button type="button" className="plain" onClick={() => cancelProof(id)}>
                {words.cancel}
              </button>
            </>
          )}
          <p role="status">
            {under !== null
              ? words.progress(under.length, corners.length)
              : state.problem !== null
                ? state.problem
                : proof
                  ? old
                    ? words.old
                    : words.took(show(state.took_s, 's', 2), proof.corners.length)
                  : ''}
          </p>
        </div>
        {under !== null && under.length > 0 && (
          <div className="proof-body">
            <Corners solved={under} look={look} />
          </div>
        )}
        {under === null && proof && (
          <div className="proof-body" data-stale={old || undefined}>
            <Findings proof={proof} look={look} />
            <Limits proof={proof} />
            <Corners solved={proof.corners} look={look} />
          </div>
        )}
      </section>
    )
  },
)
