/** How a picture lies in its frame on the page: picture px (picture.ts) to CSS px and back, fitted, zoomed about a point, moved. */
import type { Point } from '../../measure/picture';

export interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Viewport {
  /** CSS px a picture px. */
  readonly scale: number;
  /** Where the picture's upper left corner lies in the frame, CSS px. */
  readonly leftPx: number;
  readonly topPx: number;
}

/** One picture px is never drawn larger than this, CSS px: enough to see tenths of one. */
const LARGEST_SCALE = 32;
/** This much of the picture stays in the frame however far it is moved, CSS px. */
const STAYS_IN_PX = 48;

/** The whole picture in the middle of the frame. */
export function fitted(picture: Size, frame: Size): Viewport {
  const scale = fitScale(picture, frame);
  return { scale, leftPx: (frame.width - picture.width * scale) / 2, topPx: (frame.height - picture.height * scale) / 2 };
}

/** Larger (factor above 1) or smaller about a place of the frame, which stays where it is; never smaller than the fitted picture. */
export function zoomed(view: Viewport, factor: number, about: Point, picture: Size, frame: Size): Viewport {
  const least = fitScale(picture, frame);
  const scale = Math.min(Math.max(LARGEST_SCALE, least), Math.max(least, view.scale * factor));
  if (scale === least) return fitted(picture, frame);
  const by = scale / view.scale;
  return held({ scale, leftPx: about.x - (about.x - view.leftPx) * by, topPx: about.y - (about.y - view.topPx) * by }, picture, frame);
}

export function panned(view: Viewport, by: Point, picture: Size, frame: Size): Viewport {
  return held({ ...view, leftPx: view.leftPx + by.x, topPx: view.topPx + by.y }, picture, frame);
}

/** Moved no further than needed for a point of the picture to lie well inside the frame. */
export function showing(view: Viewport, point: Point, picture: Size, frame: Size): Viewport {
  const at = toFrame(view, point);
  const by = { x: inward(at.x, frame.width), y: inward(at.y, frame.height) };
  return by.x === 0 && by.y === 0 ? view : panned(view, by, picture, frame);
}

/** The centre of the first pixel is at (0, 0): half a pixel inside the picture's corner. */
export function toFrame({ scale, leftPx, topPx }: Viewport, point: Point): Point {
  return { x: leftPx + (point.x + 0.5) * scale, y: topPx + (point.y + 0.5) * scale };
}

export function toPicture({ scale, leftPx, topPx }: Viewport, place: Point): Point {
  return { x: (place.x - leftPx) / scale - 0.5, y: (place.y - topPx) / scale - 0.5 };
}

export const isInside = ({ x, y }: Point, { width, height }: Size): boolean => x >= -0.5 && y >= -0.5 && x <= width - 0.5 && y <= height - 0.5;

const fitScale = (picture: Size, frame: Size): number => Math.min(frame.width / picture.width, frame.height / picture.height);

function held(view: Viewport, picture: Size, frame: Size): Viewport {
  const keep = (start: number, length: number, room: number): number => {
    const stays = Math.min(STAYS_IN_PX, room / 2);
    return Math.min(room - stays, Math.max(stays - length, start));
  };
  return {
    scale: view.scale,
    leftPx: keep(view.leftPx, picture.width * view.scale, frame.width),
    topPx: keep(view.topPx, picture.height * view.scale, frame.height),
  };
}

function inward(at: number, room: number): number {
  const margin = Math.min(STAYS_IN_PX, room / 4);
  if (at < margin) return margin - at;
  return at > room - margin ? room - margin - at : 0;
}
