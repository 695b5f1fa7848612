import { Component, type ReactNode } from 'react';

interface FallBackProps {
  readonly to: ReactNode;
  readonly children: ReactNode;
}

/** A graphics failure costs the third dimension, not the page. */
export class FallBack extends Component<FallBackProps, { readonly failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError(): { failed: boolean } {
    return { failed: true };
  }

  override render(): ReactNode {
    return this.state.failed ? this.props.to : this.props.children;
  }
}
