/** A teacher's own version of a class, kept in this browser apart from the players. */
import { safeParse } from 'zod/mini';
import { type ClassPlan, type ClassSpec, classPlanSchema } from '../../records/classSchema';
import { asItCame, isAsItCame } from './plan';

type Storage = Pick<globalThis.Storage, 'getItem' | 'setItem' | 'removeItem'>;

const PLAN_KEY = 'rimpath.class.1';

/** The class as it came where nothing is kept, or where what is kept is not whole or belongs to another class. */
export function loadPlan(spec: ClassSpec, storage: Storage | null): ClassPlan {
  try {
    const read = safeParse(classPlanSchema, JSON.parse(storage?.getItem(PLAN_KEY) ?? 'null'));
    return read.success && read.data.classId === spec.id ? read.data : asItCame(spec);
  } catch {
    return asItCame(spec);
  }
}

/** False where nothing can be kept. */
export function savePlan(plan: ClassPlan, storage: Storage | null): boolean {
  try {
    if (storage === null) return false;
    if (isAsItCame(plan)) storage.removeItem(PLAN_KEY);
    else storage.setItem(PLAN_KEY, JSON.stringify(plan));
    return true;
  } catch {
    return false;
  }
}

/** A browser may forbid even to look. */
export function browserStorage(): Storage | null {
  try {
    return globalThis.localStorage;
  } catch {
    return null;
  }
}
