/** Undo and redo over immutable records; steps that carry the same key in a row become one. */

export interface History<T> {
  readonly past: readonly T[];
  readonly present: T;
  readonly future: readonly T[];
  /** The key of the step that led to `present`; null: the next step stands by itself. */
  readonly openKey: string | null;
}

/** More steps than this are forgotten, oldest first. */
export const MAX_STEPS = 200;

export function startHistory<T>(present: T): History<T> {
  return { past: [], present, future: [], openKey: null };
}

/** A new present. With the key of the step before it, it takes that step's place, so a drag is undone at once. */
export function step<T>(history: History<T>, next: T, key: string | null): History<T> {
  if (Object.is(next, history.present)) return history;
  if (key !== null && key === history.openKey) return { ...history, present: next, future: [] };
  return { past: [...history.past, history.present].slice(-MAX_STEPS), present: next, future: [], openKey: key };
}

/** Ends a run of joined steps. */
export function closeStep<T>(history: History<T>): History<T> {
  return history.openKey === null ? history : { ...history, openKey: null };
}

export function undo<T>(history: History<T>): History<T> {
  const present = history.past.at(-1);
  if (present === undefined) return history;
  return { past: history.past.slice(0, -1), present, future: [history.present, ...history.future], openKey: null };
}

export function redo<T>(history: History<T>): History<T> {
  const [present, ...future] = history.future;
  if (present === undefined) return history;
  return { past: [...history.past, history.present], present, future, openKey: null };
}
