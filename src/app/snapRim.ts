import { snapToEdge } from '../measure/edgeSnap';
import type { GreyPicture, Point } from '../measure/picture';

/** A point of the rim drawn to the edge beside it; where none is near it stays where the hand put it. */
export function snapRim(picture: GreyPicture, point: Point): Point {
  const snapped = snapToEdge(picture, point);
  return snapped.kind === 'snapped' ? snapped.point : point;
}
