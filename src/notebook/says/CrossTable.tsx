/** A teacher's own players side by side, as counts: the way of the rim against the way of the air, and against the horn. */
import { counted } from '../../core/words';
import { type ReactNode, useId } from 'react';
import {
  type AirSeen,
  type CrossTable as Counts,
  type PlayerObservations,
  type SwingSeen,
  type WaySeen,
  crossWithAir,
  crossWithSwing,
} from '../../core/findings/crossTable';
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
      <OneTable caption="Which way the rim goes to ascend, and which way the air goes" table={crossWithAir(players)} words={AIR_WORDS} />
      <OneTable caption="Which way the rim goes to ascend, and what the horn does" table={crossWithSwing(players)} words={SWING_WORDS} />
    </div>
  );
}

/** Whose players these are, and what their number is worth. */
export function crossWords(players: number): string {
  const own = `Your own ${counted(players, 'player')}, each by the last lesson: no statistics of players in general.`;
  return players < FEW_PLAYERS ? `${own} So few that the counts say hardly anything about the next one.` : own;
}

const WAY_WORDS: Readonly<Record<WaySeen, string>> = {
  'pushes-up': 'pushed up',
  'pulls-down': 'pulled down',
  'to-the-side': 'mostly to the side',
};
const AIR_WORDS: Readonly<Record<AirSeen, string>> = { down: 'down', up: 'up', changes: 'changes side' };
const SWING_WORDS: Readonly<Record<SwingSeen, string>> = { follows: 'with the arch, wholly or partly', held: 'held still', against: 'against the arch' };
const CANNOT_TELL = 'cannot tell';

interface OneTableProps<Column extends string> {
  readonly caption: string;
  readonly table: Counts<Column>;
  readonly words: Readonly<Record<Column, string>>;
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
              <th scope="col">rim</th>
              {table.columns.map((column) => (
                <th key={column ?? ''} scope="col">
                  {column === null ? CANNOT_TELL : words[column]}
                </th>
              ))}
              <th scope="col">all</th>
            </tr>
          </thead>
          <tbody>
            {table.rows.map((row, at) => (
              <tr key={row ?? ''}>
                <th scope="row">{row === null ? CANNOT_TELL : WAY_WORDS[row]}</th>
                {table.counts[at]!.map((count, column) => (
                  <td key={column} className={count === 0 ? 'figure says-total' : 'figure'}>{count}</td>
                ))}
                <td className="figure says-total">{table.rowTotals[at]}</td>
              </tr>
            ))}
            <tr className="says-total">
              <th scope="row">all</th>
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
