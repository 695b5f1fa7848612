import type { ReactNode } from 'react';
import { sayMarking } from '../../words/marking';
import { FileDoor } from '../FileDoor';

export interface FilesDoorProps {
  readonly isOpening: boolean;
  /** What is open already, so that more of the same is asked for; null: nothing. */
  readonly open: 'pictures' | 'films' | null;
  onFiles(files: readonly File[]): void;
}

/** Where pictures and films are dropped, or chosen with a button. */
export function FilesDoor({ isOpening, open, onFiles }: FilesDoorProps): ReactNode {
  return (
    <FileDoor
      isSmall={open !== null}
      isBusy={isOpening}
      ask={sayMarking(ASKS[open ?? 'nothing'])}
      note={sayMarking(isOpening ? 'opening' : 'orDrop')}
      accept={open === 'films' ? FILMS : open === 'pictures' ? PICTURES : `${PICTURES},${FILMS}`}
      takesMany
      name={sayMarking('filesToMeasure')}
      onFiles={onFiles}
    />
  );
}

const ASKS = { nothing: 'chooseFiles', pictures: 'addPictures', films: 'addFilm' } as const;
const PICTURES = 'image/*,.heic,.heif';
const FILMS = 'video/*,.mp4,.m4v,.mov,.webm,.mkv';
