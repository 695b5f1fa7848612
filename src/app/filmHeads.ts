/** The heads of films that were followed from the front, kept in step with what they hang on: notes, lens, the horn's mark, when the film began, the lesson's rim. */
import { steadyFrames } from '../measure/steadySpan';
import type { FilmTrace, NoteHeard } from '../measure/traces';
import type { FilmSource, FollowedFrom, HeadFrom } from './filmingTypes';

export interface HeadsParts {
  films(): readonly FilmSource[];
  notes(): readonly NoteHeard[];
  /** Of the lesson's rim, now. */
  outerDiameterMm(): number;
  changeFollowed(film: FilmSource, edit: (followed: FollowedFrom) => FollowedFrom): void;
  fault(fault: unknown): void;
  /** Does it when nothing has been asked for a moment. */
  rest(work: () => void): void;
}

export interface FilmHeads {
  /** Of a film as it is now. */
  head(id: string, trace: FilmTrace): Promise<Pick<FollowedFrom, 'head' | 'headFrom'>>;
  /** Something has changed: solved once the hand has come to rest. */
  later(): void;
  /** Now; done when every head is that of what is shown. */
  settled(): Promise<void>;
  isBehind(film: FilmSource): boolean;
}

export function createFilmHeads({ films, notes, outerDiameterMm, changeFollowed, fault, rest }: HeadsParts): FilmHeads {
  let unrest = 0;
  let solving: Promise<void> | null = null;
  const fromNow = ({ lensMm, hornMarkMm, offsetS, work }: FilmSource): HeadFrom => ({ lensMm, hornMarkMm, offsetS, work, notes: notes(), outerDiameterMm: outerDiameterMm() });
  const isBehind = (film: FilmSource): boolean => {
    if (film.followed === null || film.followed.trace.view !== 'front') return false;
    const { headFrom } = film.followed;
    const now = fromNow(film);
    return headFrom === null || (Object.keys(now) as (keyof HeadFrom)[]).some((key) => now[key] !== headFrom[key]);
  };
  const head: FilmHeads['head'] = async (id, trace) => {
    const film = films().find((one) => one.id === id);
    if (film === undefined || trace.view !== 'front') return { head: null, headFrom: null };
    const headFrom = fromNow(film);
    const { lensMm, hornMarkMm, offsetS } = headFrom;
    const steady = offsetS === null ? [] : steadyFrames(trace.frames.map(({ timeS }) => timeS), headFrom.notes, offsetS);
    return { head: await film.work.head({ trace, lensMm, hornMarkMm, steady }), headFrom };
  };
  const solveAll = async (): Promise<void> => {
    for (let film = films().find(isBehind); film !== undefined; film = films().find(isBehind)) {
      const { id, followed, work } = film;
      const { trace } = followed!;
      let solved: Pick<FollowedFrom, 'head' | 'headFrom'>;
      const headFrom = fromNow(film);
      try {
        solved = await head(id, trace);
      } catch (why) {
        fault(why);
        // Asked the same again it would fail again: there is no head from this.
        solved = { head: null, headFrom };
      }
      const now = films().find((one) => one.id === id);
      // Read anew meanwhile, it is asked once more through its new reader.
      if (now?.followed?.trace === trace && now.work === work) changeFollowed(now, (before) => ({ ...before, ...solved }));
    }
  };
  const settled = (): Promise<void> => {
    solving ??= solveAll().finally(() => {
      solving = null;
    });
    return solving;
  };
  return {
    head,
    isBehind,
    settled,
    later: () => {
      unrest += 1;
      const asked = unrest;
      rest(() => {
        if (asked === unrest) void settled();
      });
    },
  };
}
