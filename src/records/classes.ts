/** The ready-made classes under models/classes/, and their words in other languages: part of the class view’s own chunk, not of the first load. */
import rimOverTeethGerman from '../../models/class-words/rim-over-teeth.de.json';
import rimOverTeeth from '../../models/classes/rim-over-teeth.json';
import { languageNow } from '../words/language';
import type { ClassSpec, ClassStep, ClassWords } from './classSchema';

/** TypeScript widens the words in a JSON file to `string`; tests/unit/records/library.test.ts checks every file against its schema. */
export const classes: readonly [ClassSpec, ...ClassSpec[]] = [rimOverTeeth as unknown as ClassSpec];
/** Words by class and language. A class in a file of its own may have none: it is shown as it came. */
export const classWords: readonly ClassWords[] = [rimOverTeethGerman as ClassWords];

/** The class with its words in the language set, where there are some. */
export function classInWords(spec: ClassSpec): ClassSpec {
  const words = classWords.find(({ classId, language }) => classId === spec.id && language === languageNow());
  return words === undefined ? spec : { ...spec, name: words.name, steps: spec.steps.map((step) => stepInWords(step, words)) };
}

function stepInWords(step: ClassStep, { steps }: ClassWords): ClassStep {
  const found = steps.find(({ id }) => id === step.id);
  if (found === undefined) return step;
  const { title, words, toSay, captions, question } = found;
  return {
    ...step,
    title,
    words,
    toSay,
    who: step.who.map((who, index) => (captions?.[index] === undefined ? who : { ...who, caption: captions[index] })),
    ...(step.question !== undefined && question !== undefined && { question: { ...step.question, words: question } }),
  };
}
