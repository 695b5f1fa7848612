/** Says the messages of one area in the language set. An area's English comes with the module that says it, so that a part fetched later brings its own. */
import { LOCALES, languageNow, messageNow, turnNow } from './language';
import { type Messages, type Values, readyMessage } from './messageFormat';
import { saidNumber } from './numbers';

/** Never at a module's top, where the language is not known yet: in a function, as late as can be. */
export type Say<T extends Messages> = (key: keyof T & string, values?: Values) => string;

export function speaker<T extends Messages>(area: string, english: T): Say<T> {
  let ready = new Map<string, (values: Values | undefined) => string>();
  let turn = turnNow();
  return (key, values) => {
    if (turn !== turnNow()) {
      ready = new Map();
      turn = turnNow();
    }
    let message = ready.get(key);
    if (message === undefined) {
      message = readyMessage(messageNow(area, key, english[key]!), LOCALES[languageNow()]);
      ready.set(key, message);
    }
    return message(values === undefined ? undefined : asSaid(values));
  };
}

/** Whole numbers stay numbers, since plurals hang on them. */
function asSaid(values: Values): Values {
  for (const name in values) {
    const value = values[name]!;
    if (typeof value !== 'number' || (Number.isInteger(value) && value >= 0)) continue;
    return Object.fromEntries(Object.entries(values).map(([each, one]) => [each, typeof one === 'number' && !(Number.isInteger(one) && one >= 0) ? saidNumber(one) : one]));
  }
  return values;
}
