/** Greedy label placing: each label takes the first free place round its anchor, in order of importance; without one it is hidden. */

export interface LabelBoxes {
  readonly count: number;
  /** The first so many boxes are not labels but things to keep clear of: their left and top are given. */
  readonly fixed: number;
  /** Anchor in the picture, px; NaN when it is out of sight. */
  readonly anchorX: Float64Array;
  readonly anchorY: Float64Array;
  readonly width: Float64Array;
  readonly height: Float64Array;
  /** Result: top left corner, px; NaN where hidden. */
  readonly left: Float64Array;
  readonly top: Float64Array;
  /** The place taken last time, tried first, so that labels do not jump. */
  readonly place: Int8Array;
}

export function createLabelBoxes(count: number, fixed = 0): LabelBoxes {
  const numbers = (): Float64Array => new Float64Array(count);
  return {
    count,
    fixed,
    anchorX: numbers(),
    anchorY: numbers(),
    width: numbers(),
    height: numbers(),
    left: numbers(),
    top: numbers(),
    place: new Int8Array(count),
  };
}

/** Index of the place above the anchor. */
export const PLACE_ABOVE = 2;

const AWAY_PX = 9;
const BETWEEN_PX = 3;
const EDGE_PX = 8;
/** A label whose anchor lies at the picture's edge may be moved in by this much. */
const MOST_MOVED_PX = 60;
/** Places round the anchor as parts of width and height (to the label's top left corner) and px: right, left, above, below, corners. */
const PLACES: readonly (readonly [number, number, number, number])[] = [
  [0, -0.5, AWAY_PX, 0],
  [-1, -0.5, -AWAY_PX, 0],
  [-0.5, -1, 0, -AWAY_PX],
  [-0.5, 0, 0, AWAY_PX],
  [0, -1, AWAY_PX * 0.6, -AWAY_PX * 0.6],
  [0, 0, AWAY_PX * 0.6, AWAY_PX * 0.6],
  [-1, -1, -AWAY_PX * 0.6, -AWAY_PX * 0.6],
  [-1, 0, -AWAY_PX * 0.6, AWAY_PX * 0.6],
  [0, -0.5, AWAY_PX * 3, 0],
  [-0.5, -1, 0, -AWAY_PX * 3],
];

/** Lays labels in index order (most important first) inside a picture of this size. No allocation. */
export function layLabels(boxes: LabelBoxes, pictureWidth: number, pictureHeight: number): void {
  for (let label = boxes.fixed; label < boxes.count; label++) {
    boxes.left[label] = NaN;
    boxes.top[label] = NaN;
    if (Number.isNaN(boxes.anchorX[label]!)) continue;
    const last = boxes.place[label]!;
    for (let turn = -1; turn < PLACES.length; turn++) {
      const choice = turn < 0 ? last : turn;
      if (turn === last) continue;
      if (tryPlace(boxes, label, choice, pictureWidth, pictureHeight)) {
        boxes.place[label] = choice;
        break;
      }
    }
  }
}

function tryPlace(boxes: LabelBoxes, label: number, choice: number, pictureWidth: number, pictureHeight: number): boolean {
  const [partX, partY, pxX, pxY] = PLACES[choice]!;
  const width = boxes.width[label]!;
  const height = boxes.height[label]!;
  const wantedLeft = Math.round(boxes.anchorX[label]! + partX * width + pxX);
  const wantedTop = Math.round(boxes.anchorY[label]! + partY * height + pxY);
  const left = Math.min(Math.max(wantedLeft, EDGE_PX), pictureWidth - EDGE_PX - width);
  const top = Math.min(Math.max(wantedTop, EDGE_PX), pictureHeight - EDGE_PX - height);
  if (Math.abs(left - wantedLeft) > MOST_MOVED_PX || Math.abs(top - wantedTop) > MOST_MOVED_PX) return false;
  for (let other = 0; other < label; other++) {
    const otherLeft = boxes.left[other]!;
    const otherTop = boxes.top[other]!;
    if (Number.isNaN(otherLeft)) continue;
    const apart =
      left > otherLeft + boxes.width[other]! + BETWEEN_PX ||
      otherLeft > left + width + BETWEEN_PX ||
      top > otherTop + boxes.height[other]! + BETWEEN_PX ||
      otherTop > top + height + BETWEEN_PX;
    if (!apart) return false;
  }
  boxes.left[label] = left;
  boxes.top[label] = top;
  return true;
}
