import { drafts, wrongDrafts } from '../../state/drafts.ts'
import { status } from '../../state/status.ts'
import { useStore } from '../../state/store.ts'
import { frameStrings as words } from '../../strings/frame.ts'

/** One line at the foot: the last thing that happened, what waits for a right value, and where all is kept. */
export const StatusLine = ({ place, prefix }: { place: string; prefix: string }) => {
  const now = useStore(status, (s) => s)
  const wrong = useStore(drafts, (all) => wrongDrafts(all, prefix).length)
  return (
    <footer className="status">
      <p className="status-text" data-tone={now.tone} aria-live="polite" key={now.turn}>
        {now.text}
        {now.action && (
          <button
            type="button"
            className="plain"
            onClick={() => {
              now.action?.run()
              status.set((s) => ({ ...s, text: '', action: null }))
            }}
          >
            {now.action.label}
          </button>
        )}
      </p>
      {wrong > 0 && <p className="status-wrong">{words.waiting(wrong)}</p>}
      <p className="status-place">
        {words.keptIn} {place}
      </p>
    </footer>
  )
}
