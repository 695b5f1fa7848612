/** Measuring from pictures in a chunk of its own: its place and heading stand at once, the rest when it has come. */
import { type ReactNode, Suspense, lazy } from 'react';
import { FallBack } from './FallBack';
import { PartMissing } from './PartMissing';
import type { EntryStyle } from '../notebook/props';
import { sayApp } from '../words/app';
import { useRecords } from './RecordsContext';
import { measuringKeeping } from './measuringKeeping';

const Pane = lazy(() => import('./MeasurePane').then((module) => ({ default: module.MeasurePane })));

export function LazyMeasure({ entry }: { readonly entry: EntryStyle }): ReactNode {
  const records = useRecords();
  return (
    <FallBack to={<Waiting><PartMissing /></Waiting>}>
      <Suspense fallback={<Waiting />}>
        <Pane entry={entry} keeping={measuringKeeping} records={records} />
      </Suspense>
    </FallBack>
  );
}

function Waiting({ children }: { readonly children?: ReactNode }): ReactNode {
  return (
    <section className="chapter" id="measure" aria-labelledby="measure-heading">
      <h2 id="measure-heading">{sayApp('measureChapter')}</h2>
      {children}
    </section>
  );
}
