/**
 * A jaw, or both in their bite, as a body to print: the front is the model's own surface, sampled until its chords keep within CHORD_MM of it
 * where a rim can be; behind it a flat back, on which it lies while it is printed and stands in the hand.
 */
import { type Arch, moveJaw } from '../core/arch';
import type { JawSurface } from '../core/surface';
import { columnsAcross, rowHeights } from './archSampling';
import { type JawReach, jawReach } from './jawReach';
import { type Relief, reliefFault, reliefSolid } from './relief';
import { type NotSolid, type Solid, notSolid } from './solid';

export type ArchPart = 'upper' | 'lower' | 'both';

export interface ArchWish {
  readonly part: ArchPart;
  /** How far from the edges toward the gum, mm. */
  readonly heightMm: number;
  /** Half the width in which a rim can be, from the midline, mm: there CHORD_MM is kept. */
  readonly rimReachMm: number;
}

export interface ArchSolid {
  readonly kind: 'solid';
  readonly solid: Solid;
  /** Largest distance of the triangles of the front from the surface, at their middles and those of their edges, mm. */
  readonly chordMm: { readonly whereRimsAre: number; readonly elsewhere: number };
}

/** Chords keep within this of the model's surface where a rim can be, mm: a tenth of a printer's usual layer. */
export const CHORD_MM = 0.02;
/** The back lies this far behind the deepest point of the front, mm: the thinnest place. */
export const LEAST_WALL_MM = 6;
/** Depth of the slot between the jaws behind the nearer edge, mm, where there is room for it. */
const SLOT_MM = 10;
/** What is left behind the slot, mm: it holds the jaws together. */
const BEHIND_SLOT_MM = 4;
/** The slot narrows inward by this part of its width, at most MOST_DRAFT_MM, at each side: so it prints without an overhang. */
const DRAFT_PART = 0.2;
const MOST_DRAFT_MM = 0.8;
/** Edges nearer than this are printed as one, mm. */
const LEAST_SLOT_MM = 0.4;
/** Times that the sampling is made finer. */
const ROUNDS = 5;

/** The lower jaw by itself is made where it would be with the edges together, untilted. A single surface has one part, 'upper'. */
export function archSolid(arch: Arch, { part, heightMm, rimReachMm }: ArchWish): ArchSolid | NotSolid {
  if (part !== 'upper' && arch.lower === null) return notSolid({ reason: 'one-surface' });
  const unmoved = part === 'lower' ? moveJaw(arch, { openingMm: 0, forwardMm: 0, hingeDeg: 0 }) : arch;
  const surfaces = part === 'both' ? [unmoved.lower!, unmoved.upper] : [part === 'lower' ? unmoved.lower! : unmoved.upper];
  const jaws: SolidJaw[] = [];
  for (const surface of surfaces) {
    const reach = jawReach(surface, heightMm);
    if (reach === null) return notSolid({ reason: 'too-tight' });
    jaws.push({ surface, reach });
  }
  const finer = { columns: 1, rows: 1 };
  let before = Infinity;
  for (let round = 0; ; round++) {
    const made = layRelief(jaws, finer);
    if ('kind' in made) return made;
    const { across, upward, ...chordMm } = chordError(jaws, made, rimReachMm);
    if (chordMm.whereRimsAre <= CHORD_MM) return { kind: 'solid', solid: reliefSolid(made.relief), chordMm };
    // Where the face runs over itself behind a tooth that stands out, no sampling brings it nearer to the surface that is computed with.
    if (round === ROUNDS || chordMm.whereRimsAre > STILL_FALLS * before) return notSolid({ reason: 'too-fine' });
    before = chordMm.whereRimsAre;
    // Diagonals err by what both directions do together: whichever has a good part of it is made finer for the whole.
    const by = Math.min(MOST_FINER, 1.1 * Math.sqrt(chordMm.whereRimsAre / CHORD_MM));
    const much = GOOD_PART * Math.max(across, upward);
    if (across >= much) finer.columns *= by;
    if (upward >= much) finer.rows *= by;
  }
}

/** What a finer round leaves of the error is less than this part; else it has another cause. */
const STILL_FALLS = 0.8;

/** A chord half as long errs by a quarter; the error is known at some places only, so no step is larger than this. */
const MOST_FINER = 2.5;
const GOOD_PART = 0.3;

export interface SolidJaw {
  readonly surface: JawSurface;
  readonly reach: JawReach;
}

/** The relief, and for each jaw which rows of it are that jaw's face. */
interface Laid {
  readonly relief: Relief;
  readonly faces: readonly { readonly firstRow: number; readonly heights: Float64Array }[];
}

