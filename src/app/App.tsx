import { memo, type ReactNode, useCallback, useEffect, useMemo } from 'react';
import { AnglesChapter } from '../notebook/AnglesChapter';
import { FieldOwner } from '../notebook/fieldOwner';
import { MovingText } from '../notebook/Moving';
import { PlayerChapter } from '../notebook/PlayerChapter';
import { Problems, problemWords } from '../notebook/Problems';
import { ReadingsChapter } from '../notebook/readings/ReadingsChapter';
import { ThisNote } from '../notebook/ThisNote';
import { noteAsShown } from '../notebook/noteNames';
import type { EntryStyle } from '../notebook/props';
import { withTravel } from '../notebook/recordEdits';
import { AngleCharts, TravelCharts } from './Charts';
import { GuestBand } from './GuestBand';
import { HandOutPane } from './HandOutPane';
import { Header } from './Header';
import { KeepingNotice, KeptPane } from './KeptPane';
import { useApp, useBands, useSession, useToldNote, useUnhurried } from './SessionContext';
import { ShownRow, showing } from './ShownRow';
import { StaffPane } from './StaffPane';
import { DragHint, StagePane } from './StagePane';
import { Transport } from './Transport';
import { TryOutsPane } from './TryOutsPane';
import { WhereSeen } from './WhereSeen';
import { besideWords } from './besideDoor';
import { useInClass } from './classDoor';
import { describeSelected, postureOf } from './describe';
import { LazyClass } from './lazyClass';
import { LazyMeasure } from './lazyMeasure';
import { LazyOwnArch } from './lazyOwnArch';
import { LazySays } from './lazySays';
import { LazyScan } from './lazyScan';
import { LazyShare } from './lazyShare';
import { OfflineContext } from './OfflineContext';
import { OfflineNotice } from './OfflineNotice';
import { notebookLibrary } from './library';
import type { Offline } from './offline';
import { useInRoom, useInStageRoom } from './measuringDoor';
import { readingAt } from './session';
import { useEntry } from './useEntry';
import type { AppState } from './store';
import { sayPage } from '../words/page';

export function App({ offline }: { readonly offline: Offline }): ReactNode {
  useTheme();
  // By an address typed while a film is open as well: the film first.
  const isMeasuring = useInStageRoom() !== null;
  return <OfflineContext value={offline}>{useInClass() && !isMeasuring ? <LazyClass /> : <Page offline={offline} />}</OfflineContext>;
}

/** One page, two halves: the stage with the staff under it stays put, the notebook scrolls beside it. */
function Page({ offline }: { readonly offline: Offline }): ReactNode {
  const entry = useEntry();
  const measuring = useInStageRoom();
  const owner = useApp(({ player, lesson }) => `${player.id} ${lesson.id}`);
  useUndoKeys();
  return (
    <FieldOwner value={owner}>
      <Header />
      <GuestBand />
      <main className="page">
        <section className="picture" aria-label={sayPage('pictureAndStaff')}>
          {measuring === null ? <StageAndStaff entry={entry} /> : <div className="picture__stage">{measuring}</div>}
        </section>
        <div className="notebook">
          <Notebook entry={entry} notices={<OfflineNotice offline={offline} />} />
        </div>
      </main>
      <Announcement />
    </FieldOwner>
  );
}

function StageAndStaff({ entry }: { readonly entry: EntryStyle }): ReactNode {
  return (
    <>
      <div className="picture__stage">
        <StagePane />
        <ShownRow entry={entry} />
        <Transport />
      </div>
      <div className="picture__below">
        <Sentence />
        {useInRoom(besideWords)}
        <StaffPane entry={entry} />
      </div>
    </>
  );
}

function Notebook({ entry, notices }: { readonly entry: EntryStyle; readonly notices: ReactNode }): ReactNode {
  const notice = useApp((state) => state.notice);
  const unhurried = useUnhurried(everything);
  return (
    <>
      <nav className="contents" aria-label={sayPage('chapters')}>
        <a href="#player">{sayPage('toPlayer')}</a>
        <a href="#readings">{sayPage('toReadings')}</a>
        <a href="#measure">{sayPage('toMeasuring')}</a>
        <a href="#angles">{sayPage('toAngles')}</a>
        <a href="#says">{sayPage('toSays')}</a>
        <a href="#try-outs">{sayPage('toTryOuts')}</a>
        <a href="#hand-out">{sayPage('toHandOut')}</a>
        <a href="#share">{sayPage('toShare')}</a>
        <a href="#lessons">{sayPage('toLessons')}</a>
      </nav>
      {notice === null ? null : <p className="note">{notice}</p>}
      <KeepingNotice />
      {notices}
      <LiveProblems entry={entry} />
      <Changeable>
        <ChosenNote state={unhurried} entry={entry} />
      </Changeable>
      <DragHint />
      <Chapters state={unhurried} entry={entry} />
      <KeptPane />
    </>
  );
}

/** The chosen note; its numbers keep step with the hand that drags it. */
function ChosenNote({ state, entry }: ChaptersProps): ReactNode {
  const session = useSession();
  const { record, analysis, change, settle } = state;
  // Another note may be chosen while the hand moves on: its name must not wait for the hand to pause.
  const selected = useToldNote();
  const bands = useBands(analysis);
  // How sure the angle was before the hand moved says nothing of where it is now.
  const moved = useApp((now) => now.analysis !== analysis);
  const result = readingAt({ analysis }, selected);
  return (
    <ThisNote
      record={record}
      analysis={analysis}
      result={result}
      moving={session.chosen}
      movingTravel={session.chosenTravel}
      band={moved ? null : ((result && bands?.[analysis?.readings.indexOf(result) ?? -1]) ?? null)}
      selected={selected}
      posture={postureOf(record.player.instrument)}
      entry={entry}
      onSelect={session.selectReading}
      onTravel={(travel, key) => change((now) => withTravel(now, selected, travel), key)}
      onSettle={settle}
    />
  );
}

