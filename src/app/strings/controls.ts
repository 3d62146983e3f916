/** Words on controls that are used everywhere. */
export const controlStrings = {
  about: (label: string) => `About ${label}`,
  chosen: 'chosen',
  fixed: 'fixed',
  fix: (label: string) => `Fix ${label} where it is`,
  free: (label: string) => `Let the tool choose ${label}`,
  none: 'none',
  close: 'Close',
  cancel: 'Cancel',
  showMore: 'Show all',
  count: (label: string) => `Number of ${label}`,
  moreRight: 'More to the right: slide it sideways',
  moreLeft: 'More to the left: slide it sideways',
} as const
