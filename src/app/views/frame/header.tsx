import { useRef, useState } from 'react'
import { commandList, redoHere, undoHere } from '../../commands/commands.ts'
import { Icon } from '../../controls/icon.tsx'
import type { Doc, SaveState } from '../../state/documents.ts'
import { go, type Route } from '../../state/route.ts'
import { useStore } from '../../state/store.ts'
import { setTheme, theme, themes } from '../../state/theme.ts'
import { strings } from '../../strings/common.ts'

const saveText = (save: SaveState): string => (save.is === 'failed' ? save.message : strings.save[save.is])

const SaveMark = ({ save, again }: { save: SaveState; again: () => void }) => (
  <span className="save" data-state={save.is}>
    <span className="save-dot" aria-hidden="true" />
    <span role="status">{saveText(save)}</span>
    {save.is === 'failed' && (
      <button type="button" className="plain" onClick={again}>
        {strings.save.again}
      </button>
    )}
  </span>
)

/** The supply's name, edited where it stands. */
const NameField = ({ name, rename }: { name: string; rename: (name: string) => void }) => {
  const [text, setText] = useState<string | null>(null)
  const ref = useRef<HTMLInputElement>(null)
  const keep = () => {
    const next = (text ?? name).trim().slice(0, 120)
    if (next !== '' && next !== name) rename(next)
    setText(null)
  }
  return (
    <span className="name-field" data-value={text ?? name}>
      <input
        ref={ref}
        aria-label={strings.shelf.rename}
        value={text ?? name}
        maxLength={120}
        spellCheck={false}
        onChange={(event) => setText(event.target.value)}
        onBlur={keep}
        onKeyDown={(event) => {
          if (event.key === 'Enter') ref.current?.blur()
          if (event.key === 'Escape') {
            setText(null)
            event.stopPropagation()
          }
        }}
      />
    </span>
  )
}

const ThemeButton = () => {
  const now = useStore(theme, (t) => t)
  const next = themes[(themes.indexOf(now) + 1) % themes.length]!
  return (
    <button
      type="button"
      className="tool"
      title={`${strings.theme.label}: ${strings.theme[now]}`}
      aria-label={`${strings.theme.label}: ${strings.theme[now]}`}
      onClick={() => setTheme(next)}
    >
      <Icon name={now === 'auto' ? 'half' : now === 'light' ? 'sun' : 'moon'} />
    </button>
  )
}

/** The plate at the top: where you are, how it stands with saving, and the tools that work everywhere. */
export const Header = ({
  route,
  doc,
  name,
  rename,
  again,
}: {
  route: Route
  doc: Doc<unknown> | null
  name: string | null
  rename: ((name: string) => void) | null
  again: () => void
}) => (
  <header className="plateline">
    <a className="brand" href="#/" aria-current={route.at === 'shelf' ? 'page' : undefined}>
      <svg viewBox="0 0 22 16" aria-hidden="true">
        <path d="M1 1v14h20V9.6h-4V12h-3.6V9.6H8.6V12H5V9.6H1M1 6.4V1h20v5.4h-4V4h-3.6v2.4H8.6V4H5v2.4z" />
      </svg>
      <span className="brand-name">{strings.product}</span>
      <span className="unseen">{strings.shelf.title}</span>
    </a>
    {name !== null &&
      (rename ? (
        <NameField key={name} name={name} rename={rename} />
      ) : (
        <span className="name-text">{name}</span>
      ))}
    {doc && <SaveMark save={doc.save} again={again} />}
    <span className="tools">
      {doc && (
        <>
          <button
            type="button"
            className="tool"
            disabled={doc.history.past.length === 0}
            title={`${strings.edit.undo} ${doc.history.past.at(-1)?.label ?? ''}`}
            aria-label={strings.edit.undo}
            onClick={undoHere}
          >
            <Icon name="undo" />
          </button>
          <button
            type="button"
            className="tool"
            disabled={doc.history.future.length === 0}
            title={`${strings.edit.redo} ${doc.history.future[0]?.label ?? ''}`}
            aria-label={strings.edit.redo}
            onClick={redoHere}
          >
            <Icon name="redo" />
          </button>
        </>
      )}
      <button type="button" className="tool tool-words" onClick={() => go({ at: 'shelf' })}>
        <Icon name="shelf" /> <span>{strings.shelf.title}</span>
      </button>
      <button type="button" className="tool tool-words" onClick={() => go({ at: 'drawer' })}>
        <Icon name="drawer" /> <span>{strings.shelf.drawer}</span>
      </button>
      <ThemeButton />
      <button
        type="button"
        className="tool tool-words"
        aria-haspopup="dialog"
        aria-keyshortcuts="Control+K"
        onClick={() => commandList.set(() => true)}
      >
        <Icon name="command" /> <span>{strings.commands.open}</span> <kbd>Ctrl K</kbd>
      </button>
    </span>
  </header>
)
