/**
 * The kinds of field a record and the models are made of. Each field's error is what is allowed there, said when it is asked for, so that
 * refusal.ts can say every refusal in the same words: field, value, allowed. Descriptions go into docs/record.schema.json, in English.
 */
import * as z from 'zod/mini';
import { sayRecords } from '../words/records';
import { NOTE_PATTERN, isNote, noteAllowed } from '../core/pitch';

// The quicker parser would be compiled from text, which the page's Content-Security-Policy forbids; even to ask whether it may is logged.
z.config({ jitless: true });

/** A number in [low, high]; NaN and infinities are no numbers here. */
export function between(low: number, high: number, unit: string, what: string): z.ZodMiniNumber {
  const error = (): string => sayRecords('between', { low, high, unit: unitWord(unit) });
  return z
    .number({ error })
    .check(z.minimum(low, { error }), z.maximum(high, { error }), z.describe(`${what}, ${unit}`));
}

/** A number in (low, high]. */
export function above(low: number, high: number, unit: string, what: string): z.ZodMiniNumber {
  const error = (): string => sayRecords('aboveUpTo', { low, high, unit: unitWord(unit) });
  return z.number({ error }).check(z.gt(low, { error }), z.maximum(high, { error }), z.describe(`${what}, ${unit}`));
}

/** A whole number in [low, high]. */
export function whole(low: number, high: number, unit: string, what: string): z.ZodMiniNumber {
  const error = (): string => sayRecords('whole', { low, high, bare: unit === '' ? 'yes' : 'no', unit: unitWord(unit) });
  return z
    .number({ error })
    .check(z.int({ error }), z.minimum(low, { error }), z.maximum(high, { error }), z.describe(`${what}${unit === '' ? '' : `, ${unit}`}`));
}

/** A number in [−most, most] that is not 0. */
export function change(most: number, unit: string, what: string): z.ZodMiniNumber {
  const error = (): string => sayRecords('change', { low: -most, high: most, unit: unitWord(unit) });
  return z
    .number({ error })
    .check(z.minimum(-most, { error }), z.maximum(most, { error }), z.refine((value) => value !== 0, { error }), z.describe(`${what}, ${unit}, not 0`));
}

/** A part of a whole, neither nothing nor all of it. */
export function share(what: string): z.ZodMiniNumber {
  const error = (): string => sayRecords('share');
  return z.number({ error }).check(z.gt(0, { error }), z.lt(1, { error }), z.describe(what));
}

export function oneOf<const T extends readonly string[]>(values: T, what: string): z.ZodMiniEnum<z.core.util.ToEnum<T[number]>> {
  return z
    .enum(values, { error: () => sayRecords('oneOf', { values: values.map((value) => JSON.stringify(value)).join(', ') }) })
    .check(z.describe(what));
}

export function exactly<const T extends string | number>(value: T): z.ZodMiniLiteral<T> {
  return z.literal(value, { error: JSON.stringify(value) });
}

export function text(longest: number, what: string, shortest = 0): z.ZodMiniString {
  const error = (): string => (shortest > 0 ? sayRecords('textAtLeast', { shortest, longest }) : sayRecords('text', { longest }));
  return z
    .string({ error })
    .check(z.minLength(shortest, { error }), z.maxLength(longest, { error }), z.describe(what));
}

export function note(what: string): z.ZodMiniString {
  const error = noteAllowed;
  return z
    .string({ error })
    .check(z.regex(NOTE_PATTERN, { error }), z.refine(isNote, { error }), z.describe(`${what}: a note such as C4 (middle C), Bb3, B♭3 or F#4, from C-1 to G9`));
}

/** What two things are told apart by; nobody reads it. */
export function identifier(what: string): z.ZodMiniString {
  const error = (): string => sayRecords('identifier');
  return z.string({ error }).check(z.regex(/^[A-Za-z0-9_-]{1,60}$/, { error }), z.describe(what));
}

/** A day of the calendar, as ISO 8601 writes it. */
export function day(what: string): z.ZodMiniString {
  const error = (): string => sayRecords('day');
  return z
    .string({ error })
    .check(z.regex(/^\d{4}-\d{2}-\d{2}$/, { error }), z.refine(isDay, { error }), z.describe(`${what}, as in 2026-03-01`));
}

/** An object with these fields and no others. */
export function fields<T extends z.core.$ZodLooseShape>(
  what: string,
  shape: T,
): z.ZodMiniObject<z.core.util.Writeable<T>, z.core.$strict> {
  const names = Object.keys(shape).join(', ');
  return z
    .strictObject(shape, {
      error: (issue) => (issue.code === 'unrecognized_keys' ? names : sayRecords('objectWith', { names })),
    })
    .check(z.describe(what));
}

export function list<T extends z.core.$ZodType>(item: T, fewest: number, most: number, what: string): z.ZodMiniArray<T> {
  const error = (): string => sayRecords('listOf', { fewest, most });
  return z
    .array(item, { error })
    .check(z.minLength(fewest, { error }), z.maxLength(most, { error }), z.describe(what));
}

/**
 * A list that may stand inside others: one that is too long is refused before anything in it is looked at, or lists within lists of
 * nonsense would fill the memory with complaints.
 */
export function shortList<T extends z.core.$ZodType>(item: T, fewest: number, most: number, what: string) {
  const error = (): string => sayRecords('listOf', { fewest, most });
  const length = z.array(z.unknown(), { error }).check(z.maxLength(most, { error }));
  return z.pipe(length, list(item, fewest, most, what));
}

/** A condition between fields: `judge` answers null, or the field (path inside the object) and what is allowed there. */
export function condition<T>(
  judge: (value: T) => { readonly path: readonly PropertyKey[]; readonly allowed: string } | null,
): z.core.$ZodCheck<T> {
  return z.check<T>((context) => {
    const refused = judge(context.value);
    if (refused === null) return;
    context.issues.push({
      code: 'custom',
      input: context.value,
      path: [...refused.path],
      message: refused.allowed,
    });
  });
}

/** true or false. */
export const yesOrNo = () => z.boolean({ error: () => sayRecords('trueOrFalse') });

/** For `condition`: a stretch of time does not end before it begins. */
export function stretchInOrder({ startS, endS }: { readonly startS?: number | undefined; readonly endS?: number | undefined }) {
  return startS === undefined || endS === undefined || startS <= endS ? null : { path: ['endS'], allowed: sayRecords('startOrLater', { start: startS }) };
}

/** Units that are words; signs such as mm are the same in every language. */
function unitWord(unit: string): string {
  switch (unit) {
    case 'degrees':
    case 'semitones':
      return sayRecords(unit);
    case '(no unit)':
      return sayRecords('noUnit');
    default:
      return unit;
  }
}

function isDay(words: string): boolean {
  const midnight = new Date(`${words}T00:00:00Z`);
  // A 30th of February would have become a day of March.
  return !Number.isNaN(midnight.getTime()) && midnight.toISOString().slice(0, 10) === words;
}
