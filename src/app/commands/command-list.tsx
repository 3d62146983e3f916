import { type KeyboardEvent, useId, useState } from 'react'
import { Dialog } from '../controls/dialog.tsx'
import { useStore } from '../state/store.ts'
import { strings } from '../strings/common.ts'
import { availableViews } from '../views/bench/slots.tsx'
import { commandList, commandsNow } from './commands.ts'

/** Everything that can be done, found by typing; arrows choose, Enter does it. */
const Sheet = ({ close }: { close: () => void }) => {
  const [find, setFind] = useState('')
  const [at, setAt] = useState(0)
  const id = useId()
  const wanted = find.toLowerCase().split(/\s+/).filter(Boolean)
  const found = commandsNow(availableViews).filter((c) =>
    wanted.every((word) => c.label.toLowerCase().includes(word)),
  )
  const chosen = Math.min(at, Math.max(found.length - 1, 0))
  const run = (index: number) => {
    close()
    const command = found[index]
    if (command) setTimeout(command.run)
  }
  const press = (event: KeyboardEvent) => {
    if (event.key === 'ArrowDown') setAt(Math.min(chosen + 1, found.length - 1))
    else if (event.key === 'ArrowUp') setAt(Math.max(chosen - 1, 0))
    else if (event.key === 'Enter') run(chosen)
    else return
    event.preventDefault()
  }
  return (
    <Dialog title={strings.commands.title} close={close}>
      <input
        type="search"
        className="search"
        role="combobox"
        aria-expanded="true"
        aria-controls={`${id}-list`}
        aria-activedescendant={found.length > 0 ? `${id}-${chosen}` : undefined}
        aria-label={strings.commands.find}
        placeholder={strings.commands.find}
        value={find}
        onChange={(event) => {
          setFind(event.target.value)
          setAt(0)
        }}
        onKeyDown={press}
      />
      <div className="command-list" id={`${id}-list`} role="listbox" aria-label={strings.commands.title}>
        {found.map((command, index) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: keys are handled by the field above
          // biome-ignore lint/a11y/useFocusableInteractive: the field above keeps the focus and names the chosen one
          <div
            key={command.id}
            id={`${id}-${index}`}
            role="option"
            aria-selected={index === chosen}
            className="command"
            onClick={() => run(index)}
          >
            {command.label}
            {command.keys && <kbd>{command.keys}</kbd>}
          </div>
        ))}
      </div>
      {found.length === 0 && <p className="empty">{strings.commands.none}</p>}
    </Dialog>
  )
}

export const CommandList = () => {
  const open = useStore(commandList, (o) => o)
  return open ? <Sheet close={() => commandList.set(() => false)} /> : null
}
