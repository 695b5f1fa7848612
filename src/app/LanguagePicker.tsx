import type { ReactNode } from 'react';
import { sayApp } from '../words/app';
import { type Language, languageNow } from '../words/language';
import { sayPage } from '../words/page';
import { useRecords } from './RecordsContext';
import { useSession } from './SessionContext';
import { changeLanguage } from './language';
import { useInStageRoom } from './measuringDoor';

/** Each language by its own name, for those who cannot read the other. */
const NAMES: Readonly<Record<Language, string>> = { en: 'English', de: 'Deutsch' };

/** Another language begins the page anew: nothing that is nowhere else is lost by it without a word. */
export function LanguagePicker(): ReactNode {
  const { store } = useSession();
  const records = useRecords();
  const isMeasuring = useInStageRoom() !== null;
  const choose = async (language: Language): Promise<void> => {
    if (isMeasuring) store.getState().notify(sayPage('languageWaits'));
    else if (await records.mayRestart()) changeLanguage(language);
  };
  return (
    <span className="masthead__language">
      <select aria-label={sayApp('language')} value={languageNow()} onChange={({ target }) => void choose(target.value as Language)}>
        {Object.entries(NAMES).map(([language, name]) => (
          <option key={language} value={language} lang={language}>
            {name}
          </option>
        ))}
      </select>
    </span>
  );
}
