/** Where everything on the staff stands, in CSS pixels, and how the time line maps to pitch. Pure functions. */
import type { PlayingDirection } from '../core/specs';
import { fixed } from '../words/numbers';
import type { ClefName, StaffNote } from './props';

export interface StaffLayout {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly staveTopPx: number;
  readonly namesTopPx: number;
  readonly spacingPx: number;
  /** The middle of each notehead, from left to right. */
  readonly noteXs: readonly number[];
}

/** Distance of two staff lines. */
export const STAFF_SPACE_PX = 10;
/** The music font's line distance is the engraver's own; the clef and the row headings need this much before the notes. */
export const LEAD_PX = 56;
const NAME_ROW_PX = 22;
const SWING_ROW_PX = 17;
/** The row that names the ways of the path. */
export const WAY_ROW_PX = 20;

/** Room for a notehead, its accidental and a name of 14 px; with numbers under it a little more. */
const MIN_SPACING_PX = 36;
const MIN_SPACING_WITH_SWING_PX = 44;
const END_PX = 8;
const STRIP_PX = 24;
/** Above everything, so that the playhead's cap never meets a note. */
const PLAYHEAD_CAP_PX = 10;
/** How far the clefs reach beyond the five lines. */
const CLEF_OVERHANG_SPACES: Readonly<Record<ClefName, number>> = { treble: 1.8, alto: 1, tenor: 1, bass: 1 };
/** Half a notehead and a breath beyond the outermost note. */
const NOTE_MARGIN_SPACES = 1.1;

/**
 * Notes at equal distances over the whole width; when they would stand closer than they can be read, the staff becomes
 * wider than its frame and scrolls. `positions` are steps from the bottom line (`staffPosition`).
 */
export function layoutStaff(
  frameWidthPx: number,
  positions: readonly number[],
  withSwing: boolean,
  clef: ClefName,
): StaffLayout {
  const overhang = CLEF_OVERHANG_SPACES[clef];
  const count = positions.length;
  const least = withSwing ? MIN_SPACING_WITH_SWING_PX : MIN_SPACING_PX;
  const room = frameWidthPx - LEAD_PX - END_PX;
  const spacingPx = count === 0 ? least : Math.max(least, room / count);
  const widthPx = Math.max(frameWidthPx, LEAD_PX + count * spacingPx + END_PX);
  const above = Math.max(overhang, (Math.max(8, ...positions) - 8) / 2 + NOTE_MARGIN_SPACES);
  const below = Math.max(overhang, -Math.min(0, ...positions) / 2 + NOTE_MARGIN_SPACES);
  const staveTopPx = Math.round(above * STAFF_SPACE_PX) + PLAYHEAD_CAP_PX;
  const namesTopPx = Math.round(staveTopPx + (4 + below) * STAFF_SPACE_PX);
  return {
    widthPx,
    heightPx: namesTopPx + NAME_ROW_PX + (withSwing ? 2 * SWING_ROW_PX : 0) + 4,
    staveTopPx,
    namesTopPx,
    spacingPx,
    noteXs: positions.map((_, index) => LEAD_PX + (index + 0.5) * spacingPx),
  };
}

export interface WayRun {
  readonly direction: PlayingDirection;
  readonly leftPx: number;
  readonly widthPx: number;
}

/** The stretches of the time line that belong to one way each; none where the ways are not told apart. */
export function wayRuns(notes: readonly Pick<StaffNote, 'direction'>[], spacingPx: number): WayRun[] {
  const runs: { direction: PlayingDirection; leftPx: number; widthPx: number }[] = [];
  notes.forEach(({ direction }, index) => {
    if (direction == null) return;
    const last = runs.at(-1);
    if (last?.direction === direction) last.widthPx += spacingPx;
    else runs.push({ direction, leftPx: LEAD_PX + index * spacingPx, widthPx: spacingPx });
  });
  return runs;
}

