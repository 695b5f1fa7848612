/**
 * The frame of a scanned jaw from three clicked teeth: x to the player's left, y up, z forward, the origin at the midline's incisal edge.
 * The plane through the three places counts as level; how far it is from that in the mouth is not known from a scan.
 */
import { type Vec3, add, cross, dot, length, normalize, scale, subtract } from '../core/vector';
import { fixed } from '../words/numbers';
import { sayScans } from '../words/scans';
import type { ScanMesh } from './mesh';

/** Places clicked on one jaw, in the scan's own axes, mm: the tips of the canines on the player's own right and left, and the edge between the two front teeth. */
export interface ThreeTeeth {
  readonly right: Vec3;
  readonly left: Vec3;
  readonly front: Vec3;
}

export interface ScanFrame {
  readonly kind: 'frame';
  /** In the scan's own axes, as are the three directions. */
  readonly origin: Vec3;
  readonly left: Vec3;
  readonly up: Vec3;
  readonly forward: Vec3;
  readonly deviation: FrameDeviation;
}

/** One standard deviation each: of the origin sideways, mm, and of the turns about y (yaw), z (roll) and x (pitch), degrees. */
export interface FrameDeviation {
  readonly sidewaysMm: number;
  readonly yawDeg: number;
  readonly rollDeg: number;
  readonly pitchDeg: number;
}

export interface FrameRefused {
  readonly kind: 'refused';
  readonly reason: 'teeth-too-near' | 'teeth-in-line';
  readonly words: string;
}

/** How far a click lies from the tooth's tip, one standard deviation in each direction, mm: our judgement. */
export const CLICK_SD_MM = 0.5;
/** Canines' tips lie 27 to 35 mm apart in adults (docs: reference values); anything under this is another pair of teeth, or another unit. */
const LEAST_APART_MM = 12;
/** The front teeth stand at least this far before the line from canine to canine, mm: a fifth of the usual. */
const LEAST_BEFORE_MM = 1;

const DEGREES = 180 / Math.PI;

export function frameFromTeeth(teeth: ThreeTeeth, clickSdMm = CLICK_SD_MM): ScanFrame | FrameRefused {
  const across = subtract(teeth.left, teeth.right);
  const apart = length(across);
  if (!(apart >= LEAST_APART_MM)) {
    return {
      kind: 'refused',
      reason: 'teeth-too-near',
      words: sayScans('teethTooNear', { apart: fixed(apart, 1) }),
    };
  }
  const left = scale(across, 1 / apart);
  const middle = scale(add(teeth.left, teeth.right), 0.5);
  const toFront = subtract(teeth.front, middle);
  const ahead = subtract(toFront, scale(left, dot(toFront, left)));
  const depth = length(ahead);
  if (!(depth >= LEAST_BEFORE_MM)) {
    return {
      kind: 'refused',
      reason: 'teeth-in-line',
      words: sayScans('teethInLine'),
    };
  }
  const forward = scale(ahead, 1 / depth);
  const turn = (clickSdMm * Math.SQRT2 * DEGREES) / apart;
  return {
    kind: 'frame',
    origin: teeth.front,
    left,
    forward,
    up: cross(forward, left),
    deviation: {
      sidewaysMm: clickSdMm,
      yawDeg: turn,
      rollDeg: turn,
      // The front place's own height, and that of the middle between two canines.
      pitchDeg: (clickSdMm * Math.sqrt(1.5) * DEGREES) / depth,
    },
  };
}

/** The mesh in a frame. */
export function meshInFrame({ points, triangles }: ScanMesh, frame: ScanFrame): ScanMesh {
  const framed = new Float64Array(points.length);
  for (let at = 0; at < points.length; at += 3) {
    const place = subtract([points[at]!, points[at + 1]!, points[at + 2]!], frame.origin);
    framed[at] = dot(place, frame.left);
    framed[at + 1] = dot(place, frame.up);
    framed[at + 2] = dot(place, frame.forward);
  }
  return { points: framed, triangles };
}

/**
 * Part of a framed mesh's corners that lie on the gum's side of the clicked plane: above in an upper jaw, below in a lower one. Well under a
 * half where right and left have been taken for each other, as the frame is then upside down.
 */
export function gumShare(framed: ScanMesh, jaw: 'upper' | 'lower'): number {
  const { points } = framed;
  let onGumSide = 0;
  for (let at = 1; at < points.length; at += 3) if (points[at]! > 0 === (jaw === 'upper')) onGumSide++;
  return onGumSide / (points.length / 3);
}

/** A frame turned and shifted a little within itself: about y and z (radians), and sideways (mm); the midline's edge stays on the midline. */
export function turnFrame(frame: ScanFrame, yaw: number, roll: number, sidewaysMm: number, deviation: FrameDeviation): ScanFrame {
  // The plane of symmetry's normal in the frame as it was is (1, roll, −yaw).
  const normal = add(frame.left, add(scale(frame.up, roll), scale(frame.forward, -yaw)));
  const left = normalize(normal);
  const forward = normalize(subtract(frame.forward, scale(left, dot(frame.forward, left))));
  return { kind: 'frame', origin: add(frame.origin, scale(left, sidewaysMm)), left, forward, up: cross(forward, left), deviation };
}
