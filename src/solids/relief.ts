/**
 * A relief: a front z(x, y) over a flat back, cut into upright columns. Every section at constant x is a row of points with rising y, so the
 * body has no overhang when it lies on its back, and no set of columns can make it cross itself: what has to hold is checked in numbers.
 */
import { type Solid, solidBuilder } from './solid';

export interface Relief {
  /** x of each column, rising, mm. */
  readonly columnsMm: Float64Array;
  readonly rows: number;
  /** y and z of the front, column after column, each from below to above, mm. */
  readonly upMm: Float64Array;
  readonly outMm: Float64Array;
  /** z of the flat back, mm. */
  readonly backMm: number;
}

/** Rows and columns nearer to each other would be thinner than the numbers of a file tell apart, mm. */
const LEAST_STEP_MM = 0.002;
const FEWEST_COLUMNS = 3;

/** What keeps numbers from being a relief, in a few words for a refusal; null where nothing does. */
export function reliefFault({ columnsMm, rows, upMm, outMm, backMm }: Relief): 'columns' | 'rows' | 'back' | null {
  if (columnsMm.length < FEWEST_COLUMNS || rows < 2) return 'columns';
  for (let column = 1; column < columnsMm.length; column++) {
    if (!(columnsMm[column]! - columnsMm[column - 1]! >= LEAST_STEP_MM)) return 'columns';
  }
  for (let at = 0; at < upMm.length; at++) {
    if (at % rows > 0 && !(upMm[at]! - upMm[at - 1]! >= LEAST_STEP_MM)) return 'rows';
    if (!(outMm[at]! - backMm >= LEAST_STEP_MM)) return 'back';
  }
  return null;
}

/** Throws RangeError where the numbers are no relief. */
export function reliefSolid(relief: Relief): Solid {
  const fault = reliefFault(relief);
  if (fault !== null) throw new RangeError(`relief ${fault}: allowed are columns and rows that rise by ${LEAST_STEP_MM} mm or more, before the back`);
  const { columnsMm, rows, upMm, outMm, backMm } = relief;
  const { corner, triangle, quad, shortQuad, build } = solidBuilder();
  const last = columnsMm.length - 1;
  const top = rows - 1;
  const front = Array.from(columnsMm, (x, column) =>
    Array.from({ length: rows }, (_, row) => corner(x, upMm[column * rows + row]!, outMm[column * rows + row]!)));
  // Both ends are cut into the front's rows, so that their edges meet; between them the back needs no corners but its border's.
  const back = Array.from(columnsMm, (x, column) =>
    Array.from({ length: rows }, (_, row) =>
      column === 0 || column === last || row === 0 || row === top ? corner(x, upMm[column * rows + row]!, backMm) : -1));
  for (let column = 0; column < last; column++) {
    const [here, next] = [front[column]!, front[column + 1]!];
    const [behind, behindNext] = [back[column]!, back[column + 1]!];
    for (let row = 0; row < top; row++) shortQuad(here[row]!, next[row]!, next[row + 1]!, here[row + 1]!);
    quad(here[0]!, behind[0]!, behindNext[0]!, next[0]!);
    quad(here[top]!, next[top]!, behindNext[top]!, behind[top]!);
    if (column === 0) {
      for (let row = 0; row < top; row++) triangle(behind[row]!, behind[row + 1]!, behindNext[0]!);
      triangle(behind[top]!, behindNext[top]!, behindNext[0]!);
    } else if (column === last - 1) {
      for (let row = 0; row < top; row++) triangle(behindNext[row + 1]!, behindNext[row]!, behind[top]!);
      triangle(behind[0]!, behind[top]!, behindNext[0]!);
    } else quad(behind[0]!, behind[top]!, behindNext[top]!, behindNext[0]!);
  }
  for (let row = 0; row < top; row++) {
    quad(front[0]![row]!, front[0]![row + 1]!, back[0]![row + 1]!, back[0]![row]!);
    quad(front[last]![row]!, back[last]![row]!, back[last]![row + 1]!, front[last]![row + 1]!);
  }
  return build();
}
