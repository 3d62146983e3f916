import { keepBoth, takeTheirs } from '../../state/desk.ts'
import { go } from '../../state/route.ts'
import { strings } from '../../strings/common.ts'

/** Two contents of one supply: the person decides, nothing is lost meanwhile. */
export const Conflict = ({ id }: { id: string }) => (
  <div className="conflict" role="alert">
    <p>{strings.save.conflictLead}</p>
    <button
      type="button"
      className="act"
      onClick={async () => {
        const copy = await keepBoth(id)
        if (copy !== null) go({ at: 'supply', id: copy, view: null, focus: null })
      }}
    >
      {strings.save.keepBoth}
    </button>
    <span>{strings.save.keepBothMeans}</span>
    <button type="button" className="act" onClick={() => void takeTheirs(id)}>
      {strings.save.takeTheirs}
    </button>
    <span>{strings.save.takeTheirsMeans}</span>
  </div>
)
