/** A film that was followed: what `films:long` keeps of it and `films:again` reads. */
import type { FilmFacts } from '../../src/measure/openFilm';
import type { MeasuredNote } from '../../src/measure/takeReadings';
import type { FilmTrace } from '../../src/measure/traces';
import type { FilmAsked } from '../browser/measureFilmPage/page';
import type { Scene } from '../support/films/scene';
import type { FilmKind } from './filmKinds';

export interface KeptFilm {
  readonly kind: FilmKind;
  readonly seed: number;
  readonly scene: Scene;
  readonly film: FilmAsked & { readonly focal: { readonly px: number; readonly relativeSd: number } | null };
  readonly trace: FilmTrace;
  readonly facts: FilmFacts;
  readonly notes: readonly MeasuredNote[];
  readonly tuningCents: number | null;
}