/** The time line alone, without staff lines: a narrow strip with the names under it. */
export function layoutWithoutNotation(frameWidthPx: number, count: number, withSwing: boolean): StaffLayout {
  const layout = layoutStaff(frameWidthPx, new Array<number>(count).fill(4), withSwing, 'treble');
  return { ...layout, namesTopPx: STRIP_PX, heightPx: layout.heightPx - layout.namesTopPx + STRIP_PX };
}

/** Pitch at a place of the time line, linear between neighbours, held at the ends; null without notes. */
export function pitchAt(xPx: number, midis: readonly number[], noteXs: readonly number[]): number | null {
  const first = midis[0];
  if (first === undefined) return null;
  for (let index = 1; index < midis.length; index += 1) {
    const [x0, x1] = [noteXs[index - 1] as number, noteXs[index] as number];
    if (xPx > x1) continue;
    const part = Math.max(0, (xPx - x0) / (x1 - x0));
    return (midis[index - 1] as number) * (1 - part) + (midis[index] as number) * part;
  }
  return midis.length === 1 ? first : (midis[midis.length - 1] as number);
}

/**
 * Place of a pitch on the time line. Where several branches pass through the pitch, the place nearest to `nearPx` wins,
 * so that a playhead does not jump between them. A pitch beyond all notes goes up to half a note distance past the end
 * note nearest in pitch. Null without notes.
 */
export function placeOf(
  midi: number,
  midis: readonly number[],
  noteXs: readonly number[],
  nearPx: number,
): number | null {
  let best: number | null = null;
  for (let index = 0; index < midis.length; index += 1) {
    const here = midis[index] as number;
    const next = midis[index + 1];
    const x = noteXs[index] as number;
    const candidate =
      here === midi
        ? x
        : next !== undefined && (midi - here) * (midi - next) < 0
          ? x + ((midi - here) / (next - here)) * ((noteXs[index + 1] as number) - x)
          : null;
    if (candidate !== null && (best === null || Math.abs(candidate - nearPx) < Math.abs(best - nearPx))) best = candidate;
  }
  return best ?? placeBeyond(midi, midis, noteXs);
}

/** Index of the note whose column holds `xPx`; null without notes. */
export function noteAt(xPx: number, layout: StaffLayout): number | null {
  const count = layout.noteXs.length;
  if (count === 0) return null;
  return Math.min(count - 1, Math.max(0, Math.floor((xPx - LEAD_PX) / layout.spacingPx)));
}

/** The scroll position that shows `xPx` with a margin; unchanged when it is in sight already. */
export function scrollToShow(xPx: number, scrollPx: number, framePx: number, contentPx: number): number {
  const margin = Math.min(48, framePx / 4);
  const furthest = Math.max(0, contentPx - framePx);
  if (xPx < scrollPx + margin) return Math.max(0, Math.min(furthest, xPx - margin));
  if (xPx > scrollPx + framePx - margin) return Math.max(0, Math.min(furthest, xPx - framePx + margin));
  return scrollPx;
}

/** Degrees with an explicit sign and one decimal; what rounds to nothing carries no sign. */
export function signedDegrees(degrees: number): string {
  const text = fixed(Math.abs(degrees), 1);
  if (Math.abs(degrees).toFixed(1) === '0.0') return text;
  return `${degrees < 0 ? '−' : '+'}${text}`;
}

function placeBeyond(midi: number, midis: readonly number[], noteXs: readonly number[]): number | null {
  const first = midis[0];
  const last = midis[midis.length - 1];
  if (first === undefined || last === undefined) return null;
  const [firstX, lastX] = [noteXs[0] as number, noteXs[noteXs.length - 1] as number];
  if (midis.length === 1) return firstX;
  const spacing = (noteXs[1] as number) - firstX;
  const beforeFirst = Math.abs(midi - first) < Math.abs(midi - last);
  const overshoot = Math.min(0.5, Math.abs(midi - (beforeFirst ? first : last)) / 12) * spacing;
  return beforeFirst ? firstX - overshoot : lastX + overshoot;
}
