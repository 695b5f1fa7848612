import type { ReactNode } from 'react';
import { noteAsShown } from '../noteNames';
import { VIEWS } from './markNames';
import type { MeasureChapterProps } from './props';

type PicturesListProps = Pick<MeasureChapterProps, 'pictures' | 'shownId' | 'homeId' | 'entry' | 'onShow' | 'onRemove'>;

/** The pictures that are open: which is shown, of which note, and which is home. */
export function PicturesList({ pictures, shownId, homeId, entry, onShow, onRemove }: PicturesListProps): ReactNode {
  return (
    <ul className="kept-list" aria-label="Open pictures">
      {pictures.map(({ id, name, note, view }) => {
        const isShown = id === shownId;
        return (
          <li key={id} className="kept-list__row open-picture" aria-current={isShown || undefined}>
            <span className="kept-list__name">{name}</span>
            <span className="note">
              {[VIEWS.find(({ value }) => value === view)?.label, note === null ? 'no note yet' : noteAsShown(note, entry), ...(id === homeId ? ['home'] : [])].join(' · ')}
            </span>
            <span className="kept-list__actions">
              {isShown ? null : (
                <button type="button" className="quiet" aria-label={`Show ${name}`} onClick={() => onShow(id)}>
                  Show
                </button>
              )}
              <button type="button" className="quiet" aria-label={`Take away ${name} and its marks`} onClick={() => onRemove(id)}>
                Take away
              </button>
            </span>
          </li>
        );
      })}
    </ul>
  );
}
