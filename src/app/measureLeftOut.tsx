import type { ReactNode } from 'react';
import type { EntryStyle } from '../notebook/props';
import { sayApp } from '../words/app';
import { sayPage } from '../words/page';

/** In one file the chapter on measuring says that it is not there, so that the file stays small. */
export function LazyMeasure(_: { readonly entry: EntryStyle }): ReactNode {
  return (
    <section className="chapter" id="measure" aria-labelledby="measure-heading">
      <h2 id="measure-heading">{sayApp('measureChapter')}</h2>
      <p className="note">{sayPage('measuringLeftOut')}</p>
    </section>
  );
}
