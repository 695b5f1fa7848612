/** One film of a take: begun, taken back from the lesson, and its frames by their times. */
import { areAnchorsKept } from './filmsInLesson';
import type { FilmOpening, FilmSource, FilmingParts, FilmingState } from './filmingTypes';
import { startHistory } from './history';
import type { AnchorsKeeper } from './marksKept';

export const shownFilm = ({ films, shownId }: Pick<FilmingState, 'films' | 'shownId'>): FilmSource | undefined => films.find(({ id }) => id === shownId);

/** The take's time at the frame that is shown; the film's own where the two were not brought together. */
export const takeTime = ({ frame, work, frameIndex, offsetS }: FilmSource): number =>
  (frame?.timeS ?? work.frameTimesS[frameIndex] ?? work.facts.startS) + (offsetS ?? 0);

export const NOT_ALIGNED = 'The two films’ sound could not be matched: type by how many seconds this one began later than the first.';

export function alignedWords(sdS: number): string {
  return `matched by their sound, to about ${Math.max(1, Math.round(sdS * 1000))} ms`;
}

export function begun(id: string, original: File, { file, work }: Extract<FilmOpening, { kind: 'film' }>, keeper: AnchorsKeeper, isFirst: boolean): FilmSource {
  const kept = keeper.find(file);
  return {
    id,
    file,
    original,
    work,
    view: kept?.view ?? (isFirst ? 'front' : 'right'),
    lensMm: null,
    hornMarkMm: null,
    anchors: startHistory(kept?.anchors ?? []),
    frameIndex: 0,
    frame: null,
    overview: null,
    followed: null,
    offsetS: isFirst ? 0 : null,
    offsetWords: isFirst ? '' : NOT_ALIGNED,
  };
}

/**
 * A film that a lesson has measured before has its lens, what was followed and when it began; its marks too, where none were put since or
 * where that very measuring is wished for.
 */
export function withKept(source: FilmSource, kept: ReturnType<FilmingParts['keptElsewhere']>, first: FilmSource | null, keptElsewhere: FilmingParts['keptElsewhere']): FilmSource {
  if (kept === null) return source;
  const { film, isWished } = kept;
  const hasOwn = !isWished && source.anchors.present.length > 0;
  const anchors = hasOwn && !areAnchorsKept(source.anchors.present, film) ? source.anchors.present : film.anchors;
  const view = hasOwn ? source.view : film.view;
  const before = first === null ? null : keptElsewhere(first.file);
  const isTogether = before?.film.measuringId === film.measuringId && before.film.place === 0;
  return {
    ...source,
    view,
    lensMm: film.lensMm,
    hornMarkMm: film.hornMarkMm,
    anchors: startHistory(anchors),
    followed: film.trace === null ? null : { trace: film.trace, notFollowed: film.notFollowed, words: null, anchors: film.anchors, head: null },
    ...(isTogether && { offsetS: film.offsetS, offsetWords: 'as it was measured before' }),
  };
}

/** The last frame that begins at or before a time, the first before all. */
export function frameAt(frameTimesS: Float64Array, timeS: number): number {
  let [low, high] = [0, frameTimesS.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (frameTimesS[middle]! <= timeS + SAME_FRAME_S) low = middle + 1;
    else high = middle;
  }
  return Math.max(0, low - 1);
}

/** Containers round times to a millisecond. */
const SAME_FRAME_S = 0.0006;

export function nearestFrame(frameTimesS: Float64Array, timeS: number): number {
  const at = frameAt(frameTimesS, timeS);
  const next = frameTimesS[at + 1];
  return next !== undefined && next - timeS < timeS - frameTimesS[at]! ? at + 1 : at;
}
