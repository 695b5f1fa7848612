/** Joins the store and the playhead: who moves whom when a note is chosen, a number typed, the rim dragged or the path played. */
import type { Analysis, LiveFrame, PathBranch, ReadingAnalysis, RimPose, ViewName } from '../core/analysis';
import { axisFromAngles } from '../core/frame';
import { midiOf } from '../core/pitch';
import type { PlayerRecord, PlayingDirection, ReadingSpec, TravelSpec } from '../core/specs';
import type { Moving } from '../notebook/Moving';
import { type BandKeeper, createBandKeeper } from './bandKeeper';
import { type HandRest, type Idle, type Later, createHandRest } from './idle';
import { type PathSampler, createPathSampler } from './pathSampler';
import { type FrameClock, type PathWays, type Playhead, createPlayhead } from './playhead';
import { type SaidSource, createSaidSource } from './saidSource';
import type { Settings } from './settings';
import { type AppState, type AppStore, type Opened, type Solver, createAppStore, movesHome } from './store';
import { type ToldNote, createToldNote } from './toldNote';

export interface Session {
  readonly store: AppStore;
  readonly playhead: Playhead;
  readonly path: PathSampler;
  readonly bands: BandKeeper;
  readonly handRest: HandRest;
  /** What the readings say, once its chapter has worked it out. */
  readonly said: SaidSource;
  /** The chosen note as the words on the page speak of it. */
  readonly told: ToldNote;
  /** What was computed for that note, and its travel as it stands in the record: in step with a hand that drags. */
  readonly chosen: Moving<ReadingAnalysis>;
  readonly chosenTravel: Moving<TravelSpec>;
  /** The reader chose a note: playing stops and the picture goes there. */
  selectReading(index: number): void;
  /** The time line was touched between notes; until the hand is lifted, what is slow to draw waits for it. `nearest`: the reading of the note there, which is chosen with it. */
  scrub(midi: number, direction?: PlayingDirection | null, nearest?: number): void;
  endScrub(): void;
  startDrag(): void;
  dragTo(travel: Travel): void;
  endDrag(): void;
  /** A step of the rim by keys, from where it is. */
  nudge(step: Travel): void;
  dispose(): void;
}

type Travel = Pick<TravelSpec, 'upMm' | 'rightMm'>;

export interface SessionStart extends Opened {
  readonly settings: Settings;
  readonly selected: number;
}

/** `describe` says the selected note in words, for those who move the rim by keys and hear the page. */
export function createSession(
  solver: Solver,
  clock: FrameClock,
  idle: Idle,
  later: Later,
  start: SessionStart,
  describe: (state: AppState) => string,
): Session {
  const store = createAppStore(solver, start, start.settings, start.selected);
  const playhead = createPlayhead(() => {
    const { live, settings, analysis } = store.getState();
    return {
      live,
      options: { horn: settings.horn, view: settings.view },
      ways: pathWays(analysis?.branches ?? [], settings.plays),
      loop: settings.loop,
      speed: settings.speed,
    };
  }, clock);

  const showSelected = (): void => {
    const state = store.getState();
    const reading = readingAt(state, state.selected);
    if (reading !== undefined) playhead.showFrame(frameOf(reading, state.analysis, state.settings), reading.direction);
    // A note that nobody saw is shown where the path passes it.
    else if (isUnseen(state.record.readings[state.selected])) playhead.showPitch(midiOf(state.record.readings[state.selected]!.note));
    // A note without a seat leaves the picture as it is; where there is none yet, home stands for it.
    else if (state.record.readings.length === 0 || playhead.current() === null) playhead.refresh();
  };

  let isShownElsewise = false;
  /** The picture is not taken to the note: whoever asks shows it something themselves, and one step shows one picture. */
  const chooseAlone = (index: number): void => {
    isShownElsewise = true;
    store.getState().select(index);
    isShownElsewise = false;
  };
  const stopFollowingStore = store.subscribe((now, before) => {
    if (playhead.isDragging()) return;
    if (now.selected !== before.selected && !isShownElsewise && !playhead.isPlaying()) showSelected();
    else if (now.analysis !== before.analysis) {
      if (playhead.isPlaying()) playhead.refresh();
      else showSelected();
    } else if (now.settings.horn !== before.settings.horn || now.settings.view !== before.settings.view) playhead.refresh();
  });
  // While the path plays, the notebook speaks of the note that is being passed.
  const stopFollowingPlayhead = playhead.subscribe(() => {
    if (!playhead.isPlaying()) return;
    const nearest = nearestReading(store.getState(), playhead.current());
    if (nearest === null) return;
    chooseAlone(nearest);
  });

  let dragCount = 0;
  let homeDrag: Travel | null = null;
  let dragsHome = false;
  /** The record as the hand last left it: another player put in its place meanwhile is not to be moved. */
  let inHand: PlayerRecord | null = null;
  showSelected();
  const told = createToldNote(store);
  const handRest = createHandRest(store);

  return {
    store,
    playhead,
    path: createPathSampler(store, idle),
    bands: createBandKeeper(store, idle, later, handRest),
    handRest,
    said: createSaidSource(),
    told,
    chosen: {
      current: () => readingAt(store.getState(), told.current()),
      subscribe: told.subscribe,
    },
    chosenTravel: {
      current: () => store.getState().record.readings[told.current()]?.travel,
      subscribe: told.subscribe,
    },
    selectReading: (index) => {
      playhead.pause();
      chooseAlone(index);
      showSelected();
    },
    scrub: (midi, direction = null, nearest) => {
      store.getState().pass(true);
      // Within one note nothing else tells that the hand still moves.
      handRest.wait();
      const isReached = nearest !== undefined && isOther(store.getState(), nearest);
      if (isReached) chooseAlone(nearest);
      else told.catchUp();
      // Where the path has no place for the rim, the note itself may have one.
      if (!playhead.showPitch(midi, direction) && isReached) showSelected();
    },
    endScrub: () => store.getState().pass(false),
    startDrag: () => {
      dragCount += 1;
      homeDrag = null;
      dragsHome = movesHome(store.getState().record, store.getState().selected);
      playhead.pause();
      inHand = store.getState().record;
      store.getState().drag(true);
    },
    dragTo: (travel) => {
      if (store.getState().record !== inHand) return;
      // Where the rim cannot rest the picture stays, and so does the number.
      if (!dragsHome) store.getState().tryTravel(tidy(travel), `drag:${dragCount}`);
      // Every note's travel is counted from home: home itself is put down at the end, or it would run away from the hand.
      else if (playhead.drag(travel)) homeDrag = travel;
      inHand = store.getState().record;
    },
    endDrag: () => {
      playhead.endDrag();
      if (homeDrag !== null && store.getState().record === inHand) store.getState().moveRim(tidy(homeDrag), null);
      homeDrag = null;
      inHand = null;
      store.getState().drag(false);
      store.getState().set({ hasDragged: true });
      store.getState().settle();
      showSelected();
    },
    nudge: (step) => {
      playhead.pause();
      const { record, selected } = store.getState();
      const from = readingAt(store.getState(), selected)?.travel ?? record.readings[selected]?.travel ?? { upMm: 0, rightMm: 0 };
      store.getState().moveRim(
        tidy({ upMm: from.upMm + step.upMm, rightMm: from.rightMm + step.rightMm }),
        `nudge:${selected}`,
      );
      store.getState().set({ hasDragged: true });
      store.getState().announce(describe(store.getState()));
    },
    dispose: () => {
      stopFollowingStore();
      stopFollowingPlayhead();
      playhead.pause();
    },
  };
}

