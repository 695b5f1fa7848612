import { describe, expect, it } from 'vitest';
import { headGuide } from '../../../src/measure/headGuide';
import { GENERIC_HEAD } from '../../../src/measure/headShape';
import type { LandmarkName } from '../../../src/measure/marks';
import { rotationFromVector, turn } from '../../../src/measure/rotation';
import { expectWithin } from '../../support/expectWithin';

const PX_PER_MM = 5;
const held: readonly LandmarkName[] = ['inner-eye-right', 'inner-eye-left', 'outer-eye-right', 'outer-eye-left', 'cheekbone-right'];
/** Nodding 5°, turning 6°, and 20 px to the right; seen from far away. */
const turned = rotationFromVector([(5 * Math.PI) / 180, (6 * Math.PI) / 180, 0]);
const seen = (name: LandmarkName, rotation: typeof turned | null) => {
  const [x, y] = rotation ? turn(rotation, GENERIC_HEAD[name].placeMm) : GENERIC_HEAD[name].placeMm;
  return { x: PX_PER_MM * x + (rotation ? 20 : 0), y: -PX_PER_MM * y };
};
const point = (name: LandmarkName) => ({ name, marked: seen(name, null), now: seen(name, turned), sdPx: 0.2 });

describe('where a head’s other points should be', () => {
  it.each(['nose-bridge', 'cheekbone-left', 'ear-right'] as const)('%s of a turned generic head, within what is told', (name) => {
    const expected = headGuide(held.map(point), PX_PER_MM)!.expect(name, seen(name, null));
    const truth = seen(name, turned);
    expectWithin(expected.x, truth.x, { abs: 2 * expected.sdPx }, 'x');
    expectWithin(expected.y, truth.y, { abs: 2 * expected.sdPx }, 'y');
  });

  it('an ear three times nearer than by the others’ mean shift', () => {
    const marked = seen('ear-right', null);
    const truth = seen('ear-right', turned);
    const mean = (side: 'x' | 'y'): number => held.reduce((sum, name) => sum + (seen(name, turned)[side] - seen(name, null)[side]) / held.length, 0);
    const expected = headGuide(held.map(point), PX_PER_MM)!.expect('ear-right', marked);
    const plain = Math.hypot(marked.x + mean('x') - truth.x, marked.y + mean('y') - truth.y);
    expect(3 * Math.hypot(expected.x - truth.x, expected.y - truth.y)).toBeLessThan(plain);
  });

  it('one that has slipped is no guide', () => {
    const slipped = { ...point('nose-bridge'), now: { x: seen('nose-bridge', turned).x + 60, y: seen('nose-bridge', turned).y - 40 } };
    const without = headGuide(held.map(point), PX_PER_MM)!.expect('cheekbone-left', seen('cheekbone-left', null));
    const withIt = headGuide([...held.map(point), slipped], PX_PER_MM)!.expect('cheekbone-left', seen('cheekbone-left', null));
    expectWithin(withIt.x, without.x, { abs: 1 }, 'x');
    expectWithin(withIt.y, without.y, { abs: 1 }, 'y');
  });

  it('is less sure of few, and nothing is expected of one', () => {
    const sdOf = (count: number): number => headGuide(held.slice(0, count).map(point), PX_PER_MM)!.expect('ear-right', seen('ear-right', null)).sdPx;
    expect(sdOf(2)).toBeGreaterThan(1.2 * sdOf(5));
    expect(headGuide([point('nose-bridge')], PX_PER_MM)).toBeNull();
  });
});
