/**
 * The readings as notes on a staff, which is also the time line: click or drag along it and the rim moves there. Notation
 * is drawn by a lazily loaded engraver; until it is there, or when it cannot be had, the note names alone carry the line.
 */
import { useCallback, useEffect, useId, useMemo, useRef, type KeyboardEvent, type RefObject } from 'react';
import { useFrame } from '../hooks/useFrame';
import {
  LEAD_PX,
  WAY_ROW_PX,
  layoutStaff,
  layoutWithoutNotation,
  noteAt,
  pitchAt,
  placeOf,
  scrollToShow,
  wayRuns,
  type StaffLayout,
} from './layout';
import { NoteColumn } from './NoteColumn';
import type { StaffProps, SwingWords } from './props';
import { staffPosition, writtenNotes } from './spelling';
import { sayStaff } from '../words/staff';
import './staff.css';
import { loadEngraver, useEngraver, useNotation } from './useNotation';
import { useScrub } from './useScrub';

export function Staff(props: StaffProps) {
  const { notes, instrument, live, selected, onSelect, onScrub, onScrubEnd, showSwing } = props;
  const ownSwingWords = useMemo(bellWords, []);
  const swingWords = props.swingWords ?? ownSwingWords;
  const [frame, { widthPx: frameWidth, zoom }] = useFrame<HTMLDivElement>();
  const [engraver, setEngraver] = useEngraver(props.loadEngraver ?? loadEngraver);
  const listId = useId();
  const written = useMemo(() => writtenNotes(notes, instrument), [notes, instrument]);
  const withSwing = showSwing !== undefined;
  const inWords = engraver === 'failed' || written === null;
  const layout = useMemo(
    () =>
      engraver === 'failed' || written === null
        ? layoutWithoutNotation(frameWidth, notes.length, withSwing)
        : layoutStaff(frameWidth, written.map((note) => staffPosition(note, instrument.clef)), withSwing, instrument.clef),
    [engraver, frameWidth, notes.length, written, instrument.clef, withSwing],
  );
  const midis = useMemo(() => notes.map((note) => note.midi), [notes]);
  const runs = useMemo(() => wayRuns(notes, layout.spacingPx), [notes, layout]);
  const music = useNotation(engraver, setEngraver, layout, written, instrument.clef);
  const showPlace = useCallback(
    (xPx: number): void => {
      if (!frame.current || layout.widthPx <= frameWidth) return;
      const scrollPx = frame.current.scrollLeft / zoom;
      const wantedPx = scrollToShow(xPx, scrollPx, frameWidth, layout.widthPx);
      if (wantedPx !== scrollPx) frame.current.scrollLeft = wantedPx * zoom;
    },
    [frame, frameWidth, layout, zoom],
  );
  const playhead = usePlayhead(live, layout, notes, showPlace);

  const select = (index: number): void => {
    const note = notes[index];
    if (note && note.readingIndex !== selected) onSelect(note.readingIndex);
  };
  const goTo = (index: number): void => {
    const note = notes[index];
    if (!note) return;
    select(index);
    onScrub(note.midi, note.direction ?? null, note.readingIndex);
    onScrubEnd();
    showPlace(layout.noteXs[index] as number);
  };
  const scrub = useScrub({
    zoom,
    onMove: (x) => {
      const midi = pitchAt(x, midis, layout.noteXs);
      const note = notes[noteAt(x, layout) ?? 0];
      if (midi !== null && note) onScrub(midi, note.direction ?? null, note.readingIndex);
    },
    onClick: (x) => goTo(noteAt(x, layout) ?? 0),
    onEnd: onScrubEnd,
  });

  const current = notes.findIndex((note) => note.readingIndex === selected);
  const onKeyDown = (event: KeyboardEvent): void => {
    const next = nextIndex(event.key, current, notes.length);
    if (next === null) return;
    event.preventDefault();
    goTo(next);
  };

  return (
    <div className="staff" ref={frame}>
      {frameWidth > 0 && (
        <div className="staff-sheet" style={{ width: layout.widthPx, height: layout.heightPx + (runs.length > 0 ? WAY_ROW_PX : 0), zoom }} {...scrub}>
          <div className="staff-playhead" ref={playhead} aria-hidden="true" style={{ height: layout.namesTopPx }} hidden />
          <div className={inWords ? 'staff-line' : 'staff-music'} ref={music} aria-hidden="true" style={{ height: layout.namesTopPx }} />
          {withSwing && notes.length > 0 && <RowHeadings topPx={layout.namesTopPx} words={swingWords} />}
          <div
            className="staff-notes"
            role="listbox"
            aria-label={sayStaff('timeLine', { instrument: instrument.name })}
            aria-orientation="horizontal"
            aria-activedescendant={current >= 0 ? `${listId}-${current}` : undefined}
            tabIndex={0}
            onKeyDown={onKeyDown}
          >
            {notes.map((note, index) => (
              <NoteColumn
                key={index}
                id={`${listId}-${index}`}
                note={note}
                written={written?.[index] ?? null}
                swing={showSwing?.[index]}
                swingWords={swingWords}
                selected={index === current}
                leftPx={LEAD_PX + index * layout.spacingPx}
                widthPx={layout.spacingPx}
                namesTopPx={layout.namesTopPx}
              />
            ))}
          </div>
          {runs.map(({ direction, leftPx, widthPx }) => (
            <span key={leftPx} className="staff-way" aria-hidden="true" style={{ left: leftPx, width: widthPx, top: layout.heightPx }}>
              {sayStaff(direction === 'up' ? 'ascending' : 'descending')}
            </span>
          ))}
          {notes.length === 0 && <p className="staff-empty">{sayStaff('noNotes')}</p>}
        </div>
      )}
      {inWords && <p className="staff-message">{sayStaff(written ? 'notLoaded' : 'notWritable')}</p>}
    </div>
  );
}

