import type { ReactNode } from 'react';
import { dayWords } from '../../words/days';
import { sayKept } from '../../words/kept';
import { AskOnce } from './AskOnce';
import type { KeepingWords, KeptPlayer } from './props';
import { focusHeading } from '../focusHeading';

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
      <h3>{sayKept('players')}</h3>
      <Keeping keeping={keeping} onTakeOver={onTakeOver} />
      {players.length === 0 ? (
        <p className="note">{sayKept('nobody')}</p>
      ) : (
        <ul className="kept-list">
          {players.map((player) => (
            <li key={player.id} className="kept-list__row" aria-current={player.id === openId ? 'true' : undefined}>
              <span className="kept-list__name">
                {player.label === '' ? sayKept('noLabel') : player.label}
                {player.id === openId ? <span className="kept-list__open"> {sayKept('isOpen')}</span> : null}
              </span>
              <span className="note">
                {sayKept('playerLine', {
                  instrument: player.instrumentName,
                  lessons: player.lessons,
                  dated: player.lastDate === null ? 'no' : 'yes',
                  day: dayWords(player.lastDate ?? ''),
                })}
              </span>
              <span className="kept-list__actions">
                {player.id === openId ? null : (
                  <button type="button" className="quiet" onClick={() => onOpen(player.id)}>
                    {sayKept('open')}
                    <span className="only-heard"> {player.label}</span>
                  </button>
                )}
                <AskOnce
                  what={player.label === '' ? sayKept('thisPlayer') : sayKept('named', { label: player.label })}
                  consequence={sayKept('canBePutBack')}
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
            {sayKept('saveDamaged')}
            <span className="only-heard">{sayKept('asKept', { id })}</span>
          </button>
        </p>
      ))}
      {deleted.map(({ id, label }) => (
        <p key={id} className="note">
          {sayKept('deleted', { named: label === '' ? 'no' : 'yes', label })}{' '}
          <button
            type="button"
            className="quiet"
            onClick={({ currentTarget }) => {
              focusHeading(currentTarget);
              onPutBack(id);
            }}
          >
            {sayKept('putBack', { named: label === '' ? 'no' : 'yes', label })}
          </button>
        </p>
      ))}
      <p className="note">{sayKept('privacy')}</p>
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
          {sayKept('goOnHere')}
        </button>
      )}
    </p>
  );
}
