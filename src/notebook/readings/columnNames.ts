/** How the columns are headed on the page and heard by those who do not see the heading. */
import type { LengthUnit, SidewaysEntry } from '../entry';
import { sidewaysLabel } from '../entry';
import { COLUMN_IDS, type ColumnId, type ReadingColumn } from '../../records/readingCell';
import { readingColumn } from '../../records/readingColumns';

export interface ColumnEntry {
  readonly sideways: SidewaysEntry;
  readonly unit: LengthUnit;
}

/** Under the group's heading, or alone: short, since the columns are narrow. */
export function columnHeading(id: ColumnId, entry: ColumnEntry): string {
  if (id === 'travelRight') return SIDEWAYS[entry.sideways];
  if (id === 'travelSd' && entry.unit !== 'mm') return 'deviation, mm';
  return HEADINGS[id] ?? readingColumn(id).label;
}

export interface HeadingGroup {
  /** Null for a column that stands by itself. */
  readonly group: ReadingColumn['group'];
  readonly heading: string;
  readonly columns: readonly ColumnId[];
}

/** Neighbours of one group under one heading. */
export function headingGroups(columns: readonly ColumnId[], entry: ColumnEntry): readonly HeadingGroup[] {
  const groups: { group: ReadingColumn['group']; heading: string; columns: ColumnId[] }[] = [];
  for (const id of columns) {
    const { group } = readingColumn(id);
    const last = groups.at(-1);
    if (group !== null && last?.group === group) last.columns.push(id);
    else groups.push({ group, heading: group === null ? columnHeading(id, entry) : groupHeading(group, entry), columns: [id] });
  }
  return groups;
}

/** "travel up, mm", "ease": after the note's name. */
export function heardNames(entry: ColumnEntry): Readonly<Record<ColumnId, string>> {
  return Object.fromEntries(COLUMN_IDS.map((id) => [id, heardName(id, entry)])) as Record<ColumnId, string>;
}

function heardName(id: ColumnId, entry: ColumnEntry): string {
  if (id === 'travelUp') return `travel up, ${entry.unit}`;
  if (id === 'travelRight') return `travel ${sidewaysLabel(entry.sideways)}, ${entry.unit}`;
  if (id === 'hornUp') return 'horn measured up, °';
  if (id === 'hornRight') return 'horn measured to the player’s right, °';
  if (id === 'hornRightSd') return 'deviation of the horn measured to the player’s right, °';
  const { header } = readingColumn(id);
  return header.slice(0, 1).toLowerCase() + header.slice(1).replace(/ \((.*)\)$/, ', $1');
}

const SIDEWAYS: Readonly<Record<SidewaysEntry, string>> = {
  player: 'right',
  mirror: 'right in mirror',
  facing: 'right, facing',
};

const HEADINGS: Readonly<Partial<Record<ColumnId, string>>> = {
  note: 'Note',
  take: 'Take',
  direction: 'Direction',
  airstream: 'Airstream',
  upperLipShare: 'Upper-lip share',
  ease: 'Ease, 1–5',
  remark: 'Remark',
  method: 'Measured',
  force: 'Force, N',
  jawHinge: 'turned, °',
  jawOpening: 'opening, mm',
  jawForward: 'forward, mm',
};

function groupHeading(group: NonNullable<ReadingColumn['group']>, { unit }: ColumnEntry): string {
  if (group === 'Travel') return `Travel in, ${unit}`;
  return group === 'Horn' ? 'Horn measured, °' : 'Jaw';
}

/** Room for what is usually typed there, rem. */
export const COLUMN_WIDTH_REM: Readonly<Record<ColumnId, number>> = {
  ...{ note: 4, take: 2.75, direction: 6, travelUp: 3.75, travelRight: 3.75, travelSd: 4.5 },
  ...{ hornUp: 3.75, hornRight: 3.75, hornSd: 4.5, hornRightSd: 4.5, airstream: 5.5, upperLipShare: 4.5, ease: 2.75, remark: 12, method: 4.5 },
  ...{ jawOpening: 4.25, jawForward: 4.25, jawHinge: 4.25, force: 4 },
};
export const SWING_WIDTH_REM = 3;
