/** Why something cannot be printed, as a sentence. */
import { sayHold } from '../words/hold';
import type { SolidRefusal } from './solid';

export function refusalWords(why: SolidRefusal): string {
  switch (why.reason) {
    case 'too-many-pegs':
      return sayHold('tooManyPegs', { most: why.most, count: why.count });
    case 'far-note':
      return sayHold('farNote', { note: why.note, most: why.mostMm });
    case 'steep-note':
      return sayHold('steepNote', { note: why.note });
    case 'thin-rim':
      return sayHold('thinRim', { least: why.leastMm });
    case 'small-hole':
      return sayHold('smallHole', { least: why.leastMm });
    case 'large-rim':
      return sayHold('largeRim', { most: why.mostMm });
    case 'one-surface':
    case 'too-tight':
    case 'too-fine':
    case 'too-close':
    case 'too-open':
    case 'nothing-across':
    case 'not-closed':
    case 'no-notes':
      return sayHold(why.reason);
  }
}