/** One way of two may be chosen; then the path goes there and back by it. */
export function pathWays(branches: readonly PathBranch[], plays: Settings['plays']): PathWays {
  const [first] = branches;
  if (branches.length < 2) return { rising: first?.direction ?? null, falling: first?.direction ?? null };
  return plays === 'both' ? { rising: 'up', falling: 'down' } : { rising: plays, falling: plays };
}

/** What was computed for a reading of the record. */
export function readingAt(state: Pick<AppState, 'analysis'>, index: number): ReadingAnalysis | undefined {
  return state.analysis?.readings.find((one) => one.sources.includes(index));
}

/** Takes of one note are one: to come to it is not to leave the take that is chosen. */
const isOther = (state: AppState, index: number): boolean =>
  index !== state.selected && readingAt(state, state.selected)?.sources.includes(index) !== true;

/** The frame of a reading, whose seats are known: nothing needs to be solved to show it. */
function frameOf(reading: ReadingAnalysis, analysis: Analysis | null, { horn, view }: Settings): LiveFrame {
  return {
    midi: reading.midi,
    direction: reading.direction,
    travel: reading.travel,
    jaw: reading.jaw,
    shown: shownPose(reading, analysis, horn, view),
    follow: reading.follow,
    held: reading.held,
    extrapolated: false,
  };
}

function shownPose(reading: ReadingAnalysis, analysis: Analysis | null, horn: Settings['horn'], view: ViewName): RimPose {
  if (horn === 'held') return reading.held.pose;
  if (view === 'seated') return reading.follow.pose;
  const angles = view === 'plate' ? (analysis?.home.follow.pose ?? reading.views.plate) : reading.views[view];
  const { elevationDeg, lateralDeg } = angles;
  return { rimCentreMm: reading.follow.pose.rimCentreMm, axis: axisFromAngles(angles), elevationDeg, lateralDeg };
}

const isUnseen = (reading: ReadingSpec | undefined): boolean => reading !== undefined && reading.travel === undefined;

/** Hands and pixels are no finer than this, and it keeps long decimals out of the fields. */
const tidy = (travel: Travel): Travel => ({
  upMm: Number(travel.upMm.toFixed(2)),
  rightMm: Number(travel.rightMm.toFixed(2)),
});

function nearestReading({ analysis }: AppState, frame: LiveFrame | null): number | null {
  if (analysis === null || frame?.midi == null) return null;
  let nearest: ReadingAnalysis | null = null;
  for (const one of analysis.readings) {
    // A note of the other way is not being passed.
    if (one.direction !== null && frame.direction !== null && one.direction !== frame.direction) continue;
    if (nearest === null || Math.abs(one.midi - frame.midi) < Math.abs(nearest.midi - frame.midi)) nearest = one;
  }
  return nearest?.sources[0] ?? null;
}
