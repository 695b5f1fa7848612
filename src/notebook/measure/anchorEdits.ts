/** The frames of a film in which something was marked. A mark that is put again in a later frame takes over from there on. */
import { type DraftMarks, NO_MARKS, marksPut, withMark, markAt } from './marksEdits';

export interface FilmAnchorDraft {
  /** The frame's own time on the film's own clock. */
  readonly timeS: number;
  readonly marks: DraftMarks;
}

/** Times this near are one frame's, s. */
const SAME_FRAME_S = 0.0006;

export function anchorAt(anchors: readonly FilmAnchorDraft[], timeS: number): FilmAnchorDraft | undefined {
  return anchors.find((one) => Math.abs(one.timeS - timeS) < SAME_FRAME_S);
}

/** The marks of one frame changed; a frame that has none left is no anchor any more. The very same list where nothing changes. */
export function withAnchorMarks(
  anchors: readonly FilmAnchorDraft[],
  timeS: number,
  edit: (marks: DraftMarks) => DraftMarks,
): readonly FilmAnchorDraft[] {
  const before = anchorAt(anchors, timeS);
  const marks = edit(before?.marks ?? NO_MARKS);
  if (marks === (before?.marks ?? NO_MARKS)) return anchors;
  const others = anchors.filter((one) => one !== before);
  if (marksPut(marks).length === 0) return others;
  return [...others, { timeS: before?.timeS ?? timeS, marks }].toSorted((a, b) => a.timeS - b.timeS);
}

/** Each mark as it was first put, whichever frame that was in: what is asked for next is what stands in none. */
export function marksSoFar(anchors: readonly FilmAnchorDraft[]): DraftMarks {
  let marks = NO_MARKS;
  for (const { marks: own } of anchors) {
    for (const id of marksPut(own)) {
      const at = markAt(own, id);
      if (at !== null && markAt(marks, id) === null) marks = withMark(marks, id, at);
    }
  }
  return marks;
}
