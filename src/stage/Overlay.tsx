/** Writes places of the HTML over the canvas (labels, the rim's handle) in the frame loop, through refs: no state, no layout reads. */
import { useEffect, useMemo, useRef, type RefObject } from 'react';
import { useFrame, useThree } from '@react-three/fiber';
import { Vector3 } from 'three';
import type { LiveFrame, LiveSource } from '../core/analysis';
import type { Vec3 } from '../core/vector';
import { PLACE_ABOVE, createLabelBoxes, layLabels } from './labelLayout';
import { type LabelSize, watchSizes } from './labelSizes';
import { usePictureSize } from './pictureSize';
import { createStand, writeStand } from './stand';
import { type ToothSight, seesTooth } from './toothSight';

export interface LabelSpec {
  readonly id: string;
  readonly text: string;
  readonly look: 'note' | 'chosen' | 'tooth' | 'angle' | 'held' | 'measured';
  /** A fixed place in the scene, or one that moves with the live frame (written into `out`). */
  readonly at: Vec3 | ((frame: LiveFrame, out: Vector3) => void);
  /** A tooth's outward direction: its number is shown only where the tooth can be seen. */
  readonly facing?: LabelSpec['at'];
  /** The place tried first; to the right of the anchor by default. */
  readonly prefer?: 'above';
  /** Text that changes with the live frame. */
  readonly textOf?: (frame: LiveFrame) => string;
}

interface OverlayProps {
  readonly live: LiveSource;
  /** Most important first. */
  readonly labels: readonly LabelSpec[];
  readonly elements: RefObject<(HTMLElement | null)[]>;
  readonly handle: RefObject<HTMLElement | null>;
  readonly legend: RefObject<HTMLElement | null>;
  readonly outerRadiusMm: number;
  readonly mirrored: boolean;
  readonly sight: ToothSight;
  /** False while the scene is only kept ready: nothing is placed. */
  readonly seen: boolean;
}

/** Boxes that labels keep clear of. */
const LEGEND = 0;
const GRIP = 1;
const OBSTACLES = 2;
/** Size of the visible grip in stage.css, which hangs half below the handle. */
const GRIP_PX = 32;
const HANDLE_POINTS = 12;
/** Never smaller than a finger needs, px. */
const HANDLE_LEAST_PX = 44;

