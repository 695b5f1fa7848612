import type { ReactNode } from 'react';
import type { EntryStyle } from '../notebook/props';
import { MEASURING_LEFT_OUT } from '../notebook/share/guestWords';

/** In one file the chapter on measuring says that it is not there, so that the file stays small. */
export function LazyMeasure(_: { readonly entry: EntryStyle }): ReactNode {
  return (
    <section className="chapter" id="measure" aria-labelledby="measure-heading">
      <h2 id="measure-heading">From pictures and film</h2>
      <p className="note">{MEASURING_LEFT_OUT}</p>
    </section>
  );
}
