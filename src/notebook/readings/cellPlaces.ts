/** Where the cells of the table stand, for going from one to the next. */

export type CellElement = HTMLInputElement | HTMLSelectElement;

/** The cell that an event came from; null where it came from something else in the table. */
export function cellFrom(target: EventTarget): CellElement | null {
  const isField = target instanceof HTMLInputElement || target instanceof HTMLSelectElement;
  return isField && target.dataset['cell'] !== undefined ? target : null;
}

/** The row's place among the readings. */
export function rowOf(cell: CellElement): number {
  return Number(cell.closest<HTMLElement>('[data-reading]')?.dataset['reading'] ?? -1);
}

/** The cell of a row and a column, or null where there is none. */
export function cellAt(table: HTMLElement | null, row: number, column: string): CellElement | null {
  return table?.querySelector<CellElement>(`[data-reading="${row}"] [data-cell="${column}"]`) ?? null;
}

/** The cell `by` columns further in the same row; null at its end. */
export function cellBeside(cell: CellElement, by: -1 | 1): CellElement | null {
  const cells = cellsOfRow(cell);
  return cells[cells.indexOf(cell) + by] ?? null;
}

export function cellsOfRow(cell: CellElement): readonly CellElement[] {
  return [...(cell.closest('tr')?.querySelectorAll<CellElement>('[data-cell]') ?? [])];
}

/** Goes to a cell with all of its text marked, so that typing replaces it. */
export function goTo(cell: CellElement | null): boolean {
  if (cell === null) return false;
  cell.focus();
  if (cell instanceof HTMLInputElement) cell.select();
  return true;
}
