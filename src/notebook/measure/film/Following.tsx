import type { ReactNode } from 'react';
import { counted } from '../../../core/words';
import { formatFixed } from '../../numberText';
import { LOST_COSTS, LOST_WHAT_TO_DO, SHADING_WORDS, stretchWords } from './lostWords';
import type { FilmPartProps, FollowedShown, OpenFilmShown } from './props';

/** The marks followed through the film, and what was lost on the way. */
export function Following({ shown, working, onFollow, onTime }: FilmPartProps & { readonly shown: OpenFilmShown }): ReactNode {
  return (
    <div className="part">
      <h3>Through the film</h3>
      <div className="button-row button-row--wraps">
        <button
          type="button"
          className={shown.followed === null || shown.followed.isBehind !== null ? 'primary' : undefined}
          disabled={working !== null || shown.markedFrames === 0}
          onClick={onFollow}
        >
          {shown.followed === null ? 'Follow the marks through the film' : 'Follow once more'}
        </button>
      </div>
      {shown.followed === null ? (
        <p className="note">One marked frame is enough. Frames before and after it are followed by themselves.</p>
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
          {isBehind === 'view'
            ? 'Another view was chosen since: what was followed says nothing of it. Follow once more, or choose the view from before.'
            : 'The marks have changed since: follow once more.'}
        </p>
      )}
      {problems.map((words) => (
        <p key={words} className="caution">
          <strong>Missing.</strong> {words}
        </p>
      ))}
      {lost.length === 0 ? (
        <p className="note">Nothing was lost.</p>
      ) : (
        <>
          <p className="note">{LOST_WHAT_TO_DO}</p>
          <ul className="kept-list" aria-label="Lost on the way">
          {lost.slice(0, MOST_LOST_SHOWN).map(({ what, startS, endS, cost }) => (
            <li key={`${what} ${startS}`} className="kept-list__row open-picture">
              <span className="kept-list__name">{what}</span>
              <span className="note">{`lost ${stretchWords(startS, endS)}: ${LOST_COSTS[cost]}`}</span>
              <span className="kept-list__actions">
                <button type="button" className="quiet" onClick={() => onTime(startS)}>
                  Go there<span className="only-heard">{`, ${what}, ${formatFixed(startS, 2)} s`}</span>
                </button>
              </span>
            </li>
          ))}
          </ul>
          <p className="note">{`${more > 0 ? `And ${counted(more, 'more stretch', 'more stretches')}. ` : ''}${SHADING_WORDS}`}</p>
        </>
      )}
    </>
  );
}
