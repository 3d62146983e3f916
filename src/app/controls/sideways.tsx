import { type ReactNode, useLayoutEffect, useRef, useState } from 'react'
import { controlStrings } from '../strings/controls.ts'

/** Which ends of a wide thing lie out of sight. */
type Hidden = 'none' | 'left' | 'right' | 'both'

const hiddenOf = (box: HTMLElement): Hidden => {
  const left = box.scrollLeft > 1
  const right = box.scrollLeft + box.clientWidth < box.scrollWidth - 1
  if (left && right) return 'both'
  return left ? 'left' : right ? 'right' : 'none'
}

/** A place for what may be wider than the screen: it moves sideways, and says so while there is more to see. */
export const Sideways = ({
  label,
  className,
  children,
}: {
  label: string
  className: string
  children: ReactNode
}) => {
  const box = useRef<HTMLElement>(null)
  const [hidden, setHidden] = useState<Hidden>('none')
  useLayoutEffect(() => {
    const here = box.current
    if (here === null) return
    const read = () => setHidden(hiddenOf(here))
    read()
    const observer = new ResizeObserver(read)
    observer.observe(here)
    for (const child of here.children) observer.observe(child)
    return () => observer.disconnect()
  }, [])
  return (
    <div className="sideways" data-hidden={hidden}>
      <section
        ref={box}
        className={className}
        aria-label={label}
        tabIndex={hidden === 'none' ? undefined : 0}
        onScroll={(event) => setHidden(hiddenOf(event.currentTarget))}
      >
        {children}
      </section>
      {hidden !== 'none' && (
        <p className="sideways-hint" aria-hidden="true">
          {hidden === 'left' ? controlStrings.moreLeft : controlStrings.moreRight}
        </p>
      )}
    </div>
  )
}
