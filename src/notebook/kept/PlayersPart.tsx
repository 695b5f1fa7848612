import type { ReactNode } from 'react';
import { AskOnce } from './AskOnce';
import type { KeepingWords, KeptPlayer } from './props';
import { focusHeading } from '../focusHeading';
import { dayWords } from '../../print/sheetText';
import { counted } from '../../core/words';

export interface PlayersPartProps {
  readonly players: readonly KeptPlayer[];
  readonly openId: string;
  readonly keeping: KeepingWords;
  /** Labels of players deleted since the page was opened, which can be put back; the last one first. */
  readonly deleted: readonly { readonly id: string; readonly label: string }[];
  /** What is kept but cannot be read: why, and a way to have it as it is. */
  readonly damaged: readonly { readonly id: string; readonly message: string }[];
  onSaveDamaged(id: string): void;
  onOpen(id: string): void;
  onDelete(id: string): void;
  onPutBack(id: string): void;
  /** Asks the other tab to let go of this player; null where there is none. */
  readonly onTakeOver: (() => void) | null;
}

/** Everybody who is kept in this browser. */
export function PlayersPart(props: PlayersPartProps): ReactNode {
  const { players, openId, keeping, deleted, damaged, onSaveDamaged, onOpen, onDelete, onPutBack, onTakeOver } = props;
  return (
    <div className="part">
      <h3>Players kept in this browser</h3>
      <Keeping keeping={keeping} onTakeOver={onTakeOver} />
      {players.length === 0 ? (
        <p className="note">Nobody yet. An invented player is kept once something of it has been changed.</p>
      ) : (
        <ul className="kept-list">
          {players.map((player) => (
            <li key={player.id} className="kept-list__row" aria-current={player.id === openId ? 'true' : undefined}>
              <span className="kept-list__name">
                {player.label === '' ? 'Without a label' : player.label}
                {player.id === openId ? <span className="kept-list__open"> (open)</span> : null}
              </span>
              <span className="note">
                {player.instrumentName}, {counted(player.lessons, 'lesson')}
                {player.lastDate === null ? '' : `, last ${dayWords(player.lastDate)}`}
              </span>
              <span className="kept-list__actions">
                {player.id === openId ? null : (
                  <button type="button" className="quiet" onClick={() => onOpen(player.id)}>
                    Open<span className="only-heard"> {player.label}</span>
                  </button>
                )}
                <AskOnce
                  what={player.label === '' ? 'this player' : player.label}
                  consequence="Until this page is closed it can be put back, but films that were kept with it are forgotten at once."
                  onYes={() => onDelete(player.id)}
                />
              </span>
            </li>
          ))}
        </ul>
      )}
      {damaged.map(({ id, message }) => (
        <p key={id} className="note kept-list__damaged">
          {message}.{' '}
          <button type="button" className="quiet" onClick={() => onSaveDamaged(id)}>
            Save it as a file<span className="only-heard">, as it is kept: {id}</span>
          </button>
        </p>
      ))}
      {deleted.map(({ id, label }) => (
        <p key={id} className="note">
          Deleted: {label === '' ? 'a player without a label' : label}.{' '}
          <button
            type="button"
            className="quiet"
            onClick={({ currentTarget }) => {
              focusHeading(currentTarget);
              onPutBack(id);
            }}
          >
            Put {label === '' ? 'it' : label} back
          </button>
        </p>
      ))}
      <p className="note">
        A label or initials suffice; players may be minors, and a full name needs their consent or that of their parents. Everything stays
        on this machine: nothing is sent anywhere.
      </p>
    </div>
  );
}

/** Whether the last change is safe, and the way back to a player that is open in another tab. */
export function Keeping({ keeping, onTakeOver }: Pick<PlayersPartProps, 'keeping' | 'onTakeOver'>): ReactNode {
  const warns = keeping.state === 'not-kept' || keeping.state === 'elsewhere';
  return (
    <p role="status" className={warns ? 'keeping keeping--warns' : 'keeping'}>
      <span>{keeping.words}</span>
      {onTakeOver === null ? null : (
        <button
          type="button"
          onClick={({ currentTarget }) => {
            focusHeading(currentTarget);
            onTakeOver();
          }}
        >
          Go on here
        </button>
      )}
    </p>
  );
}
