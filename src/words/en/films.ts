/** What the reader is told of keeping films in this browser; fetched with the part that measures. */
export const FILMS = {
  noFilmStore: 'This browser has no place where a page can keep films. {stays}',
  filmsFull:
    'There is not enough room in the browser’s store for this film, so it is not kept. Forget other films, or make room in the browser’s settings. {stays}',
  filmsRefused: 'This browser does not let the page keep films (a private window, or a setting). {stays}',
  filmsNewer:
    'A newer version of this program keeps films in this browser. They are left as they are; reload the page to get that version. {stays}',
  filmsSilent: 'The browser’s store of films does not answer. Close other tabs of this page and try again. {stays}',
  filmsOtherTab: 'An older version of this page is open in another tab. Close that tab and try again. {stays}',
  filmUnread: 'The film could not be read, so it is not kept. Choose the file again. {stays}',
  filmsFailed: 'The browser’s store of films has failed{named, select, yes { ({name})} other {}}. {stays}',
  stays: 'Marks and readings are kept all the same; keep the file where you can open it again.',
} as const;
