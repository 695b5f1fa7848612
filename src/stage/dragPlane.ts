/** From a pointer in the picture to travel of the rim: the ray through the pointer, cut with a plane through the rim's centre. */
import { Vector3, type Camera } from 'three';

export interface PictureState {
  camera: Camera | null;
  width: number;
  height: number;
  mirrored: boolean;
}

/** A view this square to the frontal plane drags in it; a more slanting one drags in the picture's own plane. */
const SQUARE_ENOUGH = 0.4;

const origin = new Vector3();
const along = new Vector3();
const facing = new Vector3();

/** Where the pointer's ray meets the drag plane through `through`; null where it does not. `x`, `y` in px from the picture's corner. */
export function pointUnder(
  picture: PictureState,
  x: number,
  y: number,
  through: readonly [number, number, number],
): { readonly x: number; readonly y: number } | null {
  const { camera } = picture;
  if (!camera) return null;
  const across = (x / picture.width) * 2 - 1;
  origin.setFromMatrixPosition(camera.matrixWorld);
  along.set(picture.mirrored ? -across : across, 1 - (y / picture.height) * 2, 0.5).unproject(camera).sub(origin).normalize();
  camera.getWorldDirection(facing);
  if (Math.abs(facing.z) > SQUARE_ENOUGH) facing.set(0, 0, 1);
  const toward = along.dot(facing);
  if (Math.abs(toward) < 1e-6) return null;
  const distance =
    ((through[0] - origin.x) * facing.x + (through[1] - origin.y) * facing.y + (through[2] - origin.z) * facing.z) / toward;
  return { x: origin.x + along.x * distance, y: origin.y + along.y * distance };
}

/**
 * Which way the right arrow moves the rim so that it goes right in the picture, as that is turned now: + to the player's right. Seen
 * from the side, where neither goes right, it is the player's own right.
 */
export function arrowSide({ camera, mirrored }: PictureState): 1 | -1 {
  const leftward = camera?.matrixWorld.elements[0] ?? 1;
  if (Math.abs(leftward) < SIDEWAYS) return 1;
  return leftward > 0 === mirrored ? 1 : -1;
}

/** Less of the player's left than this lies along the picture's width. */
const SIDEWAYS = 0.1;
