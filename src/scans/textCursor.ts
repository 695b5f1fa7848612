/** Words and numbers of a text file, byte by byte: each byte is looked at once, whatever the file holds. */

export interface TextCursor {
  readonly bytes: Uint8Array;
  /** Where reading goes on. */
  at: number;
  /** The word last read. */
  wordFrom: number;
  wordTo: number;
  line: number;
}

export const textCursor = (bytes: Uint8Array, at = 0): TextCursor => ({ bytes, at, wordFrom: at, wordTo: at, line: 1 });

const NEW_LINE = 10;
const RETURN = 13;
const BACKSLASH = 92;

const isBlank = (byte: number): boolean => byte === 32 || byte === RETURN || byte === 9 || byte === 11 || byte === 12;

/** The next word of the file; false at its end. */
export function nextWord(cursor: TextCursor): boolean {
  while (!nextWordOnLine(cursor)) if (!nextLine(cursor)) return false;
  return true;
}

/** The next word of this line; false at its end. A backslash before the line's end joins the next line to it. */
export function nextWordOnLine(cursor: TextCursor): boolean {
  const { bytes } = cursor;
  let at = cursor.at;
  for (;;) {
    while (at < bytes.length && isBlank(bytes[at]!)) at++;
    if (bytes[at] !== BACKSLASH) break;
    let end = at + 1;
    while (end < bytes.length && isBlank(bytes[end]!)) end++;
    if (bytes[end] !== NEW_LINE) break;
    cursor.line++;
    at = end + 1;
  }
  cursor.wordFrom = at;
  while (at < bytes.length && bytes[at] !== NEW_LINE && !isBlank(bytes[at]!)) at++;
  cursor.wordTo = at;
  cursor.at = at;
  return at > cursor.wordFrom;
}

/** Goes to the next line's beginning; false where there is none. */
export function nextLine(cursor: TextCursor): boolean {
  const end = cursor.bytes.indexOf(NEW_LINE, cursor.at);
  cursor.at = end < 0 ? cursor.bytes.length : end + 1;
  cursor.line++;
  return end >= 0;
}

/** The word last read, in small letters; of a longer one the beginning alone. */
export function wordOf(cursor: TextCursor): string {
  return String.fromCharCode(...cursor.bytes.subarray(cursor.wordFrom, Math.min(cursor.wordTo, cursor.wordFrom + 40))).toLowerCase();
}

/** Reads the next word and tells whether it is this one, in small letters. */
export function readsWord(cursor: TextCursor, word: string): boolean {
  if (!nextWord(cursor) || cursor.wordTo - cursor.wordFrom !== word.length) return false;
  for (let i = 0; i < word.length; i++) {
    // Letters alone are compared: bit 32 makes a capital small.
    if ((cursor.bytes[cursor.wordFrom + i]! | 32) !== word.charCodeAt(i)) return false;
  }
  return true;
}

/** The number that the word last read is, or NaN. Within two units in the last place of a double. */
export function numberOf(cursor: TextCursor): number {
  return numberBetween(cursor.bytes, cursor.wordFrom, cursor.wordTo);
}

/** The number between two places of a text, or NaN: digits with an optional sign, point and exponent. */
export function numberBetween(bytes: Uint8Array, from: number, to: number): number {
  let at = from;
  const sign = bytes[at] === MINUS ? -1 : 1;
  if (at < to && (bytes[at] === MINUS || bytes[at] === PLUS)) at++;
  let mantissa = 0;
  let exponent = 0;
  let digits = 0;
  let point = false;
  for (; at < to; at++) {
    const byte = bytes[at]!;
    if (byte === POINT && !point) point = true;
    else if (byte >= ZERO && byte <= NINE) {
      digits++;
      // Beyond what a double holds, further digits only move the point.
      if (mantissa < 1e15) {
        mantissa = mantissa * 10 + (byte - ZERO);
        if (point) exponent--;
      } else if (!point) exponent++;
    } else break;
  }
  if (digits === 0) return NaN;
  if (at < to) {
    if ((bytes[at]! | 32) !== LETTER_E) return NaN;
    const power = wholeBetween(bytes, at + 1, to);
    if (power !== power) return NaN;
    exponent += power;
  }
  if (mantissa === 0) return 0;
  return sign * (exponent < 0 ? mantissa / 10 ** -exponent : mantissa * 10 ** exponent);
}

/** The whole number between two places of a text, or NaN; at most nine digits. */
export function wholeBetween(bytes: Uint8Array, from: number, to: number): number {
  let at = from;
  const signed = at < to && (bytes[at] === MINUS || bytes[at] === PLUS);
  if (signed) at++;
  if (at >= to || to - at > 9) return NaN;
  let whole = 0;
  for (; at < to; at++) {
    const byte = bytes[at]!;
    if (byte < ZERO || byte > NINE) return NaN;
    whole = whole * 10 + (byte - ZERO);
  }
  return signed && bytes[from] === MINUS ? -whole : whole;
}

const MINUS = 45;
const PLUS = 43;
const POINT = 46;
const ZERO = 48;
const NINE = 57;
const LETTER_E = 101;
