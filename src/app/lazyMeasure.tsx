/** Measuring from pictures in a chunk of its own: its place and heading stand at once, the rest when it has come. */
import { type ReactNode, Suspense, lazy } from 'react';
import type { EntryStyle } from '../notebook/props';
import { useRecords } from './RecordsContext';
import { measuringKeeping } from './measuringKeeping';

const Pane = lazy(() => import('./MeasurePane').then((module) => ({ default: module.MeasurePane })));

export function LazyMeasure({ entry }: { readonly entry: EntryStyle }): ReactNode {
  const records = useRecords();
  return (
    <Suspense fallback={<Waiting />}>
      <Pane entry={entry} keeping={measuringKeeping} records={records} />
    </Suspense>
  );
}

function Waiting(): ReactNode {
  return (
    <section className="chapter" id="measure" aria-labelledby="measure-heading">
      <h2 id="measure-heading">From pictures and film</h2>
    </section>
  );
}
