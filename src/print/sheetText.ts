/** Words from outside (labels, remarks) made fit for one printed page and for a file's name. Pure. */
import type { ReadingSpec, TryOutChange, TryOutSpec } from '../core/specs';
import { fixed } from '../words/numbers';
import { sayPrint } from '../words/print';
import { type Posture, wayOf } from './instrumentWords';

export { dayWords } from '../words/days';

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

/** The lesson's try-outs as a first text for "what to try": each change with its remark. Without try-outs: empty. */
export function tryOutsText(tryOuts: readonly TryOutSpec[], posture: Posture): string {
  return tryOuts
    .filter(({ readings, remark }) => remark !== undefined || readings.some(wasSeen))
    .map(({ change, remark }) => {
      const words = sayPrint('tried', { change: changeWords(change, posture) });
      return remark === undefined || remark.trim() === '' ? words : `${words} ${remark.trim()}`;
    })
    .join('\n');
}

/** A try-out of which nothing was seen was begun and not made. */
const wasSeen = ({ note: _note, direction: _direction, ...seen }: ReadingSpec): boolean => Object.keys(seen).length > 0;

/** What is tried, as part of a sentence. On the lap the instrument stays and the head moves. */
export function changeWords(change: TryOutChange, posture: Posture): string {
  switch (change.kind) {
    case 'hold-horn':
      return sayPrint('holdHorn', { posture });
    case 'let-horn-follow':
      return sayPrint('letFollow', { posture });
    case 'place-rim':
      return sayPrint('placeRim', { mm: fixed(Math.abs(change.upMm), 1), way: change.upMm < 0 ? 'down' : 'up' });
    case 'bring-horn-round':
      return sayPrint(posture === 'lap' ? 'bringHeadRound' : 'bringHornRound', {
        degrees: fixed(Math.abs(change.lateralDeg), 0),
        way: wayOf(change.lateralDeg),
      });
  }
}

function cut(line: string, limit: number): string {
  const letters = [...line];
  if (letters.length <= limit) return line;
  const kept = letters.slice(0, Math.max(0, limit - 1)).join('');
  const space = kept.lastIndexOf(' ');
  return `${(space > kept.length * 0.7 ? kept.slice(0, space) : kept).replace(/[\s,;:]+$/u, '')}…`;
}
