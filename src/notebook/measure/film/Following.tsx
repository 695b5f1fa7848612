import type { ReactNode } from 'react';
import { sayFilming } from '../../../words/filming';
import { formatFixed } from '../../numberText';
import { costWords, stretchWords } from './lostWords';
import type { FilmPartProps, FollowedShown, OpenFilmShown } from './props';

/** The marks followed through the film, and what was lost on the way. */
export function Following({ shown, working, onFollow, onTime }: FilmPartProps & { readonly shown: OpenFilmShown }): ReactNode {
  return (
    <div className="part">
      <h3>{sayFilming('through')}</h3>
      <div className="button-row button-row--wraps">
        <button
          type="button"
          className={shown.followed === null || shown.followed.isBehind !== null ? 'primary' : undefined}
          disabled={working !== null || shown.markedFrames === 0}
          onClick={onFollow}
        >
          {sayFilming(shown.followed === null ? 'follow' : 'followAgain')}
        </button>
      </div>
      {shown.followed === null ? (
        <p className="note">{sayFilming('oneFrame')}</p>
      ) : (
        <FollowedWords followed={shown.followed} onTime={onTime} />
      )}
    </div>
  );
}

const MOST_LOST_SHOWN = 6;

function FollowedWords({ followed, onTime }: { readonly followed: FollowedShown; onTime(timeS: number): void }): ReactNode {
  const { lost, problems, isBehind } = followed;
  const more = lost.length - MOST_LOST_SHOWN;
  return (
    <>
      {isBehind === null ? null : (
        <p className={isBehind === 'view' ? 'caution' : 'note'}>
          {sayFilming(isBehind === 'view' ? 'viewChanged' : 'marksChanged')}
        </p>
      )}
      {problems.map((words) => (
        <p key={words} className="caution">
          <strong>{sayFilming('missing')}</strong> {words}
        </p>
      ))}
      {lost.length === 0 ? (
        <p className="note">{sayFilming('nothingLost')}</p>
      ) : (
        <>
          <p className="note">{sayFilming('lostToDo')}</p>
          <ul className="kept-list" aria-label={sayFilming('lost')}>
          {lost.slice(0, MOST_LOST_SHOWN).map(({ what, startS, endS, cost }) => (
            <li key={`${what} ${startS}`} className="kept-list__row open-picture">
              <span className="kept-list__name">{what}</span>
              <span className="note">{sayFilming('lostThere', { stretch: stretchWords(startS, endS), cost: costWords(cost) })}</span>
              <span className="kept-list__actions">
                <button type="button" className="quiet" onClick={() => onTime(startS)}>
                  {sayFilming('goThere')}
                  <span className="only-heard">{sayFilming('goThereSaid', { mark: what, seconds: formatFixed(startS, 2) })}</span>
                </button>
              </span>
            </li>
          ))}
          </ul>
          <p className="note">{more > 0 ? sayFilming('moreStretches', { count: more, shading: sayFilming('shading') }) : sayFilming('shading')}</p>
        </>
      )}
    </>
  );
}
