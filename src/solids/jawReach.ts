/**
 * How much of a jaw's face can be made solid: where it faces forward enough to be a relief, and where form and profile fit each other as the
 * model asks (1 + d·κ, docs/numerics.md §2).
 */
import { createArcLength } from '../core/arcLength';
import { CURVE_OUT, curvatureOf, evaluateCurve } from '../core/planarForm';
import { profileAt } from '../core/profile';
import type { JawSurface } from '../core/surface';

export interface JawReach {
  /** Heights from the edge toward the gum, mm; on a single surface below 0 too. */
  readonly heights: readonly [number, number];
  /** Arc lengths from the midline, mm, + to the player's left. */
  readonly arcs: readonly [number, number];
  /** x that every height of it reaches, mm. */
  readonly across: readonly [number, number];
  /** Along the form, every WALK_MM: x, the forward part of its normal, and the smallest radius that any height has there (horizontal), mm. */
  readonly walk: readonly { readonly x: number; readonly forward: number; readonly radiusMm: number }[];
}

/** Step of the walk along the form, mm. */
const WALK_MM = 0.25;
/** About to the first molars of a wide adult arch: arc from the midline, mm. */
const FARTHEST_ARC_MM = 48;
/** A body deeper than this is no hand's size, mm from the front. */
const DEEPEST_MM = 34;
/** Forward part of the form's normal: beyond 78° from the front the face runs straight back and is left out. */
const LEAST_FORWARD = 0.2;
/** 1 + d·κ: the seat refuses a form below 0.1; a printed one keeps clear of that. */
const LEAST_TIGHTNESS = 0.15;
/** Profiles steeper than this from the upright are cut off, radians (70°). */
const STEEPEST = (70 * Math.PI) / 180;
/** The middle of the arch must be there in any case, mm of arc either side. */
const MIDDLE_MM = 12;
/** Less than this of the arch, or of its height, is nothing to roll a rim over, mm. */
const LEAST_ACROSS_MM = 4;
const LEAST_HEIGHT_MM = 3;
const HEIGHT_STEP_MM = 0.25;

/** Null where too little of the jaw could be made. `wantedMm` is the height asked for. */
export function jawReach(surface: JawSurface, wantedMm: number): JawReach | null {
  const walked = [walkForm(surface, -1), walkForm(surface, 1)] as const;
  const middle = walked.flatMap((side) => side.filter(({ arc }) => Math.abs(arc) <= MIDDLE_MM));
  let [low, high] = [0, 0];
  const bears = (height: number, stations: readonly Station[]): boolean => {
    const { offsetMm, slope } = profileAt(surface.placed.profile, height);
    return Math.abs(slope) <= STEEPEST && stations.every(({ curvature }) => 1 + offsetMm * curvature >= LEAST_TIGHTNESS);
  };
  const [lowest, highest] = surface.heightRange;
  while (high < Math.min(wantedMm, highest) && bears(nextHeight(high, Math.min(wantedMm, highest)), middle)) high = nextHeight(high, Math.min(wantedMm, highest));
  while (low > Math.max(-wantedMm, lowest) && bears(nextHeight(low, Math.max(-wantedMm, lowest)), middle)) low = nextHeight(low, Math.max(-wantedMm, lowest));
  if (high - low < LEAST_HEIGHT_MM) return null;
  const offsets: number[] = [];
  for (let height = low; height < high; height += HEIGHT_STEP_MM) offsets.push(profileAt(surface.placed.profile, height).offsetMm);
  offsets.push(profileAt(surface.placed.profile, high).offsetMm);
  const [least, most] = [Math.min(...offsets), Math.max(...offsets)];
  const fits = ({ curvature }: Station): boolean => 1 + least * curvature >= LEAST_TIGHTNESS && 1 + most * curvature >= LEAST_TIGHTNESS;
  const [right, left] = walked.map((side) => side.slice(0, firstMiss(side, fits))) as [Station[], Station[]];
  const [from, to] = [right.at(-1), left.at(-1)];
  if (from === undefined || to === undefined) return null;
  const across = [
    Math.max(...offsets.map((offset) => from.x + offset * from.aside)),
    Math.min(...offsets.map((offset) => to.x + offset * to.aside)),
  ] as const;
  if (across[0] > -LEAST_ACROSS_MM || across[1] < LEAST_ACROSS_MM) return null;
  return {
    heights: [low, high],
    arcs: [from.arc, to.arc],
    across,
    walk: [...right.slice(1).reverse(), ...left].map(({ x, forward, curvature }) => ({
      x,
      forward,
      radiusMm: Math.min(...[least, most].map((offset) => Math.abs((1 + offset * curvature) / curvature))),
    })),
  };
}

interface Station {
  readonly arc: number;
  readonly x: number;
  /** The form's outward normal: its part toward the player's left and its part forward. */
  readonly aside: number;
  readonly forward: number;
  readonly curvature: number;
}

/** From the midline to one side, as far as the form faces forward. */
function walkForm(surface: JawSurface, side: 1 | -1): Station[] {
  const { curve } = surface.placed;
  const length = createArcLength(curve);
  const end = Math.min(FARTHEST_ARC_MM, Math.abs(length.range[side === 1 ? 1 : 0]));
  const out = new Float64Array(CURVE_OUT);
  const stations: Station[] = [];
  evaluateCurve(curve, length.parameterAt(0), out);
  const frontMm = out[1]!;
  for (let walked = 0; walked <= end; walked += WALK_MM) {
    evaluateCurve(curve, length.parameterAt(side * walked), out);
    const speed = Math.hypot(out[2]!, out[3]!);
    const station = { arc: side * walked, x: out[0]!, aside: -out[3]! / speed, forward: out[2]! / speed, curvature: curvatureOf(out) };
    if (!(station.forward >= LEAST_FORWARD) || out[1]! < frontMm - DEEPEST_MM) break;
    stations.push(station);
  }
  return stations;
}

function nextHeight(height: number, end: number): number {
  return Math.abs(end - height) <= HEIGHT_STEP_MM ? end : height + Math.sign(end - height) * HEIGHT_STEP_MM;
}

function firstMiss<T>(all: readonly T[], holds: (one: T) => boolean): number {
  const at = all.findIndex((one) => !holds(one));
  return at < 0 ? all.length : at;
}
