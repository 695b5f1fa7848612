import { type ReactNode, useId, useRef, useState } from 'react';
import { sayKept } from '../../words/kept';
import { sayRecords } from '../../words/records';
import { focusHeading } from '../focusHeading';
import { formatFixed } from '../numberText';
import { partOf, textWithParts } from '../textWithParts';
import type { IncomingChoice, IncomingPlayer } from './props';

export interface FilesPartProps {
  readonly label: string;
  readonly keptCount: number;
  /** What a chosen file would change; null: none was chosen. */
  readonly incoming: { readonly fileName: string; readonly players: readonly IncomingPlayer[] } | null;
  /** Why a file was refused, or what was taken in; null: nothing to say. */
  readonly message: { readonly kind: 'refused' | 'done'; readonly words: string } | null;
  /** Bytes of the player's scan that is kept here; null: none is, or it is too large for a file. */
  readonly scanBytes: number | null;
  onSaveThis(withScan: boolean): void;
  onSaveAll(): void;
  onFile(file: File): void;
  onChoice(id: string, choice: IncomingChoice): void;
  onTakeIn(): void;
  onLeave(): void;
}

const CHOICES = {
  new: [
    { value: 'take', label: 'add' },
    { value: 'leave', label: 'leaveOut' },
  ],
  same: [
    { value: 'leave', label: 'leaveAsIs' },
    { value: 'both', label: 'keepSecond' },
  ],
  changes: [
    { value: 'both', label: 'keepBoth' },
    { value: 'take', label: 'replaceKept' },
    { value: 'leave', label: 'leaveOut' },
  ],
} as const satisfies Readonly<Record<IncomingPlayer['kind'], readonly { readonly value: IncomingChoice; readonly label: string }[]>>;

/** Players as files: saved by choice, and taken in only after what would change was shown. */
export function FilesPart(props: FilesPartProps): ReactNode {
  const { label, keptCount, incoming, message, scanBytes } = props;
  const [withScan, setWithScan] = useState(false);
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  return (
    <div className="part">
      <h3>{sayKept('files')}</h3>
      <p className="button-row button-row--wraps">
        <button type="button" onClick={() => props.onSaveThis(withScan && scanBytes !== null)}>
          {sayKept('saveThis', { named: label === '' ? 'no' : 'yes', label })}
        </button>
        <button type="button" disabled={keptCount === 0} onClick={props.onSaveAll}>
          {sayKept('saveAll')}
        </button>
        <button type="button" onClick={() => input.current?.click()}>
          {sayKept('openFile')}
        </button>
        <input
          ref={input}
          id={id}
          type="file"
          accept=".json,application/json"
          className="only-heard"
          tabIndex={-1}
          aria-label={sayKept('playerFile')}
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            if (file !== undefined) props.onFile(file);
            // The same file may be chosen again.
            event.target.value = '';
          }}
        />
      </p>
      {scanBytes === null ? null : (
        <label className="tick">
          <input type="checkbox" checked={withScan} onChange={(event) => setWithScan(event.target.checked)} />
          {sayRecords('withScan', { size: formatFixed(scanBytes / 1e6, 1) })}
        </label>
      )}
      <div role="status">
        {message === null ? null : (
          <p className={message.kind === 'refused' ? 'keeping keeping--warns' : 'keeping'}>
            {message.kind === 'refused' ? <strong>{sayKept('notOpened')} </strong> : null}
            {message.words}
          </p>
        )}
      </div>
      {incoming === null ? null : <Incoming {...props} incoming={incoming} />}
      <p className="note">{sayKept('fileHolds')}</p>
    </div>
  );
}

function Incoming({ incoming, onChoice, onTakeIn, onLeave }: FilesPartProps & { readonly incoming: NonNullable<FilesPartProps['incoming']> }): ReactNode {
  const taken = incoming.players.filter(({ choice }) => choice !== 'leave').length;
  return (
    <div className="incoming" role="group" aria-label={sayKept('wouldChange', { file: incoming.fileName })}>
      <p>
        {textWithParts(sayKept('fileHas', { file: partOf('file'), count: incoming.players.length }), { file: <strong>{incoming.fileName}</strong> })}
      </p>
      <ul className="kept-list">
        {incoming.players.map((player) => (
          <IncomingRow key={player.id} player={player} onChoice={onChoice} />
        ))}
      </ul>
      <p className="button-row button-row--wraps">
        <button
          type="button"
          className="primary"
          disabled={taken === 0}
          onClick={({ currentTarget }) => {
            focusHeading(currentTarget);
            onTakeIn();
          }}
        >
          {sayKept('takeIn', { count: taken })}
        </button>
        <button
          type="button"
          onClick={({ currentTarget }) => {
            focusHeading(currentTarget);
            onLeave();
          }}
        >
          {sayKept('leaveAll')}
        </button>
      </p>
    </div>
  );
}

function IncomingRow({ player, onChoice }: { readonly player: IncomingPlayer; onChoice: FilesPartProps['onChoice'] }): ReactNode {
  const id = useId();
  return (
    <li className="kept-list__row">
      <span className="kept-list__name">{player.label === '' ? sayKept('noLabel') : player.label}</span>
      <span className="note">{sayKept(`kind-${player.kind}`)}</span>
      <span className="picker kept-list__actions">
        <label htmlFor={id} className="only-heard">
          {sayKept('whatToDo', { label: player.label })}
        </label>
        <select id={id} value={player.choice} onChange={(event) => onChoice(player.id, event.target.value as IncomingChoice)}>
          {CHOICES[player.kind].map(({ value, label }) => (
            <option key={value} value={value}>
              {sayKept(label)}
            </option>
          ))}
        </select>
      </span>
      {player.differences.length === 0 ? null : (
        <ul className="kept-list__differences note">
          {player.differences.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      )}
    </li>
  );
}
