import { expect, test } from 'vitest';
import { notationOf, shownTransposition } from '../../../src/app/describe';
import { DEFAULT_SETTINGS } from '../../../src/app/settings';
import { defaultRecord } from '../../support/records';

test('an instrument is read in the clef wished for where it has that, else in its usual one', () => {
  expect(notationOf('tenor-trombone', null)?.clef).toBe('bass');
  expect(notationOf('tenor-trombone', 'tenor')?.clef).toBe('tenor');
  expect(notationOf('trumpet', 'tenor')?.clef).toBe('treble');
  expect(notationOf('unheard-of', 'bass')).toBeUndefined();
});

test('written names go with the clef: a euphonium in treble clef is written a major ninth above', () => {
  const record = defaultRecord('euphonium');
  const written = { ...DEFAULT_SETTINGS, noteNames: 'written' as const };
  expect(shownTransposition({ record, settings: { ...written, clef: 'treble' } })).toBe(14);
  expect(shownTransposition({ record, settings: { ...written, clef: 'bass' } })).toBe(0);
  expect(shownTransposition({ record, settings: { ...DEFAULT_SETTINGS, clef: 'treble' } })).toBe(0);
});
