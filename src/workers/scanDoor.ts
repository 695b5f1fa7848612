/**
 * The page's door to one jaw's scan: worked on in a worker of its own, so that the page goes on; an end stops the worker in the middle of whatever
 * it does. Nothing here rejects: a worker that dies, as for want of memory, is told as a file that cannot be read.
 */
import { type Remote, proxy, wrap } from 'comlink';
import type { ScanPicture } from '../scans/drawScan';
import type { JawParts } from '../scans/jawParts';
import type { Progress } from '../scans/progress';
import { type JawReady, type JawSettled, type RimReach, type ScanDesk, type ScanOpened, createScanDesk } from '../scans/scanDesk';
import { type ScanRefused, scanRefusals } from '../scans/scanRefusals';
import type { PictureSize, ScanView } from '../scans/scanView';
import type { JawMarked, JawNotSettled } from '../scans/settleJaw';
import type { JawName } from '../scans/startView';
import { languageNow } from '../words/language';
import type { RemoteScanDesk } from './scanWorker';

export interface ScanStopped {
  readonly kind: 'stopped';
}

export interface ScanDoor {
  open(file: Blob, jaw: JawName, size: PictureSize, onProgress: Progress): Promise<ScanOpened | ScanRefused | ScanStopped>;
  settle(marked: JawMarked, onProgress: Progress): Promise<JawSettled | JawNotSettled | ScanRefused | ScanStopped>;
  /** The others answer null where there is nothing, after a stop and where the worker died. */
  picture(view: ScanView, size: PictureSize, withDifferences: boolean): Promise<ScanPicture | null>;
  frontView(size: PictureSize): Promise<ScanView | null>;
  ready(reach: RimReach, onProgress: Progress): Promise<JawReady | null>;
  reopen(packed: Uint8Array, reach: RimReach): Promise<JawParts | null>;
  /** Stops whatever is going on; what was still waited for is answered as stopped. */
  end(): void;
}

export function openScanDoor(startWorker: () => Worker = startPageWorker): ScanDoor {
  let worker: Worker;
  try {
    worker = startWorker();
  } catch {
    // The page halts meanwhile; but a scan can be used all the same.
    return doorOf(createScanDesk(), () => {}, new Promise(() => {}), (tell) => tell);
  }
  const remote: Remote<RemoteScanDesk> = wrap<RemoteScanDesk>(worker);
  const broken = new Promise<ScanRefused>((resolve) => {
    const onFault = (event: Event): void => {
      event.preventDefault();
      resolve(scanRefusals.unreadable());
    };
    worker.addEventListener('error', onFault);
    worker.addEventListener('messageerror', onFault);
  });
  const desk = { ...methodsOf(remote), open: (file: Blob, jaw: JawName, size: PictureSize, tell?: Progress) => remote.open(file, jaw, size, languageNow(), tell!) };
  return doorOf(desk, () => worker.terminate(), broken, (tell) => proxy(tell));
}

/** A desk here, or one whose answers take time. */
type AnyDesk = { readonly [K in keyof ScanDesk]: (...asked: Parameters<ScanDesk[K]>) => ReturnType<ScanDesk[K]> | Promise<Awaited<ReturnType<ScanDesk[K]>>> };

const methodsOf = (remote: Remote<RemoteScanDesk>): Omit<AnyDesk, 'open'> => ({
  picture: (view, size, withDifferences) => remote.picture(view, size, withDifferences),
  frontView: (size) => remote.frontView(size),
  settle: (marked, progress) => remote.settle(marked, progress),
  ready: (reach, progress) => remote.ready(reach, progress),
  reopen: (packed, reach) => remote.reopen(packed, reach),
});

function doorOf(desk: AnyDesk, stop: () => void, broken: Promise<ScanRefused>, asProgress: (tell: Progress) => Progress): ScanDoor {
  let isEnded = false;
  let onEnd = (_: ScanStopped): void => {};
  const ended = new Promise<ScanStopped>((resolve) => {
    onEnd = resolve;
  });
  const told = (onProgress: Progress): Progress => asProgress((part) => {
    if (!isEnded) onProgress(part);
  });
  const answered = async <T>(ask: () => T | Promise<T>): Promise<T | ScanRefused | ScanStopped> => {
    if (isEnded) return ended;
    try {
      return await Promise.race([ask(), broken, ended]);
    } catch {
      return scanRefusals.unreadable();
    }
  };
  const orNull = async <T extends object>(ask: () => T | null | Promise<T | null>): Promise<T | null> => {
    const answer = await answered(ask);
    return answer !== null && 'kind' in answer && (answer.kind === 'refused' || answer.kind === 'stopped') ? null : (answer);
  };
  return {
    open: (file, jaw, size, onProgress) => answered(() => desk.open(file, jaw, size, told(onProgress))),
    settle: (marked, onProgress) => answered(() => desk.settle(marked, told(onProgress))),
    picture: (view, size, withDifferences) => orNull<ScanPicture>(() => desk.picture(view, size, withDifferences)),
    frontView: (size) => orNull<ScanView>(() => desk.frontView(size)),
    ready: (reach, onProgress) => orNull<JawReady>(() => desk.ready(reach, told(onProgress))),
    reopen: (packed, reach) => orNull<JawParts>(() => desk.reopen(packed, reach)),
    end() {
      isEnded = true;
      onEnd({ kind: 'stopped' });
      stop();
    },
  };
}

const startPageWorker = (): Worker => new Worker(new URL('./scanWorker.ts', import.meta.url), { type: 'module', name: 'scan' });
