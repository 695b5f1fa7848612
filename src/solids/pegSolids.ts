/**
 * Path pegs, one a note, and a tray that holds one at a time. A peg's rod leans as the horn's axis does at its note and stands on the foot where
 * the rim's centre stands, counted from home: change the peg in the tray, and the axis moves and swings as it does along the path.
 */
import type { Vec3 } from '../core/vector';
import { layCellBlock } from './cellBlock';
import { GLYPH_ROWS, raisedText } from './glyphs';
import { type NamedSolid, type NotSolid, type SolidBuilder, movedSolid, notSolid, solidBuilder } from './solid';

export interface PegNote {
  /** As the reader sees it; raised on the foot where it can be, else its number in the set. */
  readonly name: string;
  /** Of the rim's centre from home, mm: up, and to the player's right. */
  readonly travel: { readonly upMm: number; readonly rightMm: number };
  /** Unit vector from mouth to bell. */
  readonly axis: Vec3;
}

export interface PegSet {
  readonly kind: 'solid';
  /** The tray first, then the pegs in the order asked for, side by side as they are printed. */
  readonly solids: readonly NamedSolid[];
  /** What is raised on each peg. */
  readonly raised: readonly string[];
  readonly footMm: { readonly across: number; readonly high: number };
}

/** Length of a rod along the axis, from the face of the foot, mm. */
export const ROD_MM = 60;
/** Radius of a rod where it stands, and at its tip, mm. */
const ROD_FOOT_MM = 2.6;
const ROD_TIP_MM = 1.6;
const ROD_SIDES = 24;
/** Thickness of a foot, and how far the letters stand out of it, mm. */
export const FOOT_MM = 4;
export const RAISED_MM = 0.6;
/** Cells: what a common nozzle of 0.4 mm draws in two lines, mm. */
const CELL_MM = 0.8;
/** Free foot round a rod, in cells. */
const ROUND_ROD_CELLS = 2;
/** Free cells beside, above and below the letters. */
const MARGIN_CELLS = 2;
/** The notch at the foot's corner, in cells: it goes into the tray one way only. */
const NOTCH_CELLS = 4;
const TRAY_WALL_MM = 4;
const TRAY_HIGH_MM = 6;
/** Room between foot and tray, mm: what printers of plastic thread need to go in without force. */
export const CLEARANCE_MM = 0.3;
const BETWEEN_MM = 4;
const IN_ONE_ROW = 5;
export const MOST_PEGS = 16;
const MOST_TRAVEL_MM = 25;
/** Forward part of an axis: further than 55° from straight ahead the rod would have to be held up while it is printed. */
const LEAST_FORWARD = Math.cos((55 * Math.PI) / 180);

/** z is forward (up as they are printed), x to the player's left, y up. */
export function pegSolids(notes: readonly PegNote[]): PegSet | NotSolid {
  if (notes.length === 0) return notSolid({ reason: 'no-notes' });
  if (notes.length > MOST_PEGS) return notSolid({ reason: 'too-many-pegs', most: MOST_PEGS, count: notes.length });
  const far = notes.find(({ travel }) => !(Math.max(Math.abs(travel.upMm), Math.abs(travel.rightMm)) <= MOST_TRAVEL_MM));
  if (far !== undefined) return notSolid({ reason: 'far-note', note: far.name, mostMm: MOST_TRAVEL_MM });
  const steep = notes.find(({ axis }) => !(axis[2] >= LEAST_FORWARD));
  if (steep !== undefined) return notSolid({ reason: 'steep-note', note: steep.name });
  const raised = raisedNames(notes);
  const foot = footOf(notes, raised);
  const tray = solidBuilder();
  layTray(tray, foot);
  const across = foot.columns * CELL_MM;
  const high = foot.rows * CELL_MM;
  const [stepX, stepY] = [across + BETWEEN_MM + leanOf(notes, 0), high + BETWEEN_MM + leanOf(notes, 1)];
  const pegs = notes.map((note, place) => {
    const builder = solidBuilder();
    layPeg(builder, foot, note, raised[place]!);
    const moved = movedSolid(builder.build(), (place % IN_ONE_ROW) * stepX, -Math.floor(place / IN_ONE_ROW) * stepY, 0);
    return { name: `peg ${raised[place]!}`, solid: moved, colour: PEG_COLOUR };
  });
  const besideMm = across + 2 * TRAY_WALL_MM + BETWEEN_MM + leanOf(notes, 0);
  return {
    kind: 'solid',
    solids: [{ name: 'tray', solid: movedSolid(tray.build(), -besideMm, 0, 0), colour: TRAY_COLOUR }, ...pegs],
    raised,
    footMm: { across, high },
  };
}

