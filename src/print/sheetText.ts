/** Words from outside (labels, remarks, dates) made fit for one printed page and for a file's name. Pure. */
import type { ReadingSpec, TryOutChange, TryOutSpec } from '../core/specs';
import type { Posture } from './instrumentWords';

/** Characters of a heading that fit on its one line. */
export const LABEL_LIMIT = 52;
/** Characters and lines of "what to try" that fit into their column. */
export const TRY_LIMIT = 340;
export const TRY_LINES = 9;

/** One line of at most `limit` characters; what is cut off is replaced by "…", at a word's end where one is near. */
export function shortened(text: string, limit: number): string {
  const line = text.replace(/\s+/gu, ' ').trim();
  return cut(line, limit);
}

/** Some lines, of at most `limit` characters in all and `lines` lines when each holds about `perLine` characters. */
export function shortenedLines(text: string, limit: number, lines: number, perLine: number): string {
  const kept: string[] = [];
  let room = limit;
  let rows = 0;
  const given = text.split(/\r?\n/u).map((line) => line.replace(/\s+/gu, ' ').trim());
  for (const [index, line] of given.entries()) {
    const rowsLeft = lines - rows;
    const most = Math.min(room, rowsLeft * perLine);
    const rest = given.slice(index + 1).some((one) => one !== '');
    if (line.length > most || (rest && Math.max(1, Math.ceil(line.length / perLine)) >= rowsLeft)) {
      kept.push(line.length > most ? cut(line, Math.max(1, most)) : `${cut(line, Math.max(1, most - 2)).replace(/…$/u, '')} …`);
      break;
    }
    kept.push(line);
    room -= line.length;
    rows += Math.max(1, Math.ceil(line.length / perLine));
  }
  return kept.join('\n').trim();
}

/** The day in words, as in 1 March 2026; what is no day is given back as it is. */
export function dayWords(date: string): string {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/u.exec(date);
  const month = parts && MONTHS[Number(parts[2]) - 1];
  return parts && month !== undefined ? `${Number(parts[3])} ${month} ${parts[1]!}` : date;
}

const MONTHS = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December'] as const;

/** The lesson's try-outs as a first text for "what to try": each change with its remark. Without try-outs: empty. */
export function tryOutsText(tryOuts: readonly TryOutSpec[], posture: Posture): string {
  return tryOuts
    .filter(({ readings, remark }) => remark !== undefined || readings.some(wasSeen))
    .map(({ change, remark }) => {
      const words = `Tried: ${changeWords(change, posture)}.`;
      return remark === undefined || remark.trim() === '' ? words : `${words} ${remark.trim()}`;
    })
    .join('\n');
}

/** A try-out of which nothing was seen was begun and not made. */
const wasSeen = ({ note: _note, direction: _direction, ...seen }: ReadingSpec): boolean => Object.keys(seen).length > 0;

/** What is tried, as part of a sentence. On the lap the instrument stays and the head moves. */
export function changeWords(change: TryOutChange, posture: Posture): string {
  const lap = posture === 'lap';
  switch (change.kind) {
    case 'hold-horn':
      return lap ? 'the head kept still' : 'the horn held still';
    case 'let-horn-follow':
      return lap ? 'the head goes along with the rim' : 'the horn follows the rim';
    case 'place-rim':
      return `the rim ${Math.abs(change.upMm).toFixed(1)}\u00a0mm ${change.upMm < 0 ? 'lower' : 'higher'}`;
    case 'bring-horn-round': {
      const right = change.lateralDeg > 0;
      const degrees = `${Math.abs(change.lateralDeg).toFixed(0)}°`;
      return lap
        ? `the head turned ${degrees} to the ${right ? 'left' : 'right'}`
        : `the horn ${degrees} to the player’s ${right ? 'right' : 'left'}`;
    }
  }
}

function cut(line: string, limit: number): string {
  const letters = [...line];
  if (letters.length <= limit) return line;
  const kept = letters.slice(0, Math.max(0, limit - 1)).join('');
  const space = kept.lastIndexOf(' ');
  return `${(space > kept.length * 0.7 ? kept.slice(0, space) : kept).replace(/[\s,;:]+$/u, '')}…`;
}
