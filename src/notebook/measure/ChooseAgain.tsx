import { type ReactNode, useEffect, useRef } from 'react';

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
  const names = listed(missing);
  return (
    <div className="part measure__asked" role="group" aria-label={`Choose ${names}`}>
      <p>
        <strong>Choose {names}</strong> {forFrame ? `to see the ${pictures ? 'picture' : 'frame'}; its marks come back` : 'to measure on; its marks come back'}.
        {pictures ? '' : ' The film itself is not kept in this browser.'}
      </p>
      {words === null ? null : (
        <p className="caution" role="alert">
          <strong>Another file.</strong> {words}
        </p>
      )}
      <div className="button-row button-row--wraps">
        <button ref={button} type="button" className="primary" onClick={() => input.current?.click()}>
          Choose {names}
        </button>
        {canGoOn ? (
          <button type="button" onClick={onGoOn}>
            Go on without {missing.length === 1 ? 'it' : 'them'}
          </button>
        ) : null}
        <button type="button" className="quiet" onClick={onLeave}>
          Not now
        </button>
      </div>
      <input
        ref={input}
        type="file"
        accept={pictures ? 'image/*,.heic,.heif' : 'video/*,.mp4,.m4v,.mov,.webm,.mkv'}
        multiple={missing.length > 1}
        hidden
        aria-label={`Choose ${names}`}
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
    <div className="part measure__asked" role="group" aria-label="Something else is open">
      <p>
        <strong>{names} is open.</strong> Closed, its marks are kept; what was followed in it and not accepted is lost.
      </p>
      <div className="button-row button-row--wraps">
        <button ref={button} type="button" onClick={onLeave}>
          Stay with it
        </button>
        <button type="button" onClick={onClose}>
          Close it and go on
        </button>
      </div>
    </div>
  );
}

const listed = (names: readonly string[]): string => (names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`);
