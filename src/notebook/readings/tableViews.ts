/** Which columns of the readings stand side by side: few enough to be seen at once in a lesson, or all of them. */
import { COLUMN_IDS, type ColumnId } from '../../records/readingCell';

export const TABLE_VIEWS = ['lesson', 'travel', 'horn', 'air', 'jaw', 'all'] as const;
export type TableView = (typeof TABLE_VIEWS)[number];

export const TABLE_VIEW_CHOICES: readonly { readonly value: TableView; readonly label: string }[] = [
  { value: 'lesson', label: 'for a lesson' },
  { value: 'travel', label: 'travel' },
  { value: 'horn', label: 'horn' },
  { value: 'air', label: 'air and ease' },
  { value: 'jaw', label: 'jaw and force' },
  { value: 'all', label: 'all' },
];

export interface ShownColumns {
  readonly columns: readonly ColumnId[];
  /** Whether the predicted swing stands at the end of each row. */
  readonly swing: boolean;
}

export function shownColumns(view: TableView): ShownColumns {
  return SHOWN[view];
}

/** A file's order, except that the two deviations of the horn stand side by side. */
const EVERY_COLUMN = COLUMN_IDS.filter((id) => id !== 'hornRightSd').flatMap((id): ColumnId[] => (id === 'hornSd' ? ['hornSd', 'hornRightSd'] : [id]));

const SHOWN: Readonly<Record<TableView, ShownColumns>> = {
  lesson: { columns: ['note', 'take', 'travelUp', 'travelRight', 'hornUp', 'hornRight', 'airstream', 'ease'], swing: true },
  travel: { columns: ['note', 'take', 'direction', 'travelUp', 'travelRight', 'travelSd', 'method'], swing: true },
  horn: { columns: ['note', 'take', 'direction', 'hornUp', 'hornRight', 'hornSd', 'hornRightSd'], swing: true },
  air: { columns: ['note', 'take', 'airstream', 'upperLipShare', 'ease', 'remark'], swing: false },
  jaw: { columns: ['note', 'take', 'jawOpening', 'jawForward', 'jawHinge', 'force'], swing: true },
  all: { columns: EVERY_COLUMN, swing: true },
};
