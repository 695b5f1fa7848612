/** What the reader is told when a film cannot be kept or found: marks and readings are kept with the player, whatever becomes of the film. */
import { sayFilms } from '../words/films';
import type { WhyNotOpened } from './connection';

export const noFilmStoreWords = (): string => sayFilms('noFilmStore', stays());

export function filmsNotOpenedWords(why: WhyNotOpened): string {
  switch (why) {
    case 'refused':
      return sayFilms('filmsRefused', stays());
    case 'full':
      return sayFilms('filmsFull', stays());
    case 'newer':
      return sayFilms('filmsNewer', stays());
    case 'silent':
      return sayFilms('filmsSilent', stays());
    case 'other-tab':
      return sayFilms('filmsOtherTab', stays());
  }
}

export function filmFailureWords(error: unknown): string {
  const name = error instanceof Error ? error.name : '';
  if (/quota/i.test(name)) return sayFilms('filmsFull', stays());
  if (/^(?:NotReadable|NotFound|DataClone)Error$/.test(name)) return sayFilms('filmUnread', stays());
  return sayFilms('filmsFailed', { ...stays(), named: name === '' ? 'no' : 'yes', name });
}

const stays = (): { readonly stays: string } => ({ stays: sayFilms('stays') });
