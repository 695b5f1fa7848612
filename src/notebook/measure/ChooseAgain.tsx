import { type ReactNode, useEffect, useRef } from 'react';
import { listWords } from '../../words/lists';
import { sayMarking } from '../../words/marking';

export interface ChooseAgainProps {
  /** Names of the files that are missing. */
  readonly missing: readonly string[];
  readonly pictures: boolean;
  /** One frame is to be seen, not all measured again. */
  readonly forFrame: boolean;
  readonly canGoOn: boolean;
  /** What was wrong with the last choice; null: nothing. */
  readonly words: string | null;
  onFiles(files: readonly File[]): void;
  onGoOn(): void;
  onLeave(): void;
}

/** The same file is asked for again, where it was not kept. */
export function ChooseAgain({ missing, pictures, forFrame, canGoOn, words, onFiles, onGoOn, onLeave }: ChooseAgainProps): ReactNode {
  const input = useRef<HTMLInputElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  // Whoever asked for it did so elsewhere on the page.
  useEffect(() => button.current?.focus(), []);
  const names = listWords(missing);
  return (
    <div className="part measure__asked" role="group" aria-label={sayMarking('choose', { files: names })}>
      <p>
        <strong>{sayMarking('chooseLead', { files: names })}</strong> {sayMarking(forFrame ? (pictures ? 'chooseForPicture' : 'chooseForFrame') : 'chooseToMeasure')}
        {pictures ? '' : ` ${sayMarking('filmNotKept')}`}
      </p>
      {words === null ? null : (
        <p className="caution" role="alert">
          <strong>{sayMarking('anotherFile')}</strong> {words}
        </p>
      )}
      <div className="button-row button-row--wraps">
        <button ref={button} type="button" className="primary" onClick={() => input.current?.click()}>
          {sayMarking('choose', { files: names })}
        </button>
        {canGoOn ? (
          <button type="button" onClick={onGoOn}>
            {sayMarking('goOnWithout', { count: missing.length })}
          </button>
        ) : null}
        <button type="button" className="quiet" onClick={onLeave}>
          {sayMarking('notNow')}
        </button>
      </div>
      <input
        ref={input}
        type="file"
        accept={pictures ? 'image/*,.heic,.heif' : 'video/*,.mp4,.m4v,.mov,.webm,.mkv'}
        multiple={missing.length > 1}
        hidden
        aria-label={sayMarking('choose', { files: names })}
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

export interface CloseFirstProps {
  /** What is open. */
  readonly names: string;
  onClose(): void;
  onLeave(): void;
}

/** Something else is open: its marks are kept, but what was followed and not accepted is not. */
export function CloseFirst({ names, onClose, onLeave }: CloseFirstProps): ReactNode {
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => button.current?.focus(), []);
  return (
    <div className="part measure__asked" role="group" aria-label={sayMarking('otherOpen')}>
      <p>
        <strong>{sayMarking('isOpen', { files: names })}</strong> {sayMarking('isOpenRest')}
      </p>
      <div className="button-row button-row--wraps">
        <button ref={button} type="button" onClick={onLeave}>
          {sayMarking('stayWithIt')}
        </button>
        <button type="button" onClick={onClose}>
          {sayMarking('closeAndGoOn')}
        </button>
      </div>
    </div>
  );
}
