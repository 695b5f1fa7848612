import { type PointerEvent, type ReactNode, useRef } from 'react';
import { fromPixels, toPixels } from '../../chart/scale';
import { sayFilming } from '../../../words/filming';
import { formatFixed } from '../../numberText';
import { NOTES_PX, type TimeLineLayout } from './layout';
import type { TimeLineProps } from './props';

export interface NoteSpansProps
  extends Pick<TimeLineProps, 'notes' | 'nameOf' | 'selectedNote' | 'onSelectNote' | 'onBoundary'> {
  readonly layout: TimeLineLayout;
  readonly zoom: number;
}

/** The notes as a row of buttons over the time line; the ends of the chosen one can be drawn along (by keys: in the list of notes). */
export function NoteSpans({ notes, nameOf, selectedNote, onSelectNote, onBoundary, layout, zoom }: NoteSpansProps): ReactNode {
  const row = useRef<HTMLDivElement>(null);
  const timeAt = (event: PointerEvent): number =>
    fromPixels(layout.x, (event.clientX - (row.current?.getBoundingClientRect().left ?? 0)) / zoom);
  return (
    <div className="time-line__notes" ref={row} style={{ top: layout.notesTopPx, height: NOTES_PX }}>
      {notes.map((note, index) => {
        const [from, to] = [toPixels(layout.x, note.startS), toPixels(layout.x, note.endS)];
        const isChosen = index === selectedNote;
        return (
          <div
            key={index}
            className={isChosen ? 'time-line__note time-line__note--chosen' : 'time-line__note'}
            style={{ left: from, width: Math.max(3, to - from) }}
          >
            <button
              type="button"
              tabIndex={-1}
              aria-hidden="true"
              title={sayFilming('noteTitle', { note: nameOf(note), from: formatFixed(note.startS, 2), to: formatFixed(note.endS, 2) })}
              onClick={() => onSelectNote(index)}
            >
              {nameOf(note)}
            </button>
            {isChosen
              ? (['start', 'end'] as const).map((end) => (
                  <span
                    key={end}
                    className={`time-line__end time-line__end--${end}`}
                    onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
                    onPointerMove={(event) => {
                      if (event.currentTarget.hasPointerCapture(event.pointerId)) onBoundary(index, end, timeAt(event), false);
                    }}
                    onPointerUp={(event) => onBoundary(index, end, timeAt(event), true)}
                  />
                ))
              : null}
          </div>
        );
      })}
    </div>
  );
}
