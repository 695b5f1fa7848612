import type { ReactNode } from 'react';
import type { HornAngles } from '../../core/analysis';
import { isAngleSeen, seenAngles } from '../../core/readings';
import type { NoteCompared, SeenAtNote, TryOutCompared } from '../../core/tryOutShapes';
import { sayTryOuts } from '../../words/tryOuts';
import { TravelAndHornHeads, UpAndRightHeads } from '../TravelAndHornHeads';
import { formatFixed } from '../numberText';
import { partOf, textWithParts } from '../textWithParts';
import { airWords, easeWords, marginText } from './words';

export interface ComparisonTableProps {
  readonly compared: TryOutCompared;
  readonly name: string;
  noteLabel(note: string): string;
}

/** Note by note, as usual above and tried below, with the horn's change as expected and as seen. Up, and to the player's own right. */
export function ComparisonTable({ compared, name, noteLabel }: ComparisonTableProps): ReactNode {
  const tried = compared.notes.filter((one) => one.tried !== null);
  if (tried.length === 0) return null;
  return (
    <>
      {/* On a narrow page it is moved sideways, by keys as well. */}
      <div className="wide-table" role="group" aria-label={sayTryOuts('compared', { name })} tabIndex={0}>
        <table className="comparison">
          <caption className="only-heard">{sayTryOuts('caption', { name })}</caption>
          <thead>
            <tr>
              <th scope="col" rowSpan={2}>
                {sayTryOuts('note')}
              </th>
              <th scope="col" rowSpan={2}>
                {sayTryOuts('played')}
              </th>
              <TravelAndHornHeads />
              <th scope="col" rowSpan={2}>
                {sayTryOuts('air')}
              </th>
              <th scope="col" rowSpan={2}>
                {sayTryOuts('ease')}
              </th>
              <th scope="colgroup" colSpan={2}>
                {sayTryOuts('hornChange')}
              </th>
            </tr>
            <tr>
              <UpAndRightHeads pairs={3} />
            </tr>
          </thead>
          {tried.map((one) => (
            <NoteRows key={`${one.midi} ${one.direction ?? ''}`} one={one} label={noteLabel(one.note)} />
          ))}
        </table>
      </div>
      <p className="note">
        {textWithParts(sayTryOuts('countedNote', { from: compared.countedFrom, expected: partOf('expected'), seen: partOf('seen') }), {
          expected: <span className="predicted-ink">{sayTryOuts('expected')}</span>,
          seen: <span className="measured-ink">{sayTryOuts('seen')}</span>,
        })}
      </p>
    </>
  );
}

function NoteRows({ one, label }: { readonly one: NoteCompared; readonly label: string }): ReactNode {
  const way = one.direction === null ? '' : one.direction === 'up' ? ' ↑' : ' ↓';
  const heard = one.direction === null ? '' : sayTryOuts(one.direction === 'up' ? 'ascending' : 'descending');
  const { expected, seen } = one;
  return (
    <tbody>
      <tr>
        <th scope="rowgroup" rowSpan={2}>
          {label}
          <span aria-hidden="true">{way}</span>
          <span className="only-heard">{heard}</span>
        </th>
        <th scope="row">{sayTryOuts('asUsual')}</th>
        <SeenCells seen={one.asUsual} />
        <ChangeCells change={expected?.hornChange ?? null} kind="expected" />
      </tr>
      <tr>
        <th scope="row">{sayTryOuts('tried')}</th>
        <SeenCells seen={one.tried} />
        <ChangeCells change={seen} kind="seen" />
      </tr>
    </tbody>
  );
}

const NOT_SEEN = '–';

function SeenCells({ seen }: { readonly seen: SeenAtNote | null }): ReactNode {
  const { travel, horn } = seen ?? { travel: null, horn: null };
  const angles = horn && seenAngles(horn);
  return (
    <>
      <Figure value={travel?.upMm} />
      <Figure value={travel?.rightMm} />
      <Figure value={angles?.elevationDeg} />
      <Figure value={angles?.lateralDeg} />
      <td>{airWords(seen)}</td>
      <td className="figure">{easeWords(seen)}</td>
    </>
  );
}

interface ChangeCellsProps {
  readonly change: (HornAngles & { readonly elevationSdDeg: number; readonly lateralSdDeg: number }) | null;
  readonly kind: 'expected' | 'seen';
}

function ChangeCells({ change, kind }: ChangeCellsProps): ReactNode {
  const ink = kind === 'expected' ? 'predicted-ink' : 'measured-ink';
  return (
    <>
      <td className={`figure ${ink}`}>
        <span className="only-heard">{sayTryOuts('kindHeard', { kind: sayTryOuts(kind) })}</span>
        {change === null || !isAngleSeen(change.elevationSdDeg) ? NOT_SEEN : `${formatFixed(change.elevationDeg, 1)}${marginText(change.elevationSdDeg)}`}
      </td>
      <td className={`figure ${ink}`}>
        <span className="only-heard">{sayTryOuts('kindHeard', { kind: sayTryOuts(kind) })}</span>
        {change === null || !isAngleSeen(change.lateralSdDeg) ? NOT_SEEN : `${formatFixed(change.lateralDeg, 1)}${marginText(change.lateralSdDeg)}`}
      </td>
    </>
  );
}

function Figure({ value }: { readonly value: number | null | undefined }): ReactNode {
  return <td className="figure">{value == null ? NOT_SEEN : formatFixed(value, 1)}</td>;
}
