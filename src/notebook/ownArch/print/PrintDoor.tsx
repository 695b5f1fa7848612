/** Where a picture of a print is dropped, or chosen with a button. */
import { type ReactNode, useState } from 'react';
import { sayOwnArch } from '../../../words/ownArch';
import { FileDoor } from '../../FileDoor';
import type { PrintDoors, PrintPictureFile } from '../props';

export interface PrintDoorProps {
  readonly isOpen: boolean;
  readonly open: PrintDoors['open'];
  onOpened(picture: PrintPictureFile): void;
}

export function PrintDoor({ isOpen, open, onOpened }: PrintDoorProps): ReactNode {
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
      <FileDoor
        isSmall={isOpen}
        isBusy={isOpening}
        ask={sayOwnArch(isOpen ? 'printAgain' : 'printChoose')}
        note={sayOwnArch(isOpening ? 'printOpening' : 'printDrop')}
        accept="image/*,.heic,.heif"
        name={sayOwnArch('printInput')}
        onFiles={([file]) => void take(file)}
      />
      {refusal === null ? null : (
        <p className="caution" role="alert">
          {refusal}
        </p>
      )}
    </>
  );
}
