/** Line drawings on a 16-unit square, one stroke weight; always beside or under an accessible name. */
const paths = {
  undo: 'M6 3.5 2.5 7 6 10.5M2.5 7h6.8a4 4 0 0 1 0 8H7',
  redo: 'M10 3.5 13.5 7 10 10.5M13.5 7H6.7a4 4 0 0 0 0 8H9',
  shelf: 'M2 13.5h12M2 8h12M4 8V4.5h2.5V8M9 8V3h3v5M4.5 13.5V10h6v3.5',
  drawer: 'M2 3h12v10.5H2zM2 8.2h12M6.5 5.7h3M6.5 10.9h3',
  command: 'M3 4.5 6 8l-3 3.5M8 12h5',
  down: 'm4 6.5 4 4 4-4',
  close: 'm4 4 8 8m0-8-8 8',
  copy: 'M5.5 5.5v-3h8v8h-3M2.5 5.5h8v8h-8z',
  bin: 'M3 4.5h10M6.5 4.5v-2h3v2M4.5 4.5l.6 9h5.8l.6-9M7 7v4m2-4v4',
  compare: 'M8 2v12M2.5 4.5H6m-3.5 3H6m-3.5 3H6m4-6h3.5m-3.5 3h3.5m-3.5 3h3.5',
  file: 'M4 2.5h5l3 3v8H4zM9 2.5v3h3',
  plus: 'M8 3v10M3 8h10',
  sun: 'M8 5.2a2.8 2.8 0 1 1 0 5.6 2.8 2.8 0 0 1 0-5.6M8 1.5v1.6m0 9.8v1.6M1.5 8h1.6m9.8 0h1.6M3.4 3.4l1.1 1.1m7 7 1.1 1.1m0-9.2-1.1 1.1m-7 7-1.1 1.1',
  moon: 'M13 9.6A5.6 5.6 0 0 1 6.4 3 5.6 5.6 0 1 0 13 9.6z',
  half: 'M8 2.5a5.5 5.5 0 1 1 0 11zM8 2.5a5.5 5.5 0 1 0 0 11z',
  free: 'M8 4.5a3.5 3.5 0 1 1 0 7 3.5 3.5 0 0 1 0-7',
  pin: 'M8 1.5v3M8 11.5v3M1.5 8h3M11.5 8h3M8 4.5a3.5 3.5 0 1 1 0 7 3.5 3.5 0 0 1 0-7M8 7.4v1.2',
  enlarge: 'M9.5 2.5h4v4m0-4-4.2 4.2M6.5 13.5h-4v-4m0 4 4.2-4.2',
  shrink: 'M13.2 6.5h-4v-4m0 4 4.2-4.2M2.8 9.5h4v4m0-4-4.2 4.2',
  print: 'M4.5 6V2.5h7V6M4.5 11.5h-2V6h11v5.5h-2M4.5 9.5h7v4h-7z',
} as const

type IconName = keyof typeof paths

export const Icon = ({ name }: { name: IconName }) => (
  <svg className="icon" viewBox="0 0 16 16" aria-hidden="true">
    <path d={paths[name]} />
  </svg>
)