function LiveProblems({ entry }: { readonly entry: EntryStyle }): ReactNode {
  // As one text, so that a drag without problems draws nothing here.
  const words = useApp(({ record, analysis, failure }) =>
    JSON.stringify([
      ...(failure === null ? [] : [failure]),
      ...(analysis?.problems.map((one) => problemWords(record, one, entry)) ?? []),
    ]));
  return useMemo(() => <Problems words={JSON.parse(words) as string[]} />, [words]);
}

const everything = (state: AppState): AppState => state;

/** One and the same, so that the chapter need not be drawn again for it. */
const OWN_ARCH = (
  <>
    <LazyOwnArch />
    <LazyScan />
  </>
);

interface ChaptersProps {
  readonly state: AppState;
  readonly entry: EntryStyle;
}

/** What belongs to the player: while another tab has them it is shown, and cannot be typed in. */
function Changeable({ children }: { readonly children: ReactNode }): ReactNode {
  const locked = useApp((state) => state.locked);
  return (
    <fieldset className="changeable" disabled={locked}>
      {children}
    </fieldset>
  );
}

/** All that need not keep step with a dragging hand. */
const Chapters = memo(function Chapters({ state, entry }: ChaptersProps): ReactNode {
  const session = useSession();
  const { player, lesson, record, analysis, selected, change, settle, set } = state;
  const noteName = useCallback((note: string) => noteAsShown(note, entry), [entry]);
  return (
    <>
      <Changeable>
        <PlayerChapter
          record={record}
          analysis={analysis}
          library={notebookLibrary}
          noteLabel={noteName}
          onChange={change}
          onSettle={settle}
          ownArch={OWN_ARCH}
        />
        <ReadingsChapter
          key={`${player.id} ${lesson.id}`}
          record={record}
          analysis={analysis}
          selected={selected}
          entry={entry}
          onSelect={session.selectReading}
          onChange={change}
          onSettle={settle}
          onEntry={set}
          charts={<TravelCharts entry={entry} />}
          whereSeen={<WhereSeen />}
        />
      </Changeable>
      <LazyMeasure entry={entry} />
      <ChosenAngles state={state} entry={entry} />
      <LazySays entry={entry} />
      <Changeable>
        <TryOutsPane entry={entry} />
      </Changeable>
      <HandOutPane entry={entry} />
      <LazyShare />
    </>
  );
});

/** The chosen note's numbers keep step with the hand; the charts have their own pace. */
function ChosenAngles({ state, entry }: ChaptersProps): ReactNode {
  const { chosen } = useSession();
  const { record, analysis, settings, set } = state;
  const selected = useUnhurried((now) => now.selected);
  const note = record.readings[selected]?.note;
  const charts = useMemo(() => <AngleCharts entry={entry} />, [entry]);
  return (
    <AnglesChapter
      analysis={analysis}
      result={readingAt({ analysis }, selected)}
      moving={chosen}
      noteLabel={note === undefined ? '' : noteAsShown(note, entry)}
      posture={postureOf(record.player.instrument)}
      view={settings.view}
      horn={settings.horn}
      charts={charts}
      onView={(next) => set(showing(next))}
      onHorn={(next) => set({ horn: next })}
    />
  );
}

/** Written as the rim moves; drawn by React never. */
function Sentence(): ReactNode {
  const { store, bands, told } = useSession();
  const spoken = useMemo(
    () => ({
      current: () => {
        const state = store.getState();
        const known = bands.current();
        return describeSelected({ ...state, selected: told.current() }, known?.analysis === state.analysis ? known.bands : null) ?? sayPage('nothingSaid');
      },
      subscribe: (listener: () => void) => {
        const stops = [told.subscribe(listener), bands.subscribe(listener)];
        return () => {
          for (const stop of stops) stop();
        };
      },
    }),
    [store, bands, told],
  );
  return (
    <p className="sentence">
      <MovingText of={spoken} words={asIs} />
    </p>
  );
}

const asIs = (words: string): string => words;

/** Spoken after a move by keys only: a sentence that changed sixty times a second would be no help. */
function Announcement(): ReactNode {
  const words = useApp((state) => state.announcement);
  return (
    <p className="only-heard" aria-live="polite">
      {words}
    </p>
  );
}

function useTheme(): void {
  const theme = useApp((state) => state.settings.theme);
  useEffect(() => {
    document.documentElement.dataset['theme'] = theme;
  }, [theme]);
}

/** Undo and redo by keys, except in a field, where the browser's own undo is meant. */
function useUndoKeys(): void {
  const { store } = useSession();
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z') return;
      // A cell of the table in which nothing is being typed has nothing of its own to undo.
      if (event.target instanceof HTMLInputElement && event.target.type === 'text' && event.target.dataset['undo'] !== 'page') return;
      event.preventDefault();
      if (event.shiftKey) store.getState().redo();
      else store.getState().undo();
    };
    window.addEventListener('keydown', onKeyDown);
    return () => window.removeEventListener('keydown', onKeyDown);
  }, [store]);
}
