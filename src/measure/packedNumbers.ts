/**
 * Whole numbers as a short text, for series that change little from one to the next: zigzag (small of either sign is small), four
 * bits at a time with the highest saying that more follow, base64. A step of −4 to 3 takes half a byte.
 */

/** Whole numbers from −2³⁰ to 2³⁰ can be written; steps between the values of a trace stay far below. */
export const LARGEST_PACKED = 2 ** 30;

const NO_BASE64 = /[^A-Za-z0-9+/=]/;
/** Taken at once by String.fromCharCode, which has its arguments on the stack. */
const CHUNK = 8192;
/** No number that may be written is longer: 31 bits, three in each. */
const MOST_NIBBLES = 11;

/** Throws RangeError for what is not a whole number within ±LARGEST_PACKED. */
export function packNumbers(values: readonly number[]): string {
  const nibbles: number[] = [];
  for (const value of values) {
    if (!Number.isInteger(value) || Math.abs(value) > LARGEST_PACKED) {
      throw new RangeError(`packNumbers: ${value}; allowed: a whole number from ${-LARGEST_PACKED} to ${LARGEST_PACKED}`);
    }
    let rest = value < 0 ? -2 * value - 1 : 2 * value;
    while (rest > 7) {
      nibbles.push((rest % 8) + 8);
      rest = Math.floor(rest / 8);
    }
    nibbles.push(rest);
  }
  // A last half byte that says more follows is no number, so it can be told from one.
  if (nibbles.length % 2 === 1) nibbles.push(FILLER);
  const bytes = Uint8Array.from({ length: nibbles.length / 2 }, (_, at) => (nibbles[2 * at] as number) * 16 + (nibbles[2 * at + 1] as number));
  let text = '';
  for (let at = 0; at < bytes.length; at += CHUNK) text += String.fromCharCode(...bytes.subarray(at, at + CHUNK));
  return btoa(text);
}

const FILLER = 8;

/** Reads one number after the other. */
export interface NumberReader {
  /** null: the text has ended, or holds what was never written. */
  next(): number | null;
  /** Whether every number has been read. */
  isAtEnd(): boolean;
}

/** null: no base64, or longer than `most` characters. */
export function readNumbers(text: string, most: number): NumberReader | null {
  const bytes = bytesOf(text, most);
  if (bytes === null) return null;
  const length = 2 * bytes.length;
  const nibble = (at: number): number => (at % 2 === 0 ? bytes.charCodeAt(at >> 1) >> 4 : bytes.charCodeAt(at >> 1) & 15);
  let at = 0;
  return {
    next: () => {
      let value = 0;
      let scale = 1;
      for (let count = 0; count < MOST_NIBBLES && at < length; count++) {
        const part = nibble(at++);
        value += (part % 8) * scale;
        scale *= 8;
        if (part < 8) return value % 2 === 1 ? -(value + 1) / 2 : value / 2;
      }
      return null;
    },
    isAtEnd: () => at === length || (at === length - 1 && nibble(at) === FILLER),
  };
}

function bytesOf(text: string, most: number): string | null {
  // Without these, atob would pass over spaces and missing ends.
  if (text.length > most || text.length % 4 !== 0 || NO_BASE64.test(text)) return null;
  try {
    return atob(text);
  } catch {
    return null;
  }
}
