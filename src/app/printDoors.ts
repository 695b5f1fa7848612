/** What a bite print needs of the page: its picture opened, and forms fitted, both in workers. */
import type { NoPrintFit } from '../core/ownArch/fitPrint';
import type { BitePrintSpec } from '../core/specs';
import type { PrintDoors, PrintForms } from '../notebook/ownArch/props';
import { languageNow } from '../words/language';
import { sayWorkers } from '../words/workers';
import { askStill } from '../workers/askStill';
import type { PrintAnswer, PrintQuestion } from '../workers/budgeting';
import { newestOnly } from './newestOnly';

export interface ClosingDoors extends PrintDoors {
  /** The worker ends; asked again, another one begins. */
  close(): void;
}

export function createPrintDoors(announce: (words: string) => void): ClosingDoors {
  let worker: Worker | null = null;
  let asked = 0;
  /** What is waited for is not to be waited for in vain. */
  let onClose = (): void => {};
  return {
    announce,
    open: async (file) => {
      const seen = await askStill(file);
      if (seen.kind === 'refused') return seen.words;
      const { bitmap, small, grey } = seen;
      return { name: file.name, width: bitmap.width, height: bitmap.height, shown: bitmap, small, grey };
    },
    fit: newestOnly((print: BitePrintSpec): Promise<PrintForms | NoPrintFit | string> =>
      new Promise((resolve) => {
        try {
          worker ??= new Worker(new URL('../workers/budgeting.ts', import.meta.url), { type: 'module', name: 'budgeting' });
        } catch {
          resolve(sayWorkers('none'));
          return;
        }
        const mine = worker;
        const id = ++asked;
        const onMessage = ({ data }: MessageEvent<PrintAnswer>): void => {
          if (data.id !== id) return;
          end();
          resolve(data.fits);
        };
        const onError = (event: Event): void => {
          event.preventDefault();
          end();
          resolve(sayWorkers('none'));
        };
        const end = (): void => {
          mine.removeEventListener('message', onMessage);
          mine.removeEventListener('error', onError);
          onClose = () => {};
        };
        onClose = () => {
          end();
          resolve(sayWorkers('none'));
        };
        mine.addEventListener('message', onMessage);
        mine.addEventListener('error', onError);
        const question: PrintQuestion = { id, language: languageNow(), print };
        mine.postMessage(question);
      })),
    close: () => {
      onClose();
      worker?.terminate();
      worker = null;
    },
  };
}
