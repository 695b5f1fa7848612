/** Runs in a worker: the desk on which one jaw's scan lies. Asked through `openScanDoor`. */
import { expose, transfer } from 'comlink';
import { buffersOf } from '../scans/jawParts';
import type { Progress } from '../scans/progress';
import { type JawReady, type ScanDesk, type ScanOpened, createScanDesk } from '../scans/scanDesk';
import type { ScanRefused } from '../scans/scanRefusals';
import type { PictureSize } from '../scans/scanView';
import type { JawName } from '../scans/startView';
import { type Language, speak } from '../words/language';

export interface RemoteScanDesk extends Omit<ScanDesk, 'open'> {
  open(file: Blob, jaw: JawName, size: PictureSize, language: Language, progress: Progress): Promise<ScanOpened | ScanRefused>;
}

/** Each telling draws the page anew, without a graphics card by the processors that this worker needs; and nobody reads faster. */
const TOLD_EVERY_MS = 250;

function nowAndThen(tell: Progress): Progress {
  let last = -Infinity;
  return (part) => {
    const now = performance.now();
    if (now - last < TOLD_EVERY_MS) return;
    last = now;
    tell(part);
  };
}

const desk = createScanDesk();

expose({
  ...desk,
  open: async (file, jaw, size, language, progress) => {
    // Without its messages a refusal is told in English.
    await speak(language).catch(() => undefined);
    return desk.open(file, jaw, size, nowAndThen(progress));
  },
  picture: (view, size, withDifferences) => {
    const picture = desk.picture(view, size, withDifferences);
    return picture && transfer(picture, [picture.pixels.buffer, picture.depth.buffer]);
  },
  settle: (marked, progress) => desk.settle(marked, progress && nowAndThen(progress)),
  ready: (reach, progress) => {
    const ready: JawReady | null = desk.ready(reach, progress && nowAndThen(progress));
    return ready && transfer(ready, [...buffersOf(ready.parts), ready.packed.buffer]);
  },
  reopen: (packed, reach) => {
    const parts = desk.reopen(packed, reach);
    return parts && transfer(parts, buffersOf(parts));
  },
} satisfies RemoteScanDesk);
