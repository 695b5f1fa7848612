/** Which note names stand under a plot against pitch, and where. */
import { type Scale, placeLabels, toPixels } from '../chart/scale';
import type { NoteNamer } from './saysWords';

/** At 13 px a character of a note name takes about this much. */
const CHARACTER_PX = 8;

/** Both ends and the notes in `first` are named before the others. */
export function noteLabels(
  notes: readonly { readonly note: string; readonly midi: number }[],
  x: Scale,
  name: NoteNamer,
  first: readonly number[] = [],
): { readonly xPx: number; readonly row: 0 | 1; readonly text: string }[] {
  const texts = notes.map(({ note }) => name(note));
  const ends = [Math.min(...notes.map(({ midi }) => midi)), Math.max(...notes.map(({ midi }) => midi))];
  return placeLabels(
    notes.map(({ midi }, index) => ({
      xPx: toPixels(x, midi),
      widthPx: texts[index]!.length * CHARACTER_PX + 4,
      priority: first.includes(midi) ? 0 : ends.includes(midi) ? 1 : 2,
    })),
  ).map(({ index, xPx, row }) => ({ xPx, row, text: texts[index]! }));
}
