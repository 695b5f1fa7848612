/** Budgets of the present record, worked out beside the page when it has been at rest for a moment. */
import { useEffect, useRef, useState } from 'react';
import type { PlayerRecord } from '../core/specs';
import type { BudgetShown } from '../notebook/ownArch/props';
import type { BudgetAnswer, BudgetQuestion } from '../workers/budgeting';
import { languageNow } from '../words/language';
import { sayWorkers } from '../words/workers';
import { afterRest } from './idle';

/** The last that is known, which stays shown while a newer one is being worked out; none is for null. */
export function useBudget(record: PlayerRecord | null): BudgetShown {
  const [shown, setShown] = useState<BudgetShown & { readonly of: PlayerRecord | null }>({ budget: null, failure: null, behind: true, of: null });
  const worker = useRef<Worker | null>(null);
  useEffect(
    () => () => {
      worker.current?.terminate();
      worker.current = null;
    },
    [],
  );
  useEffect(() => {
    if (record === null) return;
    let isOver = false;
    const callOff = afterRest(() => {
      try {
        worker.current ??= new Worker(new URL('../workers/budgeting.ts', import.meta.url), { type: 'module', name: 'budgeting' });
      } catch {
        setShown({ budget: null, failure: sayWorkers('none'), behind: false, of: record });
        return;
      }
      const id = ++asked;
      worker.current.onmessage = ({ data }: MessageEvent<BudgetAnswer>): void => {
        if (isOver || data.id !== id) return;
        setShown({ budget: 'budget' in data ? data.budget : null, failure: 'failure' in data ? data.failure : null, behind: false, of: record });
      };
      worker.current.onerror = (event): void => {
        event.preventDefault();
        if (!isOver) setShown({ budget: null, failure: event.message === '' ? sayWorkers('none') : event.message, behind: false, of: record });
      };
      const question: BudgetQuestion = { id, language: languageNow(), record };
      worker.current.postMessage(question);
    });
    return () => {
      isOver = true;
      callOff();
    };
  }, [record]);
  return { budget: shown.budget, failure: shown.failure, behind: shown.of !== record };
}

let asked = 0;
