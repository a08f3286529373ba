/**
 * One region of the window. If what stands in it breaks off, the others go on: the drawing can still be saved, and
 * the region be shown again.
 */
import { Component } from "react";
import type { ReactNode } from "react";

interface RegionProps {
  readonly name: string;
  readonly children: ReactNode;
}

interface RegionState {
  readonly broken: string | null;
}

// React tells of a component that broke off to classes only.
export class Region extends Component<RegionProps, RegionState> {
  override readonly state: RegionState = { broken: null };

  static getDerivedStateFromError(cause: unknown): RegionState {
    return { broken: cause instanceof Error ? cause.message : String(cause) };
  }

  override render(): ReactNode {
    const { broken } = this.state;
    if (broken === null) return this.props.children;
    return (
      <section className="region-broken" role="alert" aria-label={this.props.name}>
        <p>
          {this.props.name} broke off ({broken}). The drawing is untouched: save it, then show this again.
        </p>
        <button type="button" onClick={() => this.setState({ broken: null })}>
          Show it again
        </button>
      </section>
    );
  }
}
