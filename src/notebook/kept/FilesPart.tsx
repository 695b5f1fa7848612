import { type ReactNode, useId, useRef } from 'react';
import { focusHeading } from '../focusHeading';
import type { IncomingChoice, IncomingPlayer } from './props';

export interface FilesPartProps {
  readonly label: string;
  readonly keptCount: number;
  /** What a chosen file would change; null: none was chosen. */
  readonly incoming: { readonly fileName: string; readonly players: readonly IncomingPlayer[] } | null;
  /** Why a file was refused, or what was taken in; null: nothing to say. */
  readonly message: { readonly kind: 'refused' | 'done'; readonly words: string } | null;
  onSaveThis(): void;
  onSaveAll(): void;
  onFile(file: File): void;
  onChoice(id: string, choice: IncomingChoice): void;
  onTakeIn(): void;
  onLeave(): void;
}

const CHOICES: Readonly<Record<IncomingPlayer['kind'], readonly { readonly value: IncomingChoice; readonly label: string }[]>> = {
  new: [
    { value: 'take', label: 'Add' },
    { value: 'leave', label: 'Leave out' },
  ],
  same: [
    { value: 'leave', label: 'Leave as it is' },
    { value: 'both', label: 'Keep a second one' },
  ],
  changes: [
    { value: 'both', label: 'Keep both' },
    { value: 'take', label: 'Replace the one kept here' },
    { value: 'leave', label: 'Leave out' },
  ],
};

/** Players as files: saved by choice, and taken in only after what would change was shown. */
export function FilesPart(props: FilesPartProps): ReactNode {
  const { label, keptCount, incoming, message } = props;
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  return (
    <div className="part">
      <h3>Files</h3>
      <p className="button-row button-row--wraps">
        <button type="button" onClick={props.onSaveThis}>
          Save {label === '' ? 'this player' : label} as a file
        </button>
        <button type="button" disabled={keptCount === 0} onClick={props.onSaveAll}>
          Save all players as one file
        </button>
        <button type="button" onClick={() => input.current?.click()}>
          Open a file
        </button>
        <input
          ref={input}
          id={id}
          type="file"
          accept=".json,application/json"
          className="only-heard"
          tabIndex={-1}
          aria-label="Player file"
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            if (file !== undefined) props.onFile(file);
            // The same file may be chosen again.
            event.target.value = '';
          }}
        />
      </p>
      <div role="status">
        {message === null ? null : (
          <p className={message.kind === 'refused' ? 'keeping keeping--warns' : 'keeping'}>
            {message.kind === 'refused' ? <strong>Not opened. </strong> : null}
            {message.words}
          </p>
        )}
      </div>
      {incoming === null ? null : <Incoming {...props} incoming={incoming} />}
      <p className="note">A file holds remarks and labels as they are here. Give it only to those who may read them.</p>
    </div>
  );
}

function Incoming({ incoming, onChoice, onTakeIn, onLeave }: FilesPartProps & { readonly incoming: NonNullable<FilesPartProps['incoming']> }): ReactNode {
  const taken = incoming.players.filter(({ choice }) => choice !== 'leave').length;
  return (
    <div className="incoming" role="group" aria-label={`What ${incoming.fileName} would change`}>
      <p>
        <strong>{incoming.fileName}</strong> has {incoming.players.length === 1 ? 'one player' : `${incoming.players.length} players`}. Nothing has
        been changed yet.
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
          {taken === 1 ? 'Take in one player' : `Take in ${taken} players`}
        </button>
        <button
          type="button"
          onClick={({ currentTarget }) => {
            focusHeading(currentTarget);
            onLeave();
          }}
        >
          Leave everything as it is
        </button>
      </p>
    </div>
  );
}

const KIND_WORDS: Readonly<Record<IncomingPlayer['kind'], string>> = {
  new: 'not kept here yet',
  same: 'kept here already, just the same',
  changes: 'kept here already, with differences',
};

function IncomingRow({ player, onChoice }: { readonly player: IncomingPlayer; onChoice: FilesPartProps['onChoice'] }): ReactNode {
  const id = useId();
  return (
    <li className="kept-list__row">
      <span className="kept-list__name">{player.label === '' ? 'Without a label' : player.label}</span>
      <span className="note">{KIND_WORDS[player.kind]}</span>
      <span className="picker kept-list__actions">
        <label htmlFor={id} className="only-heard">
          What to do with {player.label}
        </label>
        <select id={id} value={player.choice} onChange={(event) => onChoice(player.id, event.target.value as IncomingChoice)}>
          {CHOICES[player.kind].map(({ value, label }) => (
            <option key={value} value={value}>
              {label}
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
