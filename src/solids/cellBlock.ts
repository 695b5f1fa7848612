/**
 * A block with a flat bottom, cut into rectangular cells that stand at one of a few heights: the foot of a peg with its raised letters, the tray.
 * Every corner lies on the lines of the cells, so that neighbours meet edge to edge.
 */
import type { SolidBuilder } from './solid';

export interface CellBlock {
  /** Lines between the cells, rising, mm. */
  readonly xsMm: readonly number[];
  readonly ysMm: readonly number[];
  /** z of each level, rising; level 0 is the bottom, where there is no cell. */
  readonly levelsMm: readonly number[];
  level(column: number, row: number): number;
  /** Cells whose top is left open. */
  isOpen?(column: number, row: number): boolean;
}

/** Lays the block; returns how to find its corners by line and level. */
export function layCellBlock(builder: SolidBuilder, { xsMm, ysMm, levelsMm, level, isOpen }: CellBlock): (x: number, y: number, level: number) => number {
  const corners = new Map<number, number>();
  const corner = (x: number, y: number, at: number): number => {
    const key = (x * (ysMm.length + 1) + y) * (levelsMm.length + 1) + at;
    const known = corners.get(key);
    if (known !== undefined) return known;
    const made = builder.corner(xsMm[x]!, ysMm[y]!, levelsMm[at]!);
    corners.set(key, made);
    return made;
  };
  const [columns, rows] = [xsMm.length - 1, ysMm.length - 1];
  const at = (column: number, row: number): number =>
    column < 0 || row < 0 || column >= columns || row >= rows ? 0 : level(column, row);
  for (let column = 0; column <= columns; column++) {
    for (let row = 0; row <= rows; row++) {
      const here = at(column, row);
      if (here > 0) {
        builder.quad(corner(column, row, 0), corner(column, row + 1, 0), corner(column + 1, row + 1, 0), corner(column + 1, row, 0));
        if (isOpen?.(column, row) !== true) builder.quad(corner(column, row, here), corner(column + 1, row, here), corner(column + 1, row + 1, here), corner(column, row + 1, here));
      }
      if (row < rows) {
        const before = at(column - 1, row);
        const [low, high] = [Math.min(here, before), Math.max(here, before)];
        if (here < before) builder.quad(corner(column, row, low), corner(column, row + 1, low), corner(column, row + 1, high), corner(column, row, high));
        if (here > before) builder.quad(corner(column, row + 1, low), corner(column, row, low), corner(column, row, high), corner(column, row + 1, high));
      }
      if (column < columns) {
        const below = at(column, row - 1);
        const [low, high] = [Math.min(here, below), Math.max(here, below)];
        if (here < below) builder.quad(corner(column + 1, row, low), corner(column, row, low), corner(column, row, high), corner(column + 1, row, high));
        if (here > below) builder.quad(corner(column, row, low), corner(column + 1, row, low), corner(column + 1, row, high), corner(column, row, high));
      }
    }
  }
  return corner;
}
