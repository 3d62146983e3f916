import { desk } from '../../state/desk.ts'
import { useStore } from '../../state/store.ts'
import { drawerStrings as words } from '../../strings/drawer.ts'

/** Problems that are told. */
const mostTold = 6

/** Why the drawer that is kept cannot be used; nothing where it can. */
export const UnusableDrawer = () => {
  const problems = useStore(desk, (d) => d.unusableDrawer)
  if (problems.length === 0) return null
  return (
    <div className="problem" role="alert">
      <p>
        <b>{words.unusable}</b>
      </p>
      <ul>
        {problems.slice(0, mostTold).map((problem) => (
          <li key={problem}>{problem}</li>
        ))}
      </ul>
      <p>{words.unusableMeans}</p>
    </div>
  )
}
