import { IntlMessageFormat } from 'intl-messageformat';
import { describe, expect, test } from 'vitest';
import { readyMessage } from '../../../src/words/messageFormat';
import { AREAS, argumentsOf, inEnglish, inGerman, keysNamedIn, messagesSaid, namesOf } from '../../support/messages';
import { sourcesIn } from '../../support/sources';

const sources = [...sourcesIn()].filter(([path]) => !path.startsWith('src/words/'));
const speakerOf = (area: string): string => `say${area[0]!.toUpperCase()}${area.slice(1)}`;

describe.each(AREAS)('messages of %s', (area) => {
  const english = inEnglish[area];
  const german = inGerman[area];
  const using = sources.filter(([, text]) => text.includes(`words/${area}'`));

  test('are all in German too, with the same values', () => {
    expect(Object.keys(german)).toEqual(Object.keys(english));
    for (const [key, message] of Object.entries(english)) expect([key, ...namesOf(german[key]!)]).toEqual([key, ...namesOf(message)]);
  });

  test('choose among the same things in both languages', () => {
    const choices = (message: string): string[] => argumentsOf(message).filter((one) => one.includes(':'));
    for (const [key, message] of Object.entries(english)) {
      // A language may need no choice where the other does, but never another one.
      for (const choice of choices(german[key]!)) {
        const name = choice.replace(/:.*/s, '');
        const same = choices(message).find((one) => one.startsWith(`${name}:`));
        if (same !== undefined && !same.endsWith('plural')) expect([key, choice]).toEqual([key, same]);
      }
    }
  });

  test('say the same whichever way they are made ready: as text, and as the build leaves them', () => {
    for (const [language, messages] of [['en-GB', english], ['de', german]] as const) {
      for (const [key, message] of Object.entries(messages)) {
        const whole = new IntlMessageFormat(message, language, undefined, { ignoreTag: true });
        const values = Object.fromEntries(['order', ...namesOf(message)].map((name, at) => [name, at + 1]));
        const said = String(whole.format(values));
        expect([key, readyMessage(message, language)(values)]).toEqual([key, said]);
        expect([key, readyMessage(whole.getAst(), language)(values)]).toEqual([key, said]);
      }
    }
  });

  test('hold nothing that a translator would stumble over: no blank at an end but one that is meant, no double blank, no straight quotes', () => {
    for (const [key, message] of Object.entries(german)) {
      expect([key, /[ ]{2}|"\w|\w"/.test(message.replace(/"(format|[a-z-]+)"/g, ''))]).toEqual([key, false]);
      expect([key, message.startsWith(' ')]).toEqual([key, english[key]!.startsWith(' ')]);
    }
  });

  test('are all said somewhere, each with the values it asks for', () => {
    // Reasons why there is no seat, names of what is not known and of a fitted arch's numbers are keys themselves, found where nothing is said; names begin with a jaw.
    const naming = sources.filter(([path]) => (path.startsWith('src/core/') && area === 'core') || (path.startsWith('src/scans/') && area === 'scans')).concat(using).map(([path, text]) => keysNamedIn(path, text));
    expect(Object.keys(english).filter((key) => !naming.some((names) => names(key) || names(key.replace(/^(upper|lower) /, ''))))).toEqual([]);
    const said = using.flatMap(([path, text]) => messagesSaid(path, text)).filter(({ speaker }) => speaker === speakerOf(area));
    // The words of models are found by the models' ids.
    if (area !== 'models') expect(said.length).toBeGreaterThan(0);
    for (const { where, key, names } of said) {
      if (names !== null) expect([where, key, ...names]).toEqual([where, key, ...namesOf(english[key]!)]);
    }
  });
});
