import type { ReactNode } from 'react';
import { sayApp } from '../words/app';

/** In the place of a part that could not be fetched, or broke off: the rest of the page goes on. What can be done is said once, over the notebook. */
export function PartMissing({ className = 'note' }: { readonly className?: string }): ReactNode {
  return <p className={className}>{sayApp('partMissing')}</p>;
}
