import type { ReactNode } from 'react';
import type { PlayerRecord } from '../core/specs';
import { Choice } from '../notebook/Choice';
import { defaultRecord } from '../records/library';
import { notebookLibrary } from './library';
import { useApp, useSession } from './SessionContext';

const THEMES = [
  { value: 'paper', label: 'Paper' },
  { value: 'projector', label: 'Projector' },
] as const;

/** A new player starts on the instrument that is on the page, when the library knows it. */
function newRecord(instrument: string): ReturnType<typeof defaultRecord> {
  const known = notebookLibrary.instruments.some((one) => one.id === instrument);
  return defaultRecord(known ? instrument : (notebookLibrary.instruments[0]?.id ?? instrument));
}

export function Header(): ReactNode {
  const { store, selectReading } = useSession();
  const theme = useApp((state) => state.settings.theme);
  const canUndo = useApp((state) => state.history.past.length > 0);
  const canRedo = useApp((state) => state.history.future.length > 0);
  const instrument = useApp((state) => state.record.player.instrument);
  const { change, undo, redo, set } = store.getState();
  const open = (record: PlayerRecord): void => {
    change(record);
    selectReading(0);
  };
  return (
    <header className="masthead">
      <h1 className="wordmark">Rimpath</h1>
      <div className="masthead__group" role="group" aria-label="Whose record">
        <button
          type="button"
          className="primary"
          onClick={() => {
            open(newRecord(instrument));
            document.getElementById('player-label')?.focus();
          }}
        >
          Start your own player
        </button>
      </div>
      <div className="masthead__group" role="group" aria-label="Invented players to look at">
        <span className="masthead__label">Invented players:</span>
        {notebookLibrary.players.map((player) => (
          <button key={player.id} type="button" className="quiet" onClick={() => open(player.record)}>
            {player.name.replace(/^Invented player who | to ascend$/g, '')}
          </button>
        ))}
      </div>
      <div className="masthead__group masthead__steps" role="group" aria-label="Steps back and forward">
        <button type="button" className="quiet" disabled={!canUndo} onClick={undo}>
          Undo
        </button>
        <button type="button" className="quiet" disabled={!canRedo} onClick={redo}>
          Redo
        </button>
      </div>
      <Choice legend="Theme" legendHidden options={THEMES} value={theme} onChange={(next) => set({ theme: next })} />
    </header>
  );
}
