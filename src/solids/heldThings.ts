/** What can be printed and held, from a record's own numbers: built, checked and measured, or refused in words. */
import { buildArch } from '../core/arch';
import type { ArchSpec, RimSpec } from '../core/specs';
import { type ArchPart, archSolid } from './archSolid';
import { checkSolid, isPrintable } from './checkSolid';
import { type PegNote, pegSolids } from './pegSolids';
import { rimSolid } from './rimSolid';
import { type NamedSolid, type NotSolid, boxOf, notSolid } from './solid';

export type HeldWish =
  | { readonly thing: 'arch'; readonly part: ArchPart; readonly arch: ArchSpec; readonly rim: RimSpec; readonly farthest: FarthestPlace }
  | { readonly thing: 'rim'; readonly rim: RimSpec }
  | { readonly thing: 'pegs'; readonly notes: readonly PegNote[] };

/** The rim's centre where it is farthest from the upper edge and from the midline, home and travel together, without its sign, mm. */
export interface FarthestPlace {
  readonly upMm: number;
  readonly rightMm: number;
}

export interface HeldThing {
  readonly kind: 'solid';
  readonly solids: readonly NamedSolid[];
  readonly figures: HeldFigures;
}

export interface HeldFigures {
  /** Across, high and deep: x, y, z of the player's frame, all bodies together, mm. */
  readonly sizeMm: readonly [number, number, number];
  readonly backMm: number;
  readonly bodies: number;
  readonly triangles: number;
  readonly volumeMm3: number;
  /** Chords keep within this of the computed surface, mm: measured for an arch where rims can be, and for a rim; null where nothing is curved. */
  readonly chordMm: number | null;
  /** What stands on each peg. */
  readonly raised: readonly string[];
}

/** Beyond the rim at its farthest note, mm. */
const BEYOND_RIM_MM = 4;
const ARCH_HEIGHT_MM = [16, 30] as const;

export function heldThing(wish: HeldWish): HeldThing | NotSolid {
  switch (wish.thing) {
    case 'arch': {
      const outer = wish.rim.outerDiameterMm / 2 + BEYOND_RIM_MM;
      const heightMm = Math.min(ARCH_HEIGHT_MM[1], Math.max(ARCH_HEIGHT_MM[0], Math.ceil(outer + wish.farthest.upMm)));
      const made = archSolid(buildArch(wish.arch), { part: wish.part, heightMm, rimReachMm: outer + wish.farthest.rightMm });
      if (made.kind === 'refused') return made;
      return checked([{ name: `arch ${wish.part}`, solid: made.solid, colour: IVORY }], made.chordMm.whereRimsAre);
    }
    case 'rim': {
      const made = rimSolid(wish.rim);
      if (made.kind === 'refused') return made;
      return checked([{ name: 'rim', solid: made.solid, colour: BRASS }], Math.max(made.chordMm.contour, made.chordMm.round));
    }
    case 'pegs': {
      const made = pegSolids(wish.notes);
      return made.kind === 'refused' ? made : checked(made.solids, null, made.raised);
    }
  }
}

const IVORY = '#FBF4E4';
const BRASS = '#A87B1E';

/** Nothing is handed on that was not found closed and outward. */
function checked(solids: readonly NamedSolid[], chordMm: number | null, raised: readonly string[] = []): HeldThing | NotSolid {
  const found = solids.map(({ solid }) => checkSolid(solid));
  if (!found.every(isPrintable)) return notSolid({ reason: 'not-closed' });
  const { low, high } = boxOf(solids.map(({ solid }) => solid));
  return {
    kind: 'solid',
    solids,
    figures: {
      sizeMm: [high[0] - low[0], high[1] - low[1], high[2] - low[2]],
      backMm: low[2],
      bodies: solids.length,
      triangles: found.reduce((sum, { triangles }) => sum + triangles, 0),
      volumeMm3: found.reduce((sum, { volumeMm3 }) => sum + volumeMm3, 0),
      chordMm,
      raised,
    },
  };
}
