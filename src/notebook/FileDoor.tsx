import { type ReactNode, useRef, useState } from 'react';

export interface FileDoorProps {
  /** Something is open already: the door takes less room. */
  readonly isSmall: boolean;
  readonly isBusy?: boolean;
  /** On the button. */
  readonly ask: string;
  /** Beside it: that files may be dropped, or that they are being opened. */
  readonly note: string;
  readonly accept: string;
  readonly takesMany?: boolean;
  /** What the chooser of files is called. */
  readonly name: string;
  onFiles(files: readonly File[]): void;
  readonly children?: ReactNode;
}

/** Where files are dropped, or chosen with a button; of several dropped where one is taken, whoever uses it takes the first. */
export function FileDoor({ isSmall, isBusy = false, ask, note, accept, takesMany = false, name, onFiles, children }: FileDoorProps): ReactNode {
  const input = useRef<HTMLInputElement>(null);
  const [isOver, setOver] = useState(false);
  const give = (files: readonly File[]): void => {
    if (files.length > 0) onFiles(files);
  };
  return (
    <div
      className="files-door"
      data-over={isOver}
      data-small={isSmall}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        give([...event.dataTransfer.files]);
      }}
    >
      <button type="button" disabled={isBusy} onClick={() => input.current?.click()}>
        {ask}
      </button>
      <span className="note" role="status">
        {note}
      </span>
      {children}
      <input
        ref={input}
        type="file"
        accept={accept}
        multiple={takesMany}
        hidden
        aria-label={name}
        onChange={(event) => {
          const files = [...(event.target.files ?? [])];
          // The same file may be chosen again.
          event.target.value = '';
          give(files);
        }}
      />
    </div>
  );
}
