import { Component, type ReactNode } from 'react';

interface FallBackProps {
  readonly to: ReactNode;
  readonly children: ReactNode;
}

/** What fails costs its own place and not the page: the third dimension, or a part that could not be fetched. */
export class FallBack extends Component<FallBackProps, { readonly failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError(): { failed: boolean } {
    return { failed: true };
  }

  override render(): ReactNode {
    return this.state.failed ? this.props.to : this.props.children;
  }
}
