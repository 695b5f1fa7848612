/** What stands in the stage's place while films are open: the frame with its marks and what was followed, and the time line under it. */
import { type ReactNode, useMemo } from 'react';
import { useStore } from 'zustand';
import { midiOf } from '../core/pitch';
import { boundaryMoved } from '../measure/tapped';
import { editedOr, tapAt } from '../notebook/measure/film/tapping';
import { rimEllipse } from '../measure/pictureResult';
import { FilmBar } from '../notebook/measure/film/FilmBar';
import { TracedOverlay } from '../notebook/measure/film/TracedOverlay';
import { noteHeardName } from '../notebook/measure/film/noteHeardName';
import { MeasuringPicture } from '../notebook/measure/MeasuringPicture';
import { anchorAt } from '../notebook/measure/anchorEdits';
import { NO_MARKS } from '../notebook/measure/marksEdits';
import { TimeLine } from '../notebook/measure/timeLine/TimeLine';
import type { WaveOverview } from '../notebook/measure/timeLine/props';
import { sayFilming } from '../words/filming';
import { useApp, useSession } from './SessionContext';
import { useEntry } from './useEntry';
import { shownFilm, takeTime } from './filmSource';
import type { FilmSource, FilmingStore } from './filmingTypes';
import { lostMarks } from './lostMarks';
import { spokenMarks } from './marking';
import { type TakeResults, curvesOf, pathOverFrame, tracedAt } from './takeResults';
import '../notebook/measure/film/film.css';

export interface FilmRoomProps {
  readonly store: FilmingStore;
  readonly results: TakeResults;
}

export function FilmRoom(props: FilmRoomProps): ReactNode {
  const shown = useStore(props.store, shownFilm);
  const isWorking = useStore(props.store, ({ working }) => working !== null);
  if (shown === undefined) return null;
  return shown.frame === null ? <p className="stage-frame stage-waiting">{sayFilming(isWorking ? 'opened' : 'frameUnread')}</p> : <Shown {...props} source={shown} frame={shown.frame} />;
}

type ShownProps = FilmRoomProps & { readonly source: FilmSource; readonly frame: NonNullable<FilmSource['frame']> };

function Shown({ store, results, source, frame }: ShownProps): ReactNode {
  const entry = useEntry();
  const { store: page } = useSession();
  const rim = useApp((now) => now.record.rim);
  const homeMidi = useHomeMidi(store);
  const state = useStore(store);
  const { notes, selectedNote, films } = state;
  const { past, present, future } = source.anchors;
  const marks = anchorAt(present, frame.timeS)?.marks ?? NO_MARKS;
  const traced = tracedAt(source, frame.timeS);
  const take = useMemo(() => results.of(films, notes.present, homeMidi), [results, films, notes.present, homeMidi]);
  const path = useMemo(
    () => pathOverFrame(source, frame.timeS, take, selectedNote, rim, (note) => noteHeardName(note, entry)),
    [source, frame.timeS, take, selectedNote, rim, entry],
  );
  const offsetS = source.offsetS ?? 0;
  const { facts, frameTimesS } = source.work;
  const span = useMemo(() => ({ startS: facts.startS + offsetS, endS: facts.endS + offsetS }), [facts, offsetS]);
  const wave = useMemo(() => waveOf(source, offsetS), [source, offsetS]);
  const panels = useMemo(() => curvesOf(source, take, entry.sideways), [source, take, entry.sideways]);
  const lost = lostMarks(source, take).stretches;
  const anchors = useMemo(() => present.map(({ timeS }) => timeS + offsetS), [present, offsetS]);
  return (
    <div className="film-room">
      <MeasuringPicture
        key={source.id}
        name={source.file.name}
        image={frame.bitmap}
        size={facts}
        view={source.view}
        marks={marks}
        ellipse={rimEllipse(marks)}
        canUndo={past.length > 0}
        canRedo={future.length > 0}
        overlay={(view) => <TracedOverlay view={view} traced={traced} path={path} />}
        {...spokenMarks(store, source.view, page.getState().announce)}
      >
        <FilmBar
          frameIndex={source.frameIndex}
          frameCount={frameTimesS.length}
          timeS={takeTime(source)}
          wishedS={frame.index === source.frameIndex ? takeTime(source) : frameTimesS[source.frameIndex]! + offsetS}
          span={span}
          onStep={state.stepFrames}
          onTime={state.goTo}
          onTap={films[0]?.work.facts.sound === null ? () => state.editNotes((before) => tapAt(before, takeTime(source), span.endS)) : null}
        />
        <TimeLine
          span={span}
          timeS={takeTime(source)}
          wave={wave}
          panels={panels}
          notes={notes.present}
          nameOf={(note) => noteHeardName(note, entry)}
          selectedNote={selectedNote}
          lost={lost}
          anchors={anchors}
          onTime={state.goTo}
          onSelectNote={state.selectNote}
          onBoundary={(index, end, timeS, done) => {
            state.editNotes((before) => editedOr(before, boundaryMoved(before, index, end, timeS)), `boundary:${index}:${end}`);
            if (done) state.settleNotes();
          }}
        />
      </MeasuringPicture>
    </div>
  );
}

/** The lesson's home note; where it names none, the one chosen for this take. */
export function useHomeMidi(store: FilmingStore): number | null {
  const home = useApp((now) => now.record.home?.note);
  return homeMidiOf(home, useStore(store, (state) => state.homeMidi));
}

export const homeMidiOf = (home: string | undefined, chosen: number | null): number | null => (home === undefined ? chosen : midiOf(home));

function waveOf({ overview }: FilmSource, offsetS: number): WaveOverview | null {
  if (overview === null) return null;
  const { startS, endS, lowest, highest } = overview;
  return { fromS: startS + offsetS, bucketS: (endS - startS) / lowest.length, low: lowest, high: highest };
}
