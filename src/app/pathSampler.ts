/**
 * The path's samples for ribbon, fan and curves. Each costs two seats, so they are computed in slices while the browser is
 * idle: a drag never waits for them, and what a change leaves as it was is kept.
 */
import type { Analysis, LiveFrame, ViewName } from '../core/analysis';
import type { PlayingDirection } from '../core/specs';
import { type Live, createLive } from '../core/live';
import type { Idle } from './idle';
import type { AppStore } from './store';

/** One way of the path: the frames from its lowest reading to its highest. */
export interface PathSamples {
  readonly direction: PlayingDirection | null;
  readonly frames: readonly LiveFrame[];
}

export interface PathSampler {
  /** The newest finished samples, a list for each branch; always the same array until there are newer ones. */
  current(): readonly PathSamples[];
  subscribe(listener: () => void): () => void;
}

/** Smooth at the size it is drawn. */
export const PATH_STEPS = 36;

export function createPathSampler(store: AppStore, idle: Idle): PathSampler {
  const listeners = new Set<() => void>();
  let ways: readonly PathSamples[] = [];
  let finished: Job | null = null;
  let running: Job | null = null;

  const hurried = (): boolean => store.getState().dragging;
  const begin = (): void => {
    const { analysis, settings } = store.getState();
    if (running !== null || analysis === null) return;
    if (finished !== null && finished.analysis === analysis && finished.view === settings.view) return;
    running = startJob(analysis, settings.view, finished);
    idle(work, hurried);
  };
  // A job that was begun is ended even if the record has changed meanwhile: during a long drag the path would else never come.
  const work = (spareMs: () => number): void => {
    const job = running;
    if (job === null) return;
    do takeSample(job);
    while (job.next < job.places.length && spareMs() > 0);
    if (job.next < job.places.length) {
      idle(work, hurried);
      return;
    }
    finished = job;
    running = null;
    ways = job.analysis.branches.map(({ direction }) => ({
      direction,
      frames: job.samples.flatMap((one, at) => (one !== null && job.places[at]?.direction === direction ? [one] : [])),
    }));
    for (const listener of listeners) listener();
    begin();
  };
  store.subscribe(begin);
  begin();
  return {
    current: () => ways,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

interface Place {
  readonly midi: number;
  readonly direction: PlayingDirection | null;
}

interface Job {
  readonly analysis: Analysis;
  readonly view: ViewName;
  readonly live: Live;
  readonly places: readonly Place[];
  readonly samples: (LiveFrame | null)[];
  /** An earlier job whose samples hold wherever the travel is the same. */
  readonly before: Job | null;
  next: number;
}

function startJob(analysis: Analysis, view: ViewName, before: Job | null): Job {
  // A live picture of its own: the moving one is warm where the rim is, and should stay so.
  const live = createLive(analysis, true);
  const places = analysis.branches.flatMap(({ direction, order }) =>
    branchPitches(order.map((at) => analysis.readings[at]!.midi)).map((midi) => ({ midi, direction })));
  const usable = before !== null && before.view === view && sameGround(before.analysis, analysis) ? { ...before, before: null } : null;
  return { analysis, view, live, places, samples: [], before: usable, next: 0 };
}

/** Evenly spaced from the lowest of rising pitches to the highest. */
export function branchPitches(midis: readonly number[]): number[] {
  const [low, high] = [midis[0], midis.at(-1)];
  if (low === undefined || high === undefined) return [];
  if (low === high) return [low];
  return Array.from({ length: PATH_STEPS }, (_, step) => low + ((high - low) * step) / (PATH_STEPS - 1));
}

function takeSample(job: Job): void {
  const place = job.places[job.next];
  if (place === undefined) return;
  const { midi, direction } = place;
  const known = job.before?.samples[job.next];
  const travel = job.live.travelAt(midi, direction);
  const holds =
    known != null && known.midi === midi && known.direction === direction && known.travel.upMm === travel?.upMm && known.travel.rightMm === travel.rightMm;
  job.samples.push(holds ? known : job.live.atPitch(midi, { horn: 'follow', view: job.view, direction }));
  job.next += 1;
}

/** Same mouth, rim, lips, home, and at each note the same force and jaw: then equal travel gives an equal seat. */
function sameGround(a: Analysis, b: Analysis): boolean {
  return (
    a.record.arch === b.record.arch && a.record.rim === b.record.rim && a.record.lips === b.record.lips &&
    a.record.upperLipShare === b.record.upperLipShare && a.record.force === b.record.force &&
    a.home.follow === b.home.follow && a.readings.length === b.readings.length &&
    a.readings.every((one, index) => {
      const other = b.readings[index];
      return one.midi === other?.midi && one.forceN === other.forceN && JSON.stringify(one.jaw) === JSON.stringify(other.jaw);
    })
  );
}
