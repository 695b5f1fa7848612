/** Where a picture of a print is dropped, or chosen with a button. */
import { type ReactNode, useRef, useState } from 'react';
import { sayOwnArch } from '../../../words/ownArch';
import type { PrintDoors, PrintPictureFile } from '../props';

export interface PrintDoorProps {
  readonly isOpen: boolean;
  readonly open: PrintDoors['open'];
  onOpened(picture: PrintPictureFile): void;
}

export function PrintDoor({ isOpen, open, onOpened }: PrintDoorProps): ReactNode {
  const input = useRef<HTMLInputElement>(null);
  const [isOver, setOver] = useState(false);
  const [isOpening, setOpening] = useState(false);
  const [refusal, setRefusal] = useState<string | null>(null);
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined || isOpening) return;
    setOpening(true);
    setRefusal(null);
    const opened = await open(file);
    setOpening(false);
    if (typeof opened === 'string') setRefusal(opened.includes(file.name) ? opened : sayOwnArch('printRefused', { file: file.name, why: opened }));
    else onOpened(opened);
  };
  return (
    <>
      <div
        className="files-door"
        data-over={isOver}
        data-small={isOpen}
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={(event) => {
          event.preventDefault();
          setOver(false);
          void take(event.dataTransfer.files[0]);
        }}
      >
        <button type="button" disabled={isOpening} onClick={() => input.current?.click()}>
          {sayOwnArch(isOpen ? 'printAgain' : 'printChoose')}
        </button>
        <span className="note" role="status">
          {sayOwnArch(isOpening ? 'printOpening' : 'printDrop')}
        </span>
        <input
          ref={input}
          type="file"
          accept="image/*,.heic,.heif"
          hidden
          aria-label={sayOwnArch('printInput')}
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            // The same file may be chosen again.
            event.target.value = '';
            void take(file);
          }}
        />
      </div>
      {refusal === null ? null : (
        <p className="caution" role="alert">
          {refusal}
        </p>
      )}
    </>
  );
}
