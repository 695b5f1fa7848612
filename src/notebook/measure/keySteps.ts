/** Arrow keys as steps: one, ten with Shift, a tenth with Alt or where fine steps are chosen. */
import type { Point } from '../../measure/picture';

export interface PressedKey {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
}

/** The step in the picture's own directions (y down); null where the key is no arrow. */
export function stepOf({ key, shiftKey, altKey, ctrlKey, metaKey }: PressedKey, fine: boolean): Point | null {
  const way = ARROWS[key];
  if (way === undefined || ctrlKey || metaKey) return null;
  const size = shiftKey ? 10 : altKey || fine ? 0.1 : 1;
  return { x: way.x * size, y: way.y * size };
}

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
};
