import { type ReactNode, useRef, useState } from 'react';
import { sayMarking } from '../../words/marking';

export interface FilesDoorProps {
  readonly isOpening: boolean;
  /** What is open already, so that more of the same is asked for; null: nothing. */
  readonly open: 'pictures' | 'films' | null;
  onFiles(files: readonly File[]): void;
}

/** Where pictures and films are dropped, or chosen with a button. */
export function FilesDoor({ isOpening, open, onFiles }: FilesDoorProps): ReactNode {
  const input = useRef<HTMLInputElement>(null);
  const [isOver, setOver] = useState(false);
  return (
    <div
      className="files-door"
      data-over={isOver}
      data-small={open !== null}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        const files = [...event.dataTransfer.files];
        if (files.length > 0) onFiles(files);
      }}
    >
      <button type="button" disabled={isOpening} onClick={() => input.current?.click()}>
        {sayMarking(ASKS[open ?? 'nothing'])}
      </button>
      <span className="note" role="status">
        {sayMarking(isOpening ? 'opening' : 'orDrop')}
      </span>
      <input
        ref={input}
        type="file"
        accept={open === 'films' ? FILMS : open === 'pictures' ? PICTURES : `${PICTURES},${FILMS}`}
        multiple
        hidden
        aria-label={sayMarking('filesToMeasure')}
        onChange={(event) => {
          const files = [...(event.target.files ?? [])];
          // The same file may be chosen again.
          event.target.value = '';
          if (files.length > 0) onFiles(files);
        }}
      />
    </div>
  );
}

const ASKS = { nothing: 'chooseFiles', pictures: 'addPictures', films: 'addFilm' } as const;
const PICTURES = 'image/*,.heic,.heif';
const FILMS = 'video/*,.mp4,.m4v,.mov,.webm,.mkv';
