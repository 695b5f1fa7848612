import type { ReactNode } from 'react';
import type { FilmPartProps } from './props';

/** What is to be looked at first, and the take put into the lesson. */
export function Accepting(props: FilmPartProps): ReactNode {
  const isAny = props.seen.some(({ travel, elevation, lateral }) => travel !== null || elevation !== null || lateral !== null);
  return (
    <div className="part">
      <LookFirst {...props} />
      {props.isFilmKept ? (
        <p className="note">The film itself is kept in this browser; it can be forgotten under “Measured in this lesson”.</p>
      ) : (
        <>
          <label className="tick">
            <input type="checkbox" checked={props.keepsFilm} onChange={(event) => props.onKeepsFilm(event.target.checked)} />
            keep the film itself in this browser too
          </label>
          <p className="note">
            It is kept when the take is accepted, and can be forgotten at any time. Of anybody under age, keep it only if their parents agree to that too.
          </p>
        </>
      )}
      <div className="button-row button-row--wraps">
        <button type="button" className="primary" disabled={props.isLocked || !isAny || props.working !== null} onClick={props.onAccept}>
          Accept as a take
        </button>
        <button type="button" onClick={props.onClose}>
          {props.isFilmKept ? 'Close the film' : 'Close and forget the film'}
        </button>
      </div>
      <p className="note">
        The readings go into {props.lessonName}; one step back takes them out again. Marks, notes and what was followed stay with them.
      </p>
      {props.isSolving ? <p className="note">The head is being worked out anew; accepting waits for it.</p> : null}
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
          <strong>Look before accepting.</strong>
          <ul>
            {beforeAccepting.map(({ words, goTo }) => (
              <li key={words}>
                {words}{' '}
                {goTo === null ? null : (
                  <button type="button" className="quiet" onClick={() => onGoTo(goTo.filmId, goTo.timeS)}>
                    Go there
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
