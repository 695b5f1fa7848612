import type { ReactNode } from 'react';
import { sayFilming } from '../../../words/filming';
import { sayMarking } from '../../../words/marking';
import type { FilmPartProps } from './props';

/** What is to be looked at first, and the take put into the lesson. */
export function Accepting(props: FilmPartProps): ReactNode {
  const isAny = props.seen.some(({ travel, elevation, lateral }) => travel !== null || elevation !== null || lateral !== null);
  return (
    <div className="part">
      <LookFirst {...props} />
      {props.isFilmKept ? (
        <p className="note">{sayFilming('isKept', { kept: sayMarking('measured') })}</p>
      ) : (
        <>
          <label className="tick">
            <input type="checkbox" checked={props.keepsFilm} onChange={(event) => props.onKeepsFilm(event.target.checked)} />
            {sayFilming('keep')}
          </label>
          <p className="note">{sayFilming('keepWords')}</p>
        </>
      )}
      <div className="button-row button-row--wraps">
        <button type="button" className="primary" disabled={props.isLocked || !isAny || props.working !== null} onClick={props.onAccept}>
          {sayFilming('accept')}
        </button>
        <button type="button" onClick={props.onClose}>
          {sayFilming(props.isFilmKept ? 'closeFilm' : 'closeAndForget')}
        </button>
      </div>
      <p className="note">{sayFilming('goInto', { lesson: props.lessonName })}</p>
      {props.isSolving ? <p className="note">{sayFilming('solving')}</p> : null}
      {props.accepted === null ? null : <p role="status">{props.accepted}</p>}
    </div>
  );
}

/** Beside the result, so that nobody accepts what a lost or slipped mark has made of it without having been told. */
function LookFirst({ beforeAccepting, onGoTo }: Pick<FilmPartProps, 'beforeAccepting' | 'onGoTo'>): ReactNode {
  return (
    <div role="status" className="look-first">
      {beforeAccepting.length === 0 ? null : (
        <div className="caution">
          <strong>{sayFilming('lookFirst')}</strong>
          <ul>
            {beforeAccepting.map(({ words, goTo }) => (
              <li key={words}>
                {words}{' '}
                {goTo === null ? null : (
                  <button type="button" className="quiet" onClick={() => onGoTo(goTo.filmId, goTo.timeS)}>
                    {sayFilming('goThere')}
                  </button>
                )}
              </li>
            ))}
          </ul>
        </div>
      )}
    </div>
  );
}
