import type { ReactNode } from 'react';
import { sayApp } from '../words/app';
import { type Language, languageNow } from '../words/language';
import { changeLanguage } from './language';

/** Each language by its own name, for those who cannot read the other. */
const NAMES: Readonly<Record<Language, string>> = { en: 'English', de: 'Deutsch' };

export function LanguagePicker(): ReactNode {
  return (
    <span className="masthead__language">
      <select
        aria-label={sayApp('language')}
        value={languageNow()}
        onChange={({ target }) => changeLanguage(target.value as Language)}
      >
        {Object.entries(NAMES).map(([language, name]) => (
          <option key={language} value={language} lang={language}>
            {name}
          </option>
        ))}
      </select>
    </span>
  );
}
