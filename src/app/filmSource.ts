/** One film of a take: begun, taken back from the lesson, and its frames by their times. */
import { isSameFile } from '../measure/fileMark';
import { sayFilming } from '../words/filming';
import { areAnchorsKept } from './filmsInLesson';
import type { FilmOpening, FilmSource, FilmingParts, FilmingState } from './filmingTypes';
import { startHistory } from './history';
import type { KeptAnchors } from './marksKept';

export const shownFilm = ({ films, shownId }: Pick<FilmingState, 'films' | 'shownId'>): FilmSource | undefined => films.find(({ id }) => id === shownId);

/** The take's time at the frame that is shown; the film's own where the two were not brought together. */
export const takeTime = ({ frame, work, frameIndex, offsetS }: FilmSource): number =>
  (frame?.timeS ?? work.frameTimesS[frameIndex] ?? work.facts.startS) + (offsetS ?? 0);

/** From the first beginning to the last end of the take's films, its own clock: its notes may lie in any of them. 0 to 0 where none is open. */
export function takeSpan(films: readonly FilmSource[]): { readonly startS: number; readonly endS: number } {
  const spans = films.flatMap(({ offsetS, work: { facts } }) => (offsetS === null ? [] : [[facts.startS + offsetS, facts.endS + offsetS] as const]));
  return spans.length === 0 ? { startS: 0, endS: 0 } : { startS: Math.min(...spans.map(([start]) => start)), endS: Math.max(...spans.map(([, end]) => end)) };
}

export const notAlignedWords = (): string => sayFilming('notAligned');

export const alignedWords = (sdS: number): string => sayFilming('aligned', { ms: Math.max(1, Math.round(sdS * 1000)) });

/** `kept`: what is known of its marks in this browser; `first`: the film that gives the take's clock, null where this one does. */
export function begun(id: string, original: File, { file, work }: Extract<FilmOpening, { kind: 'film' }>, kept: KeptAnchors | null, first: FilmSource | null): FilmSource {
  return {
    id,
    file,
    original,
    work,
    view: kept?.view ?? (first === null ? 'front' : 'right'),
    lensMm: kept?.lensMm ?? null,
    hornMarkMm: kept?.hornMarkMm ?? null,
    anchors: startHistory(kept?.anchors ?? []),
    frameIndex: 0,
    frame: null,
    overview: null,
    followed: null,
    ...beganAs(kept, first),
  };
}

function beganAs(kept: KeptAnchors | null, first: FilmSource | null): Pick<FilmSource, 'offsetS' | 'offsetWords'> {
  if (first === null) return { offsetS: 0, offsetWords: '' };
  if (kept?.began === undefined || !isSameFile(kept.began.first, first.file)) return { offsetS: null, offsetWords: notAlignedWords() };
  return { offsetS: kept.began.offsetS, offsetWords: sayFilming('beganBefore') };
}

/**
 * A film that a lesson has measured before has its lens, what was followed and when it began; its marks too, where none were put since or
 * where that very measuring is wished for. `own`: what this browser keeps of it since.
 */
export function withKept(
  source: FilmSource,
  own: KeptAnchors | null,
  kept: ReturnType<FilmingParts['keptElsewhere']>,
  first: FilmSource | null,
  keptElsewhere: FilmingParts['keptElsewhere'],
): FilmSource {
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
    lensMm: isWished || own?.lensMm === undefined ? film.lensMm : source.lensMm,
    hornMarkMm: isWished || own?.hornMarkMm === undefined ? film.hornMarkMm : source.hornMarkMm,
    anchors: startHistory(anchors),
    followed: film.trace === null ? null : { trace: film.trace, notFollowed: film.notFollowed, words: null, anchors: film.anchors, head: null, headFrom: null },
    ...(isTogether && (isWished || source.offsetS === null) && { offsetS: film.offsetS, offsetWords: sayFilming('beganMeasured') }),
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
