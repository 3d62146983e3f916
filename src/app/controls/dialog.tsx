import { type ReactNode, useEffect, useId, useRef } from 'react'
import { controlStrings } from '../strings/controls.ts'
import { Icon } from './icon.tsx'

/** A modal sheet: Escape and a press outside close it, and the focus goes back to where it was. */
export const Dialog = ({
  title,
  close,
  wide = false,
  children,
}: {
  title: string
  close: () => void
  wide?: boolean
  children: ReactNode
}) => {
  const ref = useRef<HTMLDialogElement>(null)
  const titleId = useId()
  useEffect(() => {
    const dialog = ref.current
    const before = document.activeElement
    dialog?.showModal()
    dialog?.querySelector<HTMLElement>('input:not([type=file]), select, textarea')?.focus()
    return () => {
      dialog?.close()
      if (before instanceof HTMLElement) before.focus()
    }
  }, [])
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: Escape closes a dialog; the press outside is an extra
    <dialog
      ref={ref}
      className="dialog"
      data-wide={wide || undefined}
      aria-labelledby={titleId}
      onCancel={(event) => {
        event.preventDefault()
        close()
      }}
      onClick={(event) => {
        if (event.target === ref.current) close()
      }}
    >
      <div className="dialog-sheet">
        <header className="dialog-head">
          <h2 id={titleId}>{title}</h2>
          <button type="button" className="quiet" onClick={close} aria-label={controlStrings.close}>
            <Icon name="close" />
          </button>
        </header>
        {children}
      </div>
    </dialog>
  )
}
