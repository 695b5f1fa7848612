/** Finds English messages among texts of a page that should be German. */
import { IntlMessageFormat } from 'intl-messageformat';
import { AREAS, inEnglish, inGerman } from './messages';

/** "Hand-out (print.handOut)" for each text that is an English message, or holds a phrase that only English messages hold. */
export function englishSeen(texts: readonly string[]): string[] {
  const { whole, phrases } = (known ??= englishOnly());
  const found = texts.flatMap((text) => {
    const seen = plain(text);
    const message = whole.get(seen) ?? phrases.find(({ words }) => seen.includes(words))?.of;
    return message === undefined ? [] : [`${seen} (${message})`];
  });
  return [...new Set(found)];
}

interface EnglishOnly {
  /** Messages without values, by their text. */
  readonly whole: ReadonlyMap<string, string>;
  /** What stands between the values of the others. */
  readonly phrases: readonly { readonly words: string; readonly of: string }[];
}

let known: EnglishOnly | null = null;

function englishOnly(): EnglishOnly {
  const german = AREAS.flatMap((area) => Object.values(inGerman[area])).flatMap(partsOf);
  const germanParts = new Set(german);
  const whole = new Map<string, string>();
  const phrases: { words: string; of: string }[] = [];
  for (const area of AREAS) {
    for (const [key, message] of Object.entries(inEnglish[area])) {
      const parts = partsOf(message);
      const of = `${area}.${key}`;
      // What German says too, here or elsewhere, is no English.
      if (parts.length === 1 && !message.includes('{') && !germanParts.has(parts[0]!)) whole.set(parts[0]!, of);
      phrases.push(...parts.flatMap(sentencesOf).filter((part) => isPhrase(part) && !german.some((one) => one.includes(part))).map((words) => ({ words, of })));
    }
  }
  return { whole, phrases };
}

/** A message may stand on the page beside others, and only a part of it. */
const sentencesOf = (part: string): string[] => part.split(/(?<=[.:;?]) /);

/** Three words, so that no name and no number is taken for one. */
const isPhrase = (part: string): boolean => part.split(' ').filter((word) => /\p{L}{2}/u.test(word)).length >= 3;

const plain = (text: string): string => text.replace(/\s+/g, ' ').trim();

/** The texts between a message's values, of every choice. */
function partsOf(message: string): string[] {
  const parts: string[] = [];
  const look = (elements: readonly Element[]): void => {
    for (const element of elements) {
      if (element.options !== undefined) for (const option of Object.values(element.options)) look(option.value);
      else if (element.type === LITERAL && plain(element.value) !== '') parts.push(plain(element.value));
    }
  };
  look(new IntlMessageFormat(message, 'en', undefined, { ignoreTag: true }).getAst() as readonly Element[]);
  return parts;
}

/** What the library's parts of a message have in common; the kinds are numbered there. */
interface Element {
  readonly type: number;
  readonly value: string;
  readonly options?: Readonly<Record<string, { readonly value: readonly Element[] }>>;
}
const LITERAL = 0;
