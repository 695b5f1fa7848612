/** A door to a file that was open before, for where the work behind the last one had to be stopped in the middle. */
import type { JawName } from '../../scans/startView';
import type { ScanDoor } from '../../workers/scanDoor';
import { FIRST_PICTURE } from './scanChoices';

export interface ReopenedDoor {
  /** What is asked of it waits until the file has been read again. */
  readonly door: ScanDoor;
  readonly opened: ReturnType<ScanDoor['open']>;
}

export function reopenedDoor(openDoor: () => ScanDoor, file: File, jaw: JawName): ReopenedDoor {
  const fresh = openDoor();
  const opened = fresh.open(file, jaw, FIRST_PICTURE, () => {});
  const onceOpened = async <T>(ask: () => Promise<T>): Promise<T> => {
    await opened;
    return ask();
  };
  return {
    opened,
    door: {
      ...fresh,
      picture: (...asked) => onceOpened(() => fresh.picture(...asked)),
      frontView: (size) => onceOpened(() => fresh.frontView(size)),
      settle: (...asked) => onceOpened(() => fresh.settle(...asked)),
    },
  };
}
