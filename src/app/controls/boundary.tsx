import { Component, type ReactNode } from 'react'
import { strings } from '../strings/common.ts'

interface Props {
  readonly children: ReactNode
  /** A new value lets the children try again. */
  readonly resetOn: unknown
  readonly undo?: (() => void) | undefined
}

interface State {
  readonly message: string | null
}

/** Keeps a failure in one part of the page from taking the rest along; what was typed is in the store, not here. */
export class Boundary extends Component<Props, State> {
  override state: State = { message: null }

  static getDerivedStateFromError(error: unknown): State {
    return { message: error instanceof Error ? error.message : String(error) }
  }

  override componentDidUpdate(before: Props) {
    if (before.resetOn !== this.props.resetOn && this.state.message !== null) this.setState({ message: null })
  }

  override render() {
    if (this.state.message === null) return this.props.children
    return (
      <div className="broken" role="alert">
        <h2>{strings.broken.title}</h2>
        <p>{strings.broken.lead}</p>
        <p className="broken-message">{this.state.message}</p>
        {this.props.undo && (
          <button type="button" className="act" onClick={this.props.undo}>
            {strings.broken.undo}
          </button>
        )}
        <button type="button" className="plain" onClick={() => location.reload()}>
          {strings.broken.reload}
        </button>
      </div>
    )
  }
}
