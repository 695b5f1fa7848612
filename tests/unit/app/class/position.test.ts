import { describe, expect, test } from 'vitest';
import type { PlannedStep } from '../../../../src/app/class/plan';
import { type Position, atStep, back, firstOf, forward, lastOf } from '../../../../src/app/class/position';
import { wishOf } from '../../../../src/app/class/useClassKeys';
import { stepInAddress } from '../../../../src/app/classDoor';
import { classes } from '../../../../src/records/classes';

const [model] = classes;

/** Small letters show at once, capitals ask first; a minus before a letter: switched off. */
function steps(letters: string): PlannedStep[] {
  return [...letters.matchAll(/(-?)([A-Za-z])/g)].map(([, off, id]) => {
    const { question: _none, ...plain } = model.steps[0]!;
    const asks = id !== id!.toLowerCase();
    const step = { ...plain, id: id!, ...(asks && { question: { words: 'Which way?', about: 'bell up or down' as const } }) };
    return { step, on: off === '', title: id!, words: '', toSay: '', worded: false };
  });
}

const name = ({ stepId, shown }: Position): string => `${stepId}${shown ? '!' : '?'}`;
const walk = (letters: string, how: typeof forward, from: Position, times: number): string => {
  const all = steps(letters);
  const places = [from];
  for (let i = 0; i < times; i++) places.push(how(all, places.at(-1)!));
  return places.map(name).join(' ');
};

describe('forward and back', () => {
  test('a question takes a key of its own; the end is the end', () => {
    expect(walk('aBc', forward, firstOf(steps('aBc')), 4)).toBe('a! B? B! c! c!');
  });

  test('back over the answer, then to the step before', () => {
    expect(walk('aBc', back, lastOf(steps('aBc')), 4)).toBe('c! B! B? a! a!');
  });

  test('what is switched off is skipped, but can be shown and gone on from', () => {
    expect(walk('a-bc', forward, firstOf(steps('a-bc')), 1)).toBe('a! c!');
    expect(walk('a-bc', forward, atStep(steps('a-bc'), 'b'), 1)).toBe('b! c!');
    expect(walk('a-bc', back, atStep(steps('a-bc'), 'b'), 1)).toBe('b! a!');
    expect(name(firstOf(steps('-abc')))).toBe('b!');
    expect(name(lastOf(steps('ab-c')))).toBe('b!');
  });

  test('an unknown step in the address is the first one', () => {
    expect(name(atStep(steps('-aB'), 'zz'))).toBe('B?');
    expect(() => atStep([], 'a')).toThrow(RangeError);
  });
});

describe('keys', () => {
  test.each([
    ['PageDown', 'field', 'forward'],
    ['PageUp', 'button', 'back'],
    ['ArrowRight', 'elsewhere', 'forward'],
    ['ArrowLeft', 'button', 'back'],
    ['ArrowRight', 'field', null],
    [' ', 'elsewhere', 'forward'],
    [' ', 'button', null],
    ['Home', 'elsewhere', 'first'],
    ['End', 'elsewhere', 'last'],
    ['End', 'field', null],
    ['Escape', 'field', 'leaveField'],
    ['Escape', 'button', 'leave'],
    ['Enter', 'elsewhere', null],
    ['toString', 'elsewhere', null],
  ] as const)('%s in a %s: %s', (key, target, wish) => {
    expect(wishOf(key, false, target)).toBe(wish);
  });

  test('Space with Shift goes back', () => {
    expect(wishOf(' ', true, 'elsewhere')).toBe('back');
  });
});

test('the address names the class view and its step, and nothing else does', () => {
  expect(['#class', '#class/', '#class/your-turn', '#classes', '#player', ''].map(stepInAddress)).toEqual(['', null, 'your-turn', null, null, null]);
});
