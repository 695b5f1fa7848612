/**
 * An address as a QR code (ISO/IEC 18004), for a projector. The fewest squares come first, since they are what a phone at the back of a room
 * has to tell apart; what room is left among them goes to error correction.
 */
import { type ErrorCorrection, encodeQR } from 'qr';

/**
 * Versions go from 1 (21 squares a side) to 40 (177), four squares a step. Up to this one, 97 squares: with its margin shown 1.1 m high and
 * looked at from 8 m a square is 1.3 thousandths of the distance, some three to four points of a phone's picture. Our judgement, no
 * published source; the test reads codes from pictures as coarse as that.
 */
export const ROOM_VERSION = 20;

/** The light margin the standard asks for, squares. */
export const QUIET_SQUARES = 4;

export type LinkCodeAnswer =
  | {
      readonly kind: 'code';
      /** Rows of squares, true: dark; without the margin. */
      readonly squares: readonly (readonly boolean[])[];
      readonly version: number;
      readonly level: ErrorCorrection;
    }
  /** Too fine for a room, or for any code at all: then `squaresASide` is null. */
  | { readonly kind: 'too-long'; readonly squaresASide: number | null };

/** `most`: the largest version that may be used. Throws RangeError for a version that there is none of. */
export function linkCode(address: string, most = ROOM_VERSION): LinkCodeAnswer {
  if (!Number.isInteger(most) || most < 1 || most > 40) throw new RangeError(`most: ${most}; allowed: a whole number from 1 to 40`);
  const least = encoded(address, 'low');
  if (least === null) return { kind: 'too-long', squaresASide: null };
  const version = (least.length - 17) / 4;
  if (version > most) return { kind: 'too-long', squaresASide: least.length };
  for (const level of STRONGEST_FIRST) {
    const squares = encoded(address, level, version);
    if (squares !== null) return { kind: 'code', squares, version, level };
  }
  return { kind: 'code', squares: least, version, level: 'low' };
}

/** Dark squares as the path of an SVG, one unit a square, the code's own corner at (0, 0): one stroke a run of dark squares in a row. */
export function squaresPath(squares: readonly (readonly boolean[])[]): string {
  const strokes: string[] = [];
  squares.forEach((row, y) => {
    for (let x = 0; x < row.length; x++) {
      if (row[x] !== true) continue;
      const from = x;
      while (row[x + 1] === true) x++;
      strokes.push(`M${from} ${y}h${x + 1 - from}v1h${from - x - 1}z`);
    }
  });
  return strokes.join('');
}

const STRONGEST_FIRST: readonly ErrorCorrection[] = ['high', 'quartile', 'medium'];

/** Null where it does not fit; whatever else goes wrong is thrown. */
function encoded(address: string, ecc: ErrorCorrection, version?: number): boolean[][] | null {
  try {
    // The library draws no code without a margin: its one square is taken off again.
    const framed = encodeQR(address, 'raw', { ecc, border: 1, ...(version !== undefined && { version }) });
    return framed.slice(1, -1).map((row) => row.slice(1, -1));
  } catch (error) {
    if (error instanceof Error && error.message === OVERFLOW) return null;
    throw error;
  }
}

const OVERFLOW = 'Capacity overflow';
