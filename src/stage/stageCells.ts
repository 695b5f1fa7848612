/** How a picture is divided among the scenes that are seen at once: beside each other where it is wide, else one below the other. */

/** Parts of the whole, from the left and the top. */
export interface Cell {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A picture wider than this many times its height is divided across. */
const WIDE_FROM = 1.3;

export function cellsOf(count: number, widthPx: number, heightPx: number): readonly Cell[] {
  const across = widthPx >= heightPx * WIDE_FROM;
  const part = 1 / Math.max(1, count);
  return Array.from({ length: count }, (_, index) =>
    across
      ? { left: index * part, top: 0, width: part, height: 1 }
      : { left: 0, top: index * part, width: 1, height: part });
}
