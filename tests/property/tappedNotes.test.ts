/** Whatever is tapped and whatever is changed in whatever order, the notes stay in order, apart from one another and 80 ms long. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { SHORTEST_NOTE_S } from '../../src/measure/noteFinder';
import { added, boundaryMoved, joinedWithNext, type NotesEdited, notesFromTaps, removed, renamed, split } from '../../src/measure/tapped';
import type { NoteHeard } from '../../src/measure/traces';
import { longer, propertySeed, seedWords } from '../support/seed';

const time = fc.integer({ min: -1000, max: 6000 }).map((ms) => ms / 1000);
const tap = fc.record({ timeS: time, kind: fc.constantFrom<'note' | 'pause'>('note', 'pause') });
const midi = fc.option(fc.integer({ min: 0, max: 127 }));
const edit = fc.oneof(
  fc.record({ do: fc.constant('rename' as const), index: fc.nat(20), midi }),
  fc.record({ do: fc.constant('split' as const), index: fc.nat(20), timeS: time }),
  fc.record({ do: fc.constant('join' as const), index: fc.nat(20) }),
  fc.record({ do: fc.constant('move' as const), index: fc.nat(20), edge: fc.constantFrom<'start' | 'end'>('start', 'end'), timeS: time }),
  fc.record({ do: fc.constant('remove' as const), index: fc.nat(20) }),
  fc.record({ do: fc.constant('add' as const), startS: time, endS: time, midi }),
);

it(`keeps the list whole ${seedWords}`, () => {
  let done = 0;
  fc.assert(
    fc.property(fc.array(tap, { minLength: 4, maxLength: 12 }), fc.array(edit, { maxLength: 30 }), (taps, edits) => {
      let notes: readonly NoteHeard[] = notesFromTaps(taps, 5);
      whole(notes);
      for (const each of edits) {
        if (each.do !== 'add' && notes.length === 0) continue;
        const before = notes;
        const answer = changed(notes, each);
        expect(notes).toBe(before);
        if (answer.kind === 'refused') continue;
        done++;
        notes = answer.notes;
        whole(notes);
      }
    }),
    { seed: propertySeed, numRuns: longer(500) },
  );
  // Edits must get through for this to hold anything.
  expect(done).toBeGreaterThan(500);
});

function changed(notes: readonly NoteHeard[], each: typeof edit extends fc.Arbitrary<infer T> ? T : never): NotesEdited {
  if (each.do === 'add') return added(notes, { startS: each.startS, endS: each.endS, midi: each.midi, cents: null });
  const index = each.index % notes.length;
  switch (each.do) {
    case 'rename':
      return renamed(notes, index, each.midi);
    case 'split':
      return split(notes, index, each.timeS);
    case 'join':
      return joinedWithNext(notes, index);
    case 'move':
      return boundaryMoved(notes, index, each.edge, each.timeS);
    case 'remove':
      return removed(notes, index);
  }
}

function whole(notes: readonly NoteHeard[]): void {
  notes.forEach(({ startS, endS }, at) => {
    expect(endS - startS).toBeGreaterThanOrEqual(SHORTEST_NOTE_S);
    if (at > 0) expect(startS).toBeGreaterThanOrEqual(notes[at - 1]!.endS);
  });
}
