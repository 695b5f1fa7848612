/** The worker in which it is worked out how sure the angles are with an arch that was measured, which measure would narrow them most, and which form a bite print fits. */
import { type NoteBudget, budgetOf } from '../core/ownArch/budget';
import { type NoPrintFit, type PrintFit, fitPrintForms } from '../core/ownArch/fitPrint';
import { type SplineFit, fitSpline } from '../core/ownArch/fitSpline';
import type { BitePrintSpec, PlayerRecord } from '../core/specs';
import { type Language, speak } from '../words/language';

export interface BudgetQuestion {
  readonly id: number;
  /** In which it is told what stands in the way. */
  readonly language: Language;
  readonly record: PlayerRecord;
}

export type BudgetAnswer = { readonly id: number; readonly budget: readonly NoteBudget[] | null } | { readonly id: number; readonly failure: string };

export interface PrintQuestion {
  readonly id: number;
  readonly language: Language;
  readonly print: BitePrintSpec;
}

export interface PrintAnswer {
  readonly id: number;
  /** A sentence's part where they cannot be worked out. */
  readonly fits: PrintForms | NoPrintFit | string;
}

/** What is fitted to a print: the families' forms, the better first, and a free one off the best. */
export interface PrintForms {
  readonly kind: 'forms';
  readonly fits: readonly PrintFit[];
  readonly free: Pick<SplineFit, 'form' | 'places' | 'frontAt' | 'rmsMm' | 'aicc'> | null;
}

self.onmessage = ({ data }: MessageEvent<BudgetQuestion | PrintQuestion>): void => {
  spoken ??= speak(data.language).catch(() => undefined);
  void spoken.then(() => self.postMessage('print' in data ? ({ id: data.id, fits: formsOrWhyNot(data.print) } satisfies PrintAnswer) : answerTo(data)));
};

/** An error here would reach nobody: the page would wait for ever. */
function formsOrWhyNot(print: BitePrintSpec): PrintAnswer['fits'] {
  try {
    return formsOf(print);
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

function formsOf(print: BitePrintSpec): PrintForms | NoPrintFit {
  const fits = fitPrintForms(print);
  if ('kind' in fits) return fits;
  const free = fitSpline(print, fits[0]!);
  // Its own function cannot be handed over.
  return { kind: 'forms', fits, free: free && { form: free.form, places: free.places, frontAt: free.frontAt, rmsMm: free.rmsMm, aicc: free.aicc } };
}

/** A page keeps its language. */
let spoken: Promise<void> | null = null;

function answerTo({ id, record }: Pick<BudgetQuestion, 'id' | 'record'>): BudgetAnswer {
  try {
    return { id, budget: budgetOf(record) };
  } catch (error) {
    return { id, failure: error instanceof Error ? error.message : String(error) };
  }
}
