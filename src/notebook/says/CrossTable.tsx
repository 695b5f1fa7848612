/** A teacher's own players side by side, as counts: the way of the rim against the way of the air, and against the horn. */
import { type ReactNode, useId } from 'react';
import {
  type CrossTable as Counts,
  type PlayerObservations,
  type WaySeen,
  crossWithAir,
  crossWithSwing,
} from '../../core/findings/crossTable';
import { saySays } from '../../words/says';
import './says.css';

export interface CrossTableProps {
  readonly players: readonly PlayerObservations[];
}

/** Below so many players a count says hardly anything. */
const FEW_PLAYERS = 20;

export function CrossTable({ players }: CrossTableProps): ReactNode {
  return (
    <div className="part">
      <p>{crossWords(players.length)}</p>
      <OneTable caption={saySays('crossAir')} table={crossWithAir(players)} words={(air) => saySays(`air-${air}`)} />
      <OneTable caption={saySays('crossSwing')} table={crossWithSwing(players)} words={(swing) => saySays(`swing-${swing}`)} />
    </div>
  );
}

/** Whose players these are, and what their number is worth. */
export function crossWords(players: number): string {
  const own = saySays('ownPlayers', { count: players });
  return players < FEW_PLAYERS ? `${own} ${saySays('soFew')}` : own;
}

const WAYS = {
  'pushes-up': 'way-pushes-up',
  'pulls-down': 'way-pulls-down',
  'to-the-side': 'way-to-the-side',
} as const satisfies Record<WaySeen, string>;

interface OneTableProps<Column extends string> {
  readonly caption: string;
  readonly table: Counts<Column>;
  words(column: Column): string;
}

function OneTable<Column extends string>({ caption, table, words }: OneTableProps<Column>): ReactNode {
  const id = useId();
  return (
    <div>
      <h4 className="cross-table__title" id={id}>{caption}</h4>
      {/* It may be wider than a phone: then it scrolls by itself, by touch and by keys. */}
      <div className="cross-table cross-table--counts" role="group" aria-labelledby={id} tabIndex={0}>
        <table className="figures" aria-labelledby={id}>
          <thead>
            <tr>
              <th scope="col">{saySays('rim')}</th>
              {table.columns.map((column) => (
                <th key={column ?? ''} scope="col">
                  {column === null ? saySays('cannotTellHead') : words(column)}
                </th>
              ))}
              <th scope="col">{saySays('all')}</th>
            </tr>
          </thead>
          <tbody>
            {table.rows.map((row, at) => (
              <tr key={row ?? ''}>
                <th scope="row">{row === null ? saySays('cannotTellHead') : saySays(WAYS[row])}</th>
                {table.counts[at]!.map((count, column) => (
                  <td key={column} className={count === 0 ? 'figure says-total' : 'figure'}>{count}</td>
                ))}
                <td className="figure says-total">{table.rowTotals[at]}</td>
              </tr>
            ))}
            <tr className="says-total">
              <th scope="row">{saySays('all')}</th>
              {table.columnTotals.map((count, column) => (
                <td key={column} className={count === 0 ? 'figure says-total' : 'figure'}>{count}</td>
              ))}
              <td className="figure">{table.total}</td>
            </tr>
          </tbody>
        </table>
      </div>
    </div>
  );
}