/** What a horn held in the hands does. */
const bellWords = (): SwingWords => ({
  elevation: { heading: sayStaff('headingUp'), positive: sayStaff('up'), negative: sayStaff('down') },
  lateral: { heading: sayStaff('headingRight'), positive: sayStaff('right'), negative: sayStaff('left') },
});

function RowHeadings({ topPx, words }: { topPx: number; words: SwingWords }) {
  return (
    <div className="staff-rows" style={{ top: topPx }} aria-hidden="true">
      <span className="staff-row-name" />
      <span className="staff-row">{words.elevation.heading} °</span>
      <span className="staff-row">{words.lateral.heading} °</span>
    </div>
  );
}

/** The playhead is moved by hand, once a frame: no render is involved. */
function usePlayhead(
  live: StaffProps['live'],
  layout: StaffLayout,
  notes: StaffProps['notes'],
  showPlace: (xPx: number) => void,
): RefObject<HTMLDivElement | null> {
  const line = useRef<HTMLDivElement>(null);
  const lastX = useRef(LEAD_PX);
  useEffect(() => {
    const ways = (['up', 'down', null] as const).map((direction) => {
      const own = notes.flatMap((note, index) => (direction === null || note.direction === direction ? [index] : []));
      return { direction, midis: own.map((index) => notes[index]!.midi), xs: own.map((index) => layout.noteXs[index]!) };
    });
    const move = (): void => {
      const element = line.current;
      if (!element) return;
      const { midi = null, direction = null } = live.current() ?? {};
      const way = ways.find((one) => one.direction === direction && one.midis.length > 0) ?? ways[2]!;
      const x = midi === null ? null : placeOf(midi, way.midis, way.xs, lastX.current);
      element.hidden = x === null;
      if (x === null) return;
      lastX.current = x;
      element.style.transform = `translateX(${x}px)`;
      showPlace(x);
    };
    move();
    return live.subscribe(move);
  }, [live, layout, notes, showPlace]);
  return line;
}

function nextIndex(key: string, current: number, count: number): number | null {
  if (count === 0) return null;
  if (key === 'Home') return 0;
  if (key === 'End') return count - 1;
  if (key === 'ArrowRight') return current < 0 ? 0 : Math.min(count - 1, current + 1);
  if (key === 'ArrowLeft') return current < 0 ? count - 1 : Math.max(0, current - 1);
  return null;
}
