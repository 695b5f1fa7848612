/** What the ready-made models and the class are called: in English as their files say, in German in words of their own, for each of them. */
import { afterEach, describe, expect, it, test } from 'vitest';
import { safeParse } from 'zod/mini';
import { classWordsSchema } from '../../../src/records/classSchema';
import { classInWords, classWords, classes } from '../../../src/records/classes';
import { arches, demoPlayers, instruments, rims } from '../../../src/records/library';
import { archName, inWords, instrumentName, inventedName, rimName } from '../../../src/records/modelWords';
import { LANGUAGES, speak } from '../../../src/words/language';
import { MODELS } from '../../../src/words/en/models';

afterEach(() => speak('en'));

const kinds = [
  ['instrument', instruments, instrumentName],
  ['rim', rims, rimName],
  ['arch', arches, archName],
  ['player', demoPlayers, inventedName],
] as const;

describe('ready-made models', () => {
  it.each(kinds)('each %s is called as its file says, and has a German name', async (_, models, name) => {
    for (const model of models) expect([model.id, name(model.id)]).toEqual([model.id, model.name]);
    await speak('de');
    for (const model of models) expect([model.id, name(model.id)]).toEqual([model.id, expect.stringMatching(/./)]);
  });

  it('there is no name without its model', () => {
    const known = kinds.flatMap(([kind, models]) => models.map(({ id }) => `${kind}-${id}`));
    expect(Object.keys(MODELS).filter((key) => !/^(label|remark)-/.test(key)).sort()).toEqual(known.sort());
  });

  it('an instrument of a record made elsewhere is called by its own name', () => {
    expect(instrumentName('serpent')).toBe('serpent');
  });

  it('invented players are the same in English as their files, to the letter; in German every word is German, and no number another', async () => {
    for (const demo of demoPlayers) expect(inWords(demo)).toEqual(demo.player);
    await speak('de');
    const words = (value: unknown): unknown => JSON.parse(JSON.stringify(value, (key, one: unknown) => (key === 'label' || key === 'remark' ? 'words' : one)));
    for (const demo of demoPlayers) {
      const said = inWords(demo);
      expect(words(said)).toEqual(words(demo.player));
      expect(said.label).toMatch(/^Erfundener Spieler, /);
      const remarks = said.lessons.flatMap((lesson) => [lesson, ...lesson.tryOuts]).flatMap(({ remark }) => remark ?? []);
      const english = demo.player.lessons.flatMap((lesson) => [lesson, ...lesson.tryOuts]).flatMap(({ remark }) => remark ?? []);
      expect(remarks.filter((one) => english.includes(one))).toEqual([]);
    }
  });
});

describe('a class', () => {
  test.each(LANGUAGES.filter((language) => language !== 'en'))('has words in %s for every step: of the same parts, and within what fits', async (language) => {
    await speak(language);
    for (const spec of classes) {
      const words = classWords.find((one) => one.classId === spec.id && one.language === language)!;
      expect(safeParse(classWordsSchema, words).error).toBeUndefined();
      expect(words.steps.map(({ id, captions, question }) => [id, captions?.length ?? 0, question !== undefined])).toEqual(
        spec.steps.map(({ id, who, question }) => [id, who.filter(({ caption }) => caption !== undefined).length, question !== undefined]),
      );
      const said = classInWords(spec);
      for (const [index, step] of said.steps.entries()) {
        const { title, words: forRoom, toSay, question, who } = spec.steps[index]!;
        const same = [step.title === title, step.words === forRoom, step.toSay === toSay, question !== undefined && step.question?.words === question.words];
        expect([step.id, ...same]).toEqual([step.id, false, false, false, false]);
        expect(step.who.map(({ caption: _, ...rest }) => rest)).toEqual(who.map(({ caption: _, ...rest }) => rest));
      }
    }
  });

  it('is as it came in English', () => {
    expect(classInWords(classes[0])).toBe(classes[0]);
  });
});
