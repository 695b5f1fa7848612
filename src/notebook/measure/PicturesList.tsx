import type { ReactNode } from 'react';
import { noteAsShown } from '../noteNames';
import { sayMarking } from '../../words/marking';
import { viewName } from './markNames';
import type { MeasureChapterProps } from './props';

type PicturesListProps = Pick<MeasureChapterProps, 'pictures' | 'shownId' | 'homeId' | 'entry' | 'onShow' | 'onRemove'>;

/** The pictures that are open: which is shown, of which note, and which is home. */
export function PicturesList({ pictures, shownId, homeId, entry, onShow, onRemove }: PicturesListProps): ReactNode {
  return (
    <ul className="kept-list" aria-label={sayMarking('openPictures')}>
      {pictures.map(({ id, name, note, view }) => {
        const isShown = id === shownId;
        return (
          <li key={id} className="kept-list__row open-picture" aria-current={isShown || undefined}>
            <span className="kept-list__name">{name}</span>
            <span className="note">
              {[viewName(view), note === null ? sayMarking('noNoteYet') : noteAsShown(note, entry), ...(id === homeId ? [sayMarking('home')] : [])].join(' · ')}
            </span>
            <span className="kept-list__actions">
              {isShown ? null : (
                <button type="button" className="quiet" aria-label={sayMarking('showFile', { file: name })} onClick={() => onShow(id)}>
                  {sayMarking('show')}
                </button>
              )}
              <button type="button" className="quiet" aria-label={sayMarking('takeAwayFile', { file: name })} onClick={() => onRemove(id)}>
                {sayMarking('takeAway')}
              </button>
            </span>
          </li>
        );
      })}
    </ul>
  );
}
