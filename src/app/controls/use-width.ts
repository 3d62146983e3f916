import { type RefObject, useLayoutEffect, useState } from 'react'

/** Widths between which a picture is still a picture. */
const least = 320
const most = 1800
/** Steps of width, so that dragging a window does not draw at every pixel. */
const step = 20

const stepped = (width: number): number => Math.min(most, Math.max(least, Math.floor(width / step) * step))

/** Width of an element in CSS pixels, in steps. */
export const useWidth = (element: RefObject<HTMLElement | null>): number => {
  const [width, setWidth] = useState(760)
  useLayoutEffect(() => {
    const here = element.current
    if (here === null) return
    const read = () => setWidth(stepped(here.clientWidth))
    read()
    const observer = new ResizeObserver(read)
    observer.observe(here)
    return () => observer.disconnect()
  }, [element])
  return width
}
