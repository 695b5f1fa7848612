import { LANDMARK_NAMES } from '../../../measure/marks';
import type { TracedName } from '../../../measure/traces';
import { sayFilming } from '../../../words/filming';
import { markName } from '../markNames';
import type { MarkId } from '../marksEdits';

/** What was followed, by the name its mark has on the page. */
export function lostName(name: TracedName | 'rim'): string {
  if (name === 'rim') return sayFilming('theRim');
  return markName(LANDMARK_NAMES.find((landmark) => landmark === name) ?? LINE_ENDS[name as keyof typeof LINE_ENDS]);
}

const LINE_ENDS = {
  'level-back': 'level-from',
  'level-front': 'level-to',
  'horn-near': 'horn-from',
  'horn-far': 'horn-to',
} as const satisfies Partial<Record<TracedName, MarkId>>;
