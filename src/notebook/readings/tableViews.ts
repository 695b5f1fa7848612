/** Which columns of the readings stand side by side: few enough to be seen at once in a lesson, or all of them. */
import { COLUMN_IDS, type ColumnId } from '../../records/readingCell';
import { sayReadings } from '../../words/readings';

export const TABLE_VIEWS = ['lesson', 'travel', 'horn', 'air', 'jaw', 'all'] as const;
export type TableView = (typeof TABLE_VIEWS)[number];

export const tableViewChoices = (): readonly { readonly value: TableView; readonly label: string }[] => [
  { value: 'lesson', label: sayReadings('viewLesson') },
  { value: 'travel', label: sayReadings('viewTravel') },
  { value: 'horn', label: sayReadings('viewHorn') },
  { value: 'air', label: sayReadings('viewAir') },
  { value: 'jaw', label: sayReadings('viewJaw') },
  { value: 'all', label: sayReadings('viewAll') },
];

export interface ShownColumns {
  readonly columns: readonly ColumnId[];
  /** Whether the predicted swing stands at the end of each row: where there is room for it without moving the table at a notebook's usual width. */
  readonly swing: boolean;
}

export function shownColumns(view: TableView): ShownColumns {
  return SHOWN[view];
}

/** A file's order, except that the two deviations of the travel, and those of the horn, stand side by side. */
const BESIDE: Readonly<Partial<Record<ColumnId, ColumnId>>> = { hornSd: 'hornRightSd', travelSd: 'travelRightSd' };
const EVERY_COLUMN = COLUMN_IDS.filter((id) => id !== 'hornRightSd' && id !== 'travelRightSd').flatMap((id) => [id, ...(BESIDE[id] === undefined ? [] : [BESIDE[id]])]);

const SHOWN: Readonly<Record<TableView, ShownColumns>> = {
  lesson: { columns: ['note', 'take', 'travelUp', 'travelRight', 'hornUp', 'hornRight', 'airstream', 'ease'], swing: true },
  travel: { columns: ['note', 'take', 'direction', 'travelUp', 'travelRight', 'travelSd', 'travelRightSd', 'method'], swing: false },
  horn: { columns: ['note', 'take', 'direction', 'hornUp', 'hornRight', 'hornSd', 'hornRightSd'], swing: true },
  air: { columns: ['note', 'take', 'airstream', 'upperLipShare', 'ease', 'remark'], swing: false },
  jaw: { columns: ['note', 'take', 'jawOpening', 'jawForward', 'jawHinge', 'force'], swing: true },
  all: { columns: EVERY_COLUMN, swing: true },
};
