/** How readings from a file come into those that are there. */
import { midiOf } from '../../core/pitch';
import type { ReadingSpec } from '../../core/specs';
import { MOST_READINGS, TAKE } from '../../records/readingRanges';
import { sayReadings } from '../../words/readings';
import { takeOf, takesOf } from './readingsEdits';

type Readings = readonly ReadingSpec[];

export type Joined =
  | { readonly kind: 'joined'; readonly readings: Readings; readonly firstNew: number }
  /** One sentence. */
  | { readonly kind: 'refused'; readonly words: string };

/** Behind those that are there, with takes that go on counting. */
export function asFurtherTakes(readings: Readings, incoming: Readings): Joined {
  const last = takesOf(readings).at(-1) ?? 0;
  const highest = last + Math.max(0, ...incoming.map(takeOf));
  if (highest > TAKE[1]) return { kind: 'refused', words: sayReadings('wouldBeTake', { take: highest, most: TAKE[1] }) };
  return joined(readings, incoming.map((reading) => (last === 0 ? reading : { ...reading, take: last + takeOf(reading) })));
}

/** Only the notes (and ways) of which there is no reading yet. */
export function withMissing(readings: Readings, incoming: Readings): Joined {
  const there = new Set(readings.map(nameOf));
  return joined(readings, incoming.filter((reading) => !there.has(nameOf(reading))));
}

function joined(readings: Readings, added: Readings): Joined {
  const count = readings.length + added.length;
  if (count > MOST_READINGS) return { kind: 'refused', words: sayReadings('wouldBeReadings', { count, most: MOST_READINGS }) };
  return { kind: 'joined', readings: added.length === 0 ? readings : [...readings, ...added], firstNew: readings.length };
}

const nameOf = ({ note, direction }: ReadingSpec): string => `${midiOf(note)} ${direction ?? ''}`;