/** `jaws` from below to above. */
function layRelief(jaws: readonly SolidJaw[], finer: { readonly columns: number; readonly rows: number }): Laid | NotSolid {
  const low = Math.max(...jaws.map(({ reach }) => reach.across[0]));
  const high = Math.min(...jaws.map(({ reach }) => reach.across[1]));
  if (!(low <= -4 && high >= 4)) return notSolid({ reason: 'nothing-across' });
  const columnsMm = columnsAcross(jaws.map(({ reach }) => reach), low, high, finer.columns);
  const sections = jaws.map(({ surface, reach }) => {
    const rising = rowHeights(surface, reach, finer.rows);
    return faceSections(surface, reach, columnsMm, surface.placed.gumward === 1 ? rising : rising.reverse());
  });
  let deepest = Infinity;
  for (const { out } of sections) for (const z of out) deepest = Math.min(deepest, z);
  const backMm = deepest - LEAST_WALL_MM;
  const slot = jaws.length === 2 ? 2 : 0;
  const rows = sections.reduce((sum, { heights }) => sum + heights.length, slot);
  const upMm = new Float64Array(columnsMm.length * rows);
  const outMm = new Float64Array(columnsMm.length * rows);
  for (let column = 0; column < columnsMm.length; column++) {
    let row = column * rows;
    for (const [place, { heights, up, out }] of sections.entries()) {
      const from = column * heights.length;
      if (place === 1) {
        const below = row - 1;
        const gapMm = up[from]! - upMm[below]!;
        if (!(gapMm >= LEAST_SLOT_MM)) return notSolid({ reason: 'too-close' });
        const draft = Math.min(MOST_DRAFT_MM, DRAFT_PART * gapMm);
        const floor = Math.max(backMm + BEHIND_SLOT_MM, Math.min(outMm[below]!, out[from]!) - SLOT_MM);
        upMm.set([upMm[below]! + draft, up[from]! - draft], row);
        outMm.fill(floor, row, row + slot);
        row += slot;
      }
      upMm.set(up.subarray(from, from + heights.length), row);
      outMm.set(out.subarray(from, from + heights.length), row);
      row += heights.length;
    }
  }
  const relief = { columnsMm, rows, upMm, outMm, backMm };
  const fault = reliefFault(relief);
  if (fault !== null) return notSolid({ reason: fault === 'rows' ? 'too-open' : 'too-tight' });
  const faces = sections.map(({ heights }, place) => ({ heights, firstRow: place === 0 ? 0 : sections[0]!.heights.length + slot }));
  return { relief, faces };
}

/** y and z of a face at every column and height; x is the column's own, so the arc length is sought that has it there. */
function faceSections(surface: JawSurface, reach: JawReach, columnsMm: Float64Array, heights: Float64Array) {
  const up = new Float64Array(columnsMm.length * heights.length);
  const out = new Float64Array(up.length);
  let guess = 0;
  columnsMm.forEach((x, column) => {
    heights.forEach((height, row) => {
      guess = arcAt(surface, reach, x, height, guess);
      const point = surface.pointAt(guess, height);
      up[column * heights.length + row] = point[1];
      out[column * heights.length + row] = point[2];
    });
  });
  return { heights, up, out };
}

/** x is met to this, mm. */
const ACROSS_MM = 1e-7;
const MOST_STEPS = 60;

/** The arc length at which a height of the face has this x: it rises all along, so secants within a bracket find it. */
function arcAt(surface: JawSurface, reach: JawReach, x: number, heightMm: number, guess: number): number {
  let [low, high] = reach.arcs;
  let arc = Math.min(high, Math.max(low, guess));
  let last: { arc: number; miss: number } | null = null;
  for (let step = 0; step < MOST_STEPS; step++) {
    const miss = surface.pointAt(arc, heightMm)[0] - x;
    if (Math.abs(miss) <= ACROSS_MM || high - low <= ACROSS_MM) return arc;
    if (miss < 0) low = arc;
    else high = arc;
    const slope = last === null ? 1 : (miss - last.miss) / (arc - last.arc);
    last = { arc, miss };
    const next = arc - miss / slope;
    arc = next > low && next < high ? next : (low + high) / 2;
  }
  return arc;
}

/** Distances of the front's triangles from the surface: at each face's two diagonals and the middles of its edges; where rims are by direction too. */
function chordError(jaws: readonly SolidJaw[], { relief, faces }: Laid, rimReachMm: number) {
  const { columnsMm, rows, upMm, outMm } = relief;
  let [whereRimsAre, elsewhere, across, upward] = [0, 0, 0, 0];
  faces.forEach(({ firstRow, heights }, place) => {
    const { surface } = jaws[place]!;
    const at = (column: number, row: number): readonly [number, number, number] => {
      const index = column * rows + firstRow + row;
      return [columnsMm[column]!, upMm[index]!, outMm[index]!];
    };
    for (let column = 0; column + 1 < columnsMm.length; column++) {
      for (let row = 0; row + 1 < heights.length; row++) {
        const [a, b, c, d] = [at(column, row), at(column + 1, row), at(column + 1, row + 1), at(column, row + 1)];
        for (const [edge, [one, other]] of ([[a, b], [a, d], [a, c], [b, d]] as const).entries()) {
          const middle = [(one[0] + other[0]) / 2, (one[1] + other[1]) / 2, (one[2] + other[2]) / 2] as const;
          const away = Math.abs(surface.gapAt(middle));
          if (Math.abs(middle[0]) <= rimReachMm) {
            whereRimsAre = Math.max(whereRimsAre, away);
            if (edge === 0) across = Math.max(across, away);
            if (edge === 1) upward = Math.max(upward, away);
          } else elsewhere = Math.max(elsewhere, away);
        }
      }
    }
  });
  return { whereRimsAre, elsewhere, across, upward };
}

