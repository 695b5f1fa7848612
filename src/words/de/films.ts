import type { FILMS as ENGLISH } from '../en/films';
import type { Translation } from '../messageFormat';

export const FILMS: Translation<typeof ENGLISH> = {
  noFilmStore: 'Dieser Browser hat keinen Ort, an dem eine Seite Filme aufbewahren kann. {stays}',
  filmsFull:
    'Im Speicher des Browsers ist nicht genug Platz für diesen Film, er wird nicht aufbewahrt. Andere Filme vergessen lassen oder in den Einstellungen des Browsers Platz schaffen. {stays}',
  filmsRefused: 'Dieser Browser lässt die Seite keine Filme aufbewahren (ein privates Fenster oder eine Einstellung). {stays}',
  filmsNewer:
    'Eine neuere Version dieses Programms bewahrt Filme in diesem Browser auf. Sie bleiben, wie sie sind; die Seite neu laden, um jene Version zu bekommen. {stays}',
  filmsSilent: 'Der Filmspeicher des Browsers antwortet nicht. Andere Tabs dieser Seite schließen und noch einmal versuchen. {stays}',
  filmsOtherTab: 'Eine ältere Version dieser Seite ist in einem anderen Tab offen. Jenen Tab schließen und noch einmal versuchen. {stays}',
  filmUnread: 'Der Film ließ sich nicht lesen und wird nicht aufbewahrt. Die Datei noch einmal wählen. {stays}',
  filmsFailed: 'Der Filmspeicher des Browsers hat versagt{named, select, yes { ({name})} other {}}. {stays}',
  stays: 'Marken und Ablesungen bleiben trotzdem erhalten; die Datei dort lassen, wo sie sich wieder öffnen lässt.',
};
