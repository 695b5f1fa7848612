import { type ReactNode, useEffect, useRef } from 'react';
import type { ViewName } from '../core/analysis';
import { Choice } from '../notebook/Choice';
import { shownMidi } from '../notebook/noteNames';
import { formatFixed } from '../notebook/numberText';
import type { EntryStyle } from '../notebook/props';
import { useApp, useSession } from './SessionContext';
import { sayPage } from '../words/page';

export interface ShownRowProps {
  /** How the note is named. */
  readonly entry: EntryStyle;
}

/** From the fullest to the plainest. */
const VIEWS: readonly ViewName[] = ['seated', 'normal', 'sphere', 'plate'];

/** What the picture shows, beside it: the same choices as in the Angles chapter, and the numbers of this moment. */
export function ShownRow({ entry }: ShownRowProps): ReactNode {
  const { store } = useSession();
  const { horn, view } = useApp((state) => state.settings);
  const { set } = store.getState();
  return (
    <div className="shown-row" role="group" aria-label={sayPage('whatIsShown')}>
      <Choice legend={sayPage('horn')} legendHidden options={horns()} value={horn} onChange={(next) => set({ horn: next })} />
      <label className="tick">
        {sayPage('shown')}
        <select value={view} onChange={(event) => set(showing(event.target.value as ViewName))}>
          {VIEWS.map((one) => (
            <option key={one} value={one}>
              {sayPage(`view-${one}`)}
            </option>
          ))}
        </select>
      </label>
      <LiveReadout entry={entry} />
    </div>
  );
}

const horns = () => [{ value: 'follow', label: sayPage('hornFollows') }, { value: 'held', label: sayPage('hornHeld') }] as const;

/** A view is a way to find the horn's angle, so whoever chooses one wants to see the horn follow it. */
export const showing = (view: ViewName): { readonly view: ViewName; readonly horn: 'follow' } => ({ view, horn: 'follow' });

/** The moving numbers: written into the page frame by frame, without rendering; hidden from screen readers, which have the sentence. */
function LiveReadout({ entry }: ShownRowProps): ReactNode {
  const { playhead, store } = useSession();
  const text = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    const write = (): void => {
      const frame = playhead.current();
      const home = store.getState().analysis?.home.follow.pose;
      if (text.current === null || frame === null || home === undefined) return;
      const { upMm, rightMm } = frame.travel;
      const up = frame.shown.elevationDeg - home.elevationDeg;
      const right = frame.shown.lateralDeg - home.lateralDeg;
      const note = frame.midi === null ? '' : shownMidi(Math.round(frame.midi), entry.shownTransposition, entry.naming);
      const place = `${formatFixed(upMm, 1)}, ${formatFixed(rightMm, 1)}\u00a0mm`;
      text.current.textContent = `${note} \u2002${place} \u00b7 ${formatFixed(up, 1)}°, ${formatFixed(right, 1)}°`;
    };
    write();
    return playhead.subscribe(write);
  }, [playhead, store, entry]);
  return <span className="shown-row__now" ref={text} aria-hidden="true" />;
}
