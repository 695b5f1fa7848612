/**
 * The one door to ICU MessageFormat (intl-messageformat). A message is ICU text, or what the build made of it: text with choices is parsed
 * there once for all (build/parsedMessages.ts), so that the published page carries no parser. Text with nothing but names in braces, which most
 * messages are, needs none: it is cut at them here. Tags are no part of it: "<" is a plain character.
 */
import { IntlMessageFormat } from 'intl-messageformat';

export type Message = string | ParsedMessage;
export type ParsedMessage = ReturnType<IntlMessageFormat['getAst']>;
export type Messages = Readonly<Record<string, Message>>;
/** The same messages in another language: all of them, and no others. */
export type Translation<T extends Messages> = { readonly [Key in keyof T]: string };
/** Whole numbers for plurals; what else is a number is said as `numbers.ts` writes it. */
export type Values = Readonly<Record<string, string | number>>;

/** A message made ready to be said again and again. Saying it throws where one of its values is missing. */
export function readyMessage(message: Message, locale: string): (values: Values | undefined) => string {
  if (typeof message === 'string' && isSimple(message)) return cutMessage(message);
  const format = new IntlMessageFormat(message, locale, undefined, { ignoreTag: true, formatters: FORMATTERS });
  return (values) => String(format.format(values));
}

/** Names in braces are all that is to be filled in; an apostrophe may be ICU's quote. */
export const isSimple = (message: string): boolean => /^[^{}']*(?:\{\w+\}[^{}']*)*$/.test(message);

function cutMessage(message: string): (values: Values | undefined) => string {
  // Every other part is a name.
  const parts = message.split(/[{}]/);
  if (parts.length === 1) return () => message;
  return (values) => {
    let text = parts[0]!;
    for (let at = 1; at < parts.length; at += 2) {
      const value = values?.[parts[at]!];
      if (value === undefined) throw new RangeError(`message: no value for ${parts[at]!} in ${JSON.stringify(message)}`);
      text += value + parts[at + 1]!;
    }
    return text;
  };
}

/** One set for all messages: each would make its own, and to make one takes longer than a thousand sentences. */
const pluralRules = new Map<string, Intl.PluralRules>();
const FORMATTERS = {
  getNumberFormat: (...given: ConstructorParameters<typeof Intl.NumberFormat>) => new Intl.NumberFormat(...given),
  getDateTimeFormat: (...given: ConstructorParameters<typeof Intl.DateTimeFormat>) => new Intl.DateTimeFormat(...given),
  getPluralRules(...[locale, options]: ConstructorParameters<typeof Intl.PluralRules>) {
    const key = `${String(locale)} ${options?.type ?? ''}`;
    const known = pluralRules.get(key) ?? new Intl.PluralRules(locale, options);
    pluralRules.set(key, known);
    return known;
  },
};