const PEG_COLOUR = '#00695C';
const TRAY_COLOUR = '#DDD5C8';

/** Names that can all be raised and are all different; else numbers. */
function raisedNames(notes: readonly PegNote[]): string[] {
  const names = notes.map(({ name }) => name.replace(/\s/gu, ''));
  const usable = names.every((name) => raisedText(name) !== null) && new Set(names).size === names.length;
  return usable ? names : notes.map((_, place) => String(place + 1));
}

/** How far rods lean over the sides of their feet, taken together, mm: neighbours keep clear of each other. */
function leanOf(notes: readonly PegNote[], axis: 0 | 1): number {
  return Math.max(...notes.map((note) => Math.abs(note.axis[axis]))) * ROD_MM;
}

/** One foot for all, so that each goes into the tray: in cells, with the rods' home in `home`, from the lower corner on the player's right. */
interface Foot {
  readonly columns: number;
  readonly rows: number;
  readonly home: { readonly column: number; readonly row: number };
}

function footOf(notes: readonly PegNote[], raised: readonly string[]): Foot {
  const cells = (mm: number): number => Math.ceil((mm + ROD_FOOT_MM) / CELL_MM) + ROUND_ROD_CELLS + 1;
  const side = Math.max(...notes.map(({ travel }) => cells(Math.abs(travel.rightMm))));
  const above = Math.max(...notes.map(({ travel }) => cells(Math.max(0, travel.upMm))));
  const below = Math.max(...notes.map(({ travel }) => cells(Math.max(0, -travel.upMm))));
  const letters = Math.max(...raised.map((name) => raisedText(name)![0]!.length));
  const half = Math.max(side + NOTCH_CELLS, Math.ceil(letters / 2) + MARGIN_CELLS);
  const lettersHigh = GLYPH_ROWS + 2 * MARGIN_CELLS;
  return { columns: 2 * half, rows: lettersHigh + below + above, home: { column: half, row: lettersHigh + below } };
}

const lines = (count: number, home: number): number[] => Array.from({ length: count + 1 }, (_, line) => (line - home) * CELL_MM);

function layPeg(builder: SolidBuilder, foot: Foot, { travel, axis }: PegNote, raised: string): void {
  const [xsMm, ysMm] = [lines(foot.columns, foot.home.column), lines(foot.rows, foot.home.row)];
  const centre = { x: -travel.rightMm, y: travel.upMm };
  const text = raisedText(raised)!;
  const textFrom = Math.floor((foot.columns - text[0]!.length) / 2);
  const hole = {
    left: Math.floor((centre.x - ROD_FOOT_MM) / CELL_MM) + foot.home.column - ROUND_ROD_CELLS,
    right: Math.ceil((centre.x + ROD_FOOT_MM) / CELL_MM) + foot.home.column + ROUND_ROD_CELLS,
    low: Math.floor((centre.y - ROD_FOOT_MM) / CELL_MM) + foot.home.row - ROUND_ROD_CELLS,
    high: Math.ceil((centre.y + ROD_FOOT_MM) / CELL_MM) + foot.home.row + ROUND_ROD_CELLS,
  };
  const corner = layCellBlock(builder, {
    xsMm,
    ysMm,
    levelsMm: [0, FOOT_MM, FOOT_MM + RAISED_MM],
    level: (column, row) => {
      if (column >= foot.columns - NOTCH_CELLS && row >= foot.rows - NOTCH_CELLS) return 0;
      const letter = text[GLYPH_ROWS - 1 - (row - MARGIN_CELLS)]?.[column - textFrom];
      return letter === true ? 2 : 1;
    },
    isOpen: (column, row) => column >= hole.left && column < hole.right && row >= hole.low && row < hole.high,
  });
  const border: number[] = [];
  for (let x = hole.left; x < hole.right; x++) border.push(corner(x, hole.low, 1));
  for (let y = hole.low; y < hole.high; y++) border.push(corner(hole.right, y, 1));
  for (let x = hole.right; x > hole.left; x--) border.push(corner(x, hole.high, 1));
  for (let y = hole.high; y > hole.low; y--) border.push(corner(hole.left, y, 1));
  const bearing = [
    ...range(hole.left, hole.right).map((x) => [xsMm[x]!, ysMm[hole.low]!]),
    ...range(hole.low, hole.high).map((y) => [xsMm[hole.right]!, ysMm[y]!]),
    ...range(hole.left, hole.right).map((x) => [xsMm[hole.right - (x - hole.left)]!, ysMm[hole.high]!]),
    ...range(hole.low, hole.high).map((y) => [xsMm[hole.left]!, ysMm[hole.high - (y - hole.low)]!]),
  ].map(([x, y]) => Math.atan2(y! - centre.y, x! - centre.x));
  layRod(builder, centre, axis, { border, bearing });
}

