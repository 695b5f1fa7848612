/** How the columns are headed on the page and heard by those who do not see the heading. */
import type { LengthUnit, SidewaysEntry } from '../entry';
import { sidewaysLabel } from '../entry';
import { COLUMN_IDS, type ColumnId, type ReadingColumn } from '../../records/readingCell';
import { readingColumn } from '../../records/readingColumns';
import { sayReadings } from '../../words/readings';

export interface ColumnEntry {
  readonly sideways: SidewaysEntry;
  readonly unit: LengthUnit;
}

/** Under the group's heading, or alone: short, since the columns are narrow. */
export function columnHeading(id: ColumnId, entry: ColumnEntry): string {
  if (id === 'travelRight') return sayReadings(`right-${entry.sideways}`);
  if (id === 'travelSd' && entry.unit !== 'mm') return sayReadings('travelSdHeading');
  if (id === 'travelRightSd' && entry.unit !== 'mm') return sayReadings('travelRightSdHeading');
  return isHeadedApart(id) ? sayReadings(`${id}Heading`) : readingColumn(id).label;
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
  return sayReadings(`${id}Heard`, { unit: unitWords(entry.unit), sideways: sidewaysLabel(entry.sideways) });
}

/** Those that are not headed by a file's own short word. */
const HEADED_APART = [
  ...['note', 'take', 'direction', 'airstream', 'upperLipShare', 'ease', 'remark', 'method', 'force', 'jawHinge', 'jawOpening', 'jawForward'] as const,
];
const isHeadedApart = (id: ColumnId): id is (typeof HEADED_APART)[number] => HEADED_APART.some((one) => one === id);

const unitWords = (unit: LengthUnit): string => sayReadings(unit === 'mm' ? 'mm' : 'rimWidths');

function groupHeading(group: NonNullable<ReadingColumn['group']>, { unit }: ColumnEntry): string {
  if (group === 'Travel') return sayReadings('travelGroup', { unit: unitWords(unit) });
  return sayReadings(group === 'Horn' ? 'hornGroup' : 'jawGroup');
}

/** Room for what is usually typed there and for the longest part of the heading that is not broken, rem. */
export function columnWidthRem(id: ColumnId, entry: ColumnEntry): number {
  const longest = Math.max(...columnHeading(id, entry).split(BREAKS).map(({ length }) => length));
  return Math.max(TYPED_WIDTH_REM[id], longest * HEADING_LETTER_REM + CELL_PADDING_REM);
}

/** A heading may be broken at a space and, with a hyphen that counts as a letter, at a soft hyphen. */
const BREAKS = /\s|(?<=\u00ad)/;
const HEADING_LETTER_REM = 0.38;
const CELL_PADDING_REM = 0.6;

const TYPED_WIDTH_REM: Readonly<Record<ColumnId, number>> = {
  ...{ note: 4, take: 2.75, direction: 6, travelUp: 3.75, travelRight: 3.75, travelSd: 4.5, travelRightSd: 4.5 },
  ...{ hornUp: 3.75, hornRight: 3.75, hornSd: 4.5, hornRightSd: 4.5, airstream: 5.25, upperLipShare: 4.5, ease: 2.75, remark: 12, method: 4.5 },
  ...{ jawOpening: 4.25, jawForward: 4.25, jawHinge: 4.25, force: 4 },
};
export const SWING_WIDTH_REM = 2.75;
