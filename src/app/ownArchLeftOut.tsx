import type { ReactNode } from 'react';
import { sayApp } from '../words/app';
import { sayPage } from '../words/page';

/** In one file the own arch says that it is not there, so that the file stays small. */
export function LazyOwnArch(): ReactNode {
  return (
    <details>
      <summary>{sayApp('ownArch')}</summary>
      <p className="note">{sayPage('ownArchLeftOut')}</p>
    </details>
  );
}

/** The sentence above stands for scans as well. */
export const LazyScan = (): ReactNode => null;
