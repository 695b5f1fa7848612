/** What the reader is told when something cannot be kept: what is the matter, and what to do. */
import { sayKeeping } from '../words/keeping';
import type { WhyNotOpened } from './connection';

export function notOpenedWords(why: WhyNotOpened): string {
  switch (why) {
    case 'refused':
      return sayKeeping('cannotKeep');
    case 'full':
      return sayKeeping('full');
    case 'newer':
      return sayKeeping('newerDatabase');
    case 'silent':
      return sayKeeping('noAnswer');
    case 'other-tab':
      return sayKeeping('otherTabOld');
  }
}

/** `fault`: field, value and what is allowed. */
export const unreadableWords = (fault: string): string => sayKeeping('unreadable', { fault });

export function failureWords(error: unknown): string {
  const name = error instanceof Error ? error.name : '';
  if (/quota/i.test(name)) return sayKeeping('full');
  return sayKeeping('failed', { named: name === '' ? 'no' : 'yes', name });
}
