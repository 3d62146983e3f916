import type { Changed, Mending } from '../engine/search/index.ts'
import { percent } from './limits-text.ts'

const done = ({ changes }: Changed): string => changes.map(({ words }) => words).join('; ')

/** What would mend a supply, as text: numbered changes, or what comes closest and what it would still break. */
export function mendText({ answers, nearest }: Mending): string {
  if (answers.length > 0)
    return [
      'What would mend it; the fewest changes and the least work first:',
      ...answers.map((changed, i) => {
        const { title, margin } = changed.assessment.givesFirst
        return `${i + 1}. ${done(changed)}\n   Then gives first: ${title}, ${percent(margin)} left.`
      }),
    ].join('\n')
  const none =
    'Nothing that was tried mends it: every single change, the most promising pairs, and a third change on the best of\nthose.'
  return nearest === null ? none : `${none}\nWhat comes closest: ${done(nearest)}.\n  ${nearest.sentence}`
}

/** The same for programs. */
export const mendForPrograms = ({ answers, nearest }: Mending) => ({
  answers: answers.map(({ changes, supply, assessment: { givesFirst } }) => ({
    changes,
    givesFirst,
    build: supply.build,
  })),
  nearest:
    nearest === null
      ? null
      : {
          changes: nearest.changes,
          broken: nearest.broken,
          sentence: nearest.sentence,
          build: nearest.supply.build,
        },
})
