import { type ReactNode, useEffect, useId, useRef } from 'react';
import { useStore } from 'zustand';
import { useKept, useRecords } from '../RecordsContext';
import { useApp } from '../SessionContext';
import { besidePicture, besideWords } from '../besideDoor';
import { notebookLibrary } from '../library';
import { BesideSentences } from './BesideSentences';
import { BesideStage } from './BesideStage';
import { besideStore, chooseOther, inventedChoice, isInvented, renewOther } from './other';
import { sayBeside } from '../../words/beside';
import { sayPage } from '../../words/page';

/** The choice of who stands beside; whoever does is put into the picture's place, and what is said of both below the sentence. */
export function BesidePart(): ReactNode {
  const { shelf } = useRecords();
  const { players } = useKept();
  const openId = useApp((state) => state.player.id);
  const { choice, other, message } = useStore(besideStore);
  const id = useId();
  const kept = players.filter((one) => one.id !== openId);
  // One who has come onto the page, and may be changed there, or was deleted: nobody stands beside any more.
  const isGone = other !== null && !isInvented(choice) && !kept.some((one) => one.id === choice);
  useEffect(() => {
    if (isGone) void chooseOther('', shelf);
  }, [isGone, shelf]);
  const revision = kept.find((one) => one.id === choice)?.revision ?? null;
  const seen = useRef({ choice, revision });
  useEffect(() => {
    const before = seen.current;
    seen.current = { choice, revision };
    if (before.choice === choice && before.revision !== null && revision !== null && before.revision !== revision) void renewOther(shelf);
  }, [choice, revision, shelf]);
  useEffect(() => {
    besidePicture.show(other === null ? null : <BesideStage other={other} />);
    besideWords.show(other === null ? null : <BesideSentences other={other} />);
    return () => {
      besidePicture.show(null);
      besideWords.show(null);
    };
  }, [other]);
  return (
    <>
      <label className="tick transport__beside" htmlFor={id}>
        {sayBeside('beside')}
        <select id={id} value={choice} onChange={({ target }) => void chooseOther(target.value, shelf)}>
          <option value="">{sayBeside('nobody')}</option>
          {kept.length === 0 ? null : (
            <optgroup label={sayPage('keptHere')}>
              {kept.map((one) => (
                <option key={one.id} value={one.id}>
                  {one.label}
                </option>
              ))}
            </optgroup>
          )}
          <optgroup label={sayPage('invented')}>
            {notebookLibrary.players.map((one) => (
              <option key={one.id} value={inventedChoice(one.id)}>
                {one.name}
              </option>
            ))}
          </optgroup>
        </select>
      </label>
      {message === null ? null : <span role="alert">{message}</span>}
    </>
  );
}
