import { FILMS } from './en/films';
import { speaker } from './speaker';

export const sayFilms = speaker('films', FILMS);