export function Overlay({ live, labels, elements, handle, legend, outerRadiusMm, mirrored, sight, seen }: OverlayProps) {
  const camera = useThree((state) => state.camera);
  const size = usePictureSize();
  const invalidate = useThree((state) => state.invalidate);
  // The same words in the same order keep their sizes and places, though a drag makes a new list every frame.
  const wording = labels.map((label) => `${label.id} ${label.look} ${label.text}`).join('\n');
  const boxes = useMemo(() => createLabelBoxes(wording.split('\n').length + OBSTACLES, OBSTACLES), [wording]);
  const stand = useMemo(createStand, []);
  const point = useMemo(() => new Vector3(), []);
  const facing = useMemo(() => new Vector3(), []);
  const texts = useRef<string[]>([]);
  const places = useRef<LabelSpec['prefer'][]>([]);
  const known = useRef(new Map<string, LabelSize>());
  const written = useRef<{ left: number; top: number; element: HTMLElement | null }[]>([]);
  useEffect(() => {
    places.current = labels.map((label) => label.prefer);
  }, [labels]);

  useEffect(() => {
    texts.current = [];
    places.current.forEach((prefer, index) => {
      if (prefer === 'above') boxes.place[index + OBSTACLES] = PLACE_ABOVE;
    });
    const gripPx = handle.current ? GRIP_PX : 0;
    boxes.width[GRIP] = gripPx;
    boxes.height[GRIP] = gripPx;
    invalidate();
    const keys = wording.split('\n');
    return watchSizes(boxes, OBSTACLES, LEGEND, elements.current.slice(0, keys.length), keys, legend.current, known.current, invalidate);
  }, [wording, boxes, elements, legend, handle, invalidate, size, seen]);

  useFrame(() => {
    if (!seen) return;
    const frame = live.current();
    if (frame) writeStand(frame.shown, stand);
    for (let index = 0; index < labels.length; index++) {
      const label = labels[index]!;
      const box = index + OBSTACLES;
      boxes.anchorX[box] = NaN;
      if (!placeInto(label.at, frame, point)) continue;
      if (label.facing && !(frame && placeInto(label.facing, frame, facing) && seesTooth(sight, camera.position, point, facing, stand))) continue;
      point.project(camera);
      if (point.z > 1) continue;
      boxes.anchorX[box] = (((mirrored ? -point.x : point.x) + 1) / 2) * size.width;
      boxes.anchorY[box] = ((1 - point.y) / 2) * size.height;
      if (label.textOf && frame) {
        const text = label.textOf(frame);
        const element = elements.current[index];
        if (element && text !== texts.current[index]) {
          element.textContent = text;
          texts.current[index] = text;
        }
      }
    }
    if (frame && handle.current) {
      let left = Infinity;
      let right = -Infinity;
      let top = Infinity;
      let bottom = -Infinity;
      for (let index = 0; index < HANDLE_POINTS; index++) {
        const across = Math.cos((2 * Math.PI * index) / HANDLE_POINTS) * outerRadiusMm;
        const up = Math.sin((2 * Math.PI * index) / HANDLE_POINTS) * outerRadiusMm;
        const { centre, directions: d } = stand;
        point.set(
          centre[0]! + d[0]! * across + d[3]! * up,
          centre[1]! + d[1]! * across + d[4]! * up,
          centre[2]! + d[2]! * across + d[5]! * up,
        );
        point.project(camera);
        const x = (((mirrored ? -point.x : point.x) + 1) / 2) * size.width;
        const y = ((1 - point.y) / 2) * size.height;
        left = Math.min(left, x);
        right = Math.max(right, x);
        top = Math.min(top, y);
        bottom = Math.max(bottom, y);
      }
      placeHandle(handle.current, left, right, top, bottom);
      boxes.left[GRIP] = (left + right) / 2 - GRIP_PX / 2;
      boxes.top[GRIP] = Math.max(bottom, (top + bottom + HANDLE_LEAST_PX) / 2) - GRIP_PX / 2;
    }
    layLabels(boxes, size.width, size.height);
    for (let index = 0; index < labels.length; index++) {
      const element = elements.current[index];
      if (!element) continue;
      const left = boxes.left[index + OBSTACLES]!;
      const top = boxes.top[index + OBSTACLES]!;
      const last = (written.current[index] ??= { left: NaN, top: NaN, element: null });
      // Most labels stand still: a style that is set again, even to the same, is looked at again.
      if (last.element === element && Object.is(last.left, left) && Object.is(last.top, top)) continue;
      Object.assign(last, { left, top, element });
      const hidden = Number.isNaN(left);
      element.style.visibility = hidden ? 'hidden' : 'visible';
      if (!hidden) element.style.transform = `translate(${left}px, ${top}px)`;
    }
  });
  return null;
}

/** False while a place that moves with the frame has none. */
function placeInto(place: LabelSpec['at'], frame: LiveFrame | null, out: Vector3): boolean {
  if (typeof place !== 'function') out.set(...place);
  else if (frame) place(frame, out);
  else return false;
  return true;
}

function placeHandle(element: HTMLElement, left: number, right: number, top: number, bottom: number): void {
  const width = Math.max(HANDLE_LEAST_PX, Math.round(right - left));
  const height = Math.max(HANDLE_LEAST_PX, Math.round(bottom - top));
  element.style.transform = `translate(${Math.round((left + right - width) / 2)}px, ${Math.round((top + bottom - height) / 2)}px)`;
  element.style.width = `${width}px`;
  element.style.height = `${height}px`;
}
