/**
 * How a scan is looked at: from far away, so that nothing is smaller for being further off. Places are the mesh's own, pictures count px from
 * their upper left corner.
 */
import { type Vec3, add, cross, dot, normalize, scale, subtract } from '../core/vector';

export interface ScanView {
  /** What of the scan is to the right, up and toward the eye; square to each other, of length 1. */
  readonly right: Vec3;
  readonly up: Vec3;
  readonly toward: Vec3;
  /** The place in the middle of the picture. */
  readonly middle: Vec3;
  /** How much of the mesh's unit the picture is wide. */
  readonly across: number;
}

export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

export interface Px {
  readonly x: number;
  readonly y: number;
}

export function toPx(view: ScanView, { width, height }: PictureSize, place: Vec3): Px {
  const from = subtract(place, view.middle);
  const perPx = view.across / width;
  return { x: width / 2 + dot(from, view.right) / perPx, y: height / 2 - dot(from, view.up) / perPx };
}

/** The place at a px, so far toward the eye from the middle. */
export function toPlace(view: ScanView, { width, height }: PictureSize, { x, y }: Px, depth: number): Vec3 {
  const perPx = view.across / width;
  const flat = add(scale(view.right, (x - width / 2) * perPx), scale(view.up, (height / 2 - y) * perPx));
  return add(view.middle, add(flat, scale(view.toward, depth)));
}

/** How far toward the eye a place is from the middle. */
export const depthOf = (view: ScanView, place: Vec3): number => dot(subtract(place, view.middle), view.toward);

/** Turned before the eye, radians: its right side away, its upper side toward the eye, and round in the picture's plane counterclockwise. */
export function turnView(view: ScanView, aside: number, over: number, round = 0): ScanView {
  let { right, up, toward } = view;
  [right, toward] = [turned(right, toward, -aside), turned(toward, right, aside)];
  [up, toward] = [turned(up, toward, -over), turned(toward, up, over)];
  [right, up] = [turned(right, up, -round), turned(up, right, round)];
  // Rounding adds up over many small turns.
  const exact = normalize(toward);
  const level = normalize(subtract(right, scale(exact, dot(right, exact))));
  return { ...view, right: level, up: cross(exact, level), toward: exact };
}

const turned = (one: Vec3, other: Vec3, by: number): Vec3 => add(scale(one, Math.cos(by)), scale(other, Math.sin(by)));
