import { type ChangeEvent, type ReactNode, memo } from 'react';
import type { ReadingColumn } from '../../records/readingCell';
import { sayReadings } from '../../words/readings';
import type { CellElement } from './cellPlaces';

export interface CellProps {
  readonly column: ReadingColumn;
  /** The whole name for those who hear it: "F4, travel up, mm". */
  readonly label: string;
  /** As the record has it. */
  readonly text: string;
  /** Shown where the record has nothing, such as the take that is meant. */
  readonly placeholder: string;
  /** What is being typed, or what was typed and could not be taken. */
  readonly typed: string | null;
  readonly isWrong: boolean;
  /** Where it is said what is allowed. */
  readonly describedBy: string | undefined;
  /** Nothing is typed: undoing means the page's step. */
  readonly isResting: boolean;
  readonly isMuted: boolean;
  onType(event: ChangeEvent<CellElement>): void;
}

/** One cell: a plain field or a plain list, so that every browser, phone and screen reader knows what to do with it. */
export const Cell = memo(function Cell(props: CellProps): ReactNode {
  const { column, label, text, typed, isWrong, describedBy, onType } = props;
  const shared = {
    'aria-label': label,
    'aria-invalid': isWrong || undefined,
    'aria-describedby': describedBy,
    'data-cell': column.id,
    onChange: onType,
  } as const;
  if (column.kind === 'choice') {
    return (
      <select {...shared} value={typed ?? text}>
        <option value="" aria-label={sayReadings('notSaid')} />
        {column.choices.map(({ value, word }) => (
          <option key={value} value={word}>
            {word}
          </option>
        ))}
        {typed === null ? null : <option value={typed}>{typed}</option>}
      </select>
    );
  }
  return (
    <input
      {...shared}
      type="text"
      inputMode={INPUT_MODES[column.id] ?? 'text'}
      autoComplete="off"
      spellCheck={column.kind === 'text'}
      data-undo={props.isResting ? 'page' : 'text'}
      data-muted={props.isMuted || undefined}
      placeholder={props.placeholder}
      value={typed ?? text}
    />
  );
});

/** Phones' number pads have no minus sign and, here and there, no comma: only where neither is needed. */
const INPUT_MODES: Readonly<Partial<Record<ReadingColumn['id'], 'numeric' | 'decimal'>>> = {
  take: 'numeric',
  ease: 'numeric',
  travelSd: 'decimal',
  travelRightSd: 'decimal',
  hornSd: 'decimal',
  hornRightSd: 'decimal',
  force: 'decimal',
};