const range = (from: number, to: number): number[] => Array.from({ length: to - from }, (_, step) => from + step);

/** The rod, and the face between its foot and the border round it. Its sections lie level, its middle line along the axis. */
function layRod(
  builder: SolidBuilder,
  centre: { readonly x: number; readonly y: number },
  axis: Vec3,
  { border, bearing }: { readonly border: readonly number[]; readonly bearing: readonly number[] },
): void {
  const ring = (along: number, radius: number): number[] =>
    Array.from({ length: ROD_SIDES }, (_, side) => {
      const angle = (2 * Math.PI * side) / ROD_SIDES;
      return builder.corner(
        centre.x + axis[0] * along + radius * Math.cos(angle),
        centre.y + axis[1] * along + radius * Math.sin(angle),
        FOOT_MM + axis[2] * along,
      );
    });
  const foot = ring(0, ROD_FOOT_MM);
  const tip = ring(ROD_MM, ROD_TIP_MM);
  const end = builder.corner(centre.x + axis[0] * ROD_MM, centre.y + axis[1] * ROD_MM, FOOT_MM + axis[2] * ROD_MM);
  for (let side = 0; side < ROD_SIDES; side++) {
    const after = (side + 1) % ROD_SIDES;
    builder.quad(foot[side]!, foot[after]!, tip[after]!, tip[side]!);
    builder.triangle(tip[side]!, tip[after]!, end);
  }
  // Both rings seen from the middle, in order of bearing: at every step the one that is behind goes on.
  const first = bearing.reduce((least, angle, at) => (turned(angle) < turned(bearing[least]!) ? at : least), 0);
  const around = bearing.length;
  let [outer, inner] = [0, 0];
  const outerAngle = (step: number): number => turned(bearing[(first + step) % around]!) + (step >= around ? 2 * Math.PI : 0);
  const innerAngle = (step: number): number => (2 * Math.PI * step) / ROD_SIDES;
  while (outer < around || inner < ROD_SIDES) {
    const here = border[(first + outer) % around]!;
    const within = foot[inner % ROD_SIDES]!;
    if (inner === ROD_SIDES || (outer < around && outerAngle(outer + 1) <= innerAngle(inner + 1))) {
      builder.triangle(within, here, border[(first + outer + 1) % around]!);
      outer += 1;
    } else {
      builder.triangle(within, here, foot[(inner + 1) % ROD_SIDES]!);
      inner += 1;
    }
  }
}

/** From 0 to 2π. */
const turned = (angle: number): number => (angle < 0 ? angle + 2 * Math.PI : angle);

function layTray(builder: SolidBuilder, foot: Foot): void {
  const side = (first: number, last: number): number[] => [
    first - CLEARANCE_MM - TRAY_WALL_MM,
    first - CLEARANCE_MM,
    last - NOTCH_CELLS * CELL_MM + CLEARANCE_MM,
    last + CLEARANCE_MM,
    last + CLEARANCE_MM + TRAY_WALL_MM,
  ];
  const half = (foot.columns / 2) * CELL_MM;
  layCellBlock(builder, {
    xsMm: side(-half, half),
    ysMm: side(-foot.home.row * CELL_MM, (foot.rows - foot.home.row) * CELL_MM),
    levelsMm: [0, TRAY_HIGH_MM],
    level: (column, row) => (column === 0 || column === 3 || row === 0 || row === 3 || (column === 2 && row === 2) ? 1 : 0),
  });
}
