/** What is asked for to be printed: as much of the arch as the rim ever lies on. */
import { expect, test } from 'vitest';
import { heldWishes } from '../../../src/app/heldWishes';
import { analyse } from '../../../src/core/analyse';
import { firstDemo } from '../../../src/app/records';
import { expectWithin } from '../../support/expectWithin';

const { record } = firstDemo();

test.each([[0, 1.3], [6, 7.3], [-6, 6]])('with home %d mm to the right, the farthest note lies %d mm beside the midline', (rightMm, farthestMm) => {
  const readings = [{ note: 'F3', travel: { upMm: 0, rightMm: 0 } }, { note: 'B♭5', travel: { upMm: 3.6, rightMm: 1.3 } }];
  const analysis = analyse({ ...record, home: { note: 'F3', upMm: -1.35, rightMm }, readings });
  const wish = heldWishes(analysis, (note) => note).wishes[0]!.wish;
  if (wish.thing !== 'arch') throw new Error(wish.thing);
  expectWithin(wish.farthest.rightMm, farthestMm, { abs: 1e-9 });
  expectWithin(wish.farthest.upMm, 2.25, { abs: 1e-9 });
});

test('without a reading the rim lies at home', () => {
  const analysis = analyse({ ...record, home: { note: 'F3', upMm: -1.35, rightMm: 4 }, readings: [] });
  const { wishes } = heldWishes(analysis, (note) => note);
  expect(wishes[0]!.wish).toMatchObject({ farthest: { upMm: 1.35, rightMm: 4 } });
});
