import { describe, expect, test } from 'vitest';
import type { ClassPlan, ClassSpec } from '../../../../src/records/classSchema';
import { classes } from '../../../../src/records/classes';
import { type PlanEdit, asItCame, editedPlan, isAsItCame, plannedSteps } from '../../../../src/app/class/plan';
import { loadPlan, savePlan } from '../../../../src/app/class/planKept';

const [model] = classes;
const stepOf = (id: string, off?: true): ClassSpec['steps'][number] => ({ ...model.steps[0]!, id, title: `Title ${id}`, words: `Words ${id}`, ...(off && { off }) });
const spec: ClassSpec = { ...model, id: 'test', steps: [stepOf('a'), stepOf('b'), stepOf('c', true)] };
const came = asItCame(spec);

const after = (...edits: readonly PlanEdit[]): ClassPlan => edits.reduce((plan, edit) => editedPlan(spec, plan, edit), came);
const order = (plan: ClassPlan): string => plannedSteps(spec, plan).map(({ step }) => step.id).join('');
const shown = (plan: ClassPlan): string => plannedSteps(spec, plan).flatMap(({ step, on }) => (on ? [step.id] : [])).join('');

describe('order', () => {
  test('as it came, and moved either way', () => {
    expect(order(came)).toBe('abc');
    expect(order(after({ kind: 'move', id: 'b', by: -1 }))).toBe('bac');
    expect(order(after({ kind: 'move', id: 'a', by: 1 }, { kind: 'move', id: 'a', by: 1 }))).toBe('bca');
  });

  test('beyond either end, and a step there is none of: the very same plan', () => {
    for (const edit of [{ id: 'a', by: -1 }, { id: 'c', by: 1 }, { id: 'z', by: 1 }] as const) expect(after({ kind: 'move', ...edit })).toBe(came);
  });

  test('a plan of another time: steps it does not know stand after the one before them, steps that are gone and doubled ones are left out', () => {
    expect(order({ ...came, order: ['c', 'gone', 'a', 'c'] })).toBe('cab');
    expect(order({ ...came, order: ['c', 'b'] })).toBe('acb');
  });
});

describe('which are shown', () => {
  test('a step comes switched off where the class says so', () => {
    expect(shown(came)).toBe('ab');
    expect(shown(after({ kind: 'switch', id: 'c', on: true }, { kind: 'switch', id: 'a', on: false }))).toBe('bc');
  });

  test('the last one cannot be switched off', () => {
    const one = after({ kind: 'switch', id: 'a', on: false });
    expect(editedPlan(spec, one, { kind: 'switch', id: 'b', on: false })).toBe(one);
  });
});

describe('words', () => {
  test('some of a step’s, the others as they came', () => {
    const plan = after({ kind: 'word', id: 'a', words: { title: 'Ours' } }, { kind: 'word', id: 'a', words: { toSay: 'Slowly.' } });
    expect(plannedSteps(spec, plan)[0]).toMatchObject({ title: 'Ours', words: 'Words a', toSay: 'Slowly.', worded: true });
    expect(plannedSteps(spec, plan)[1]).toMatchObject({ title: 'Title b', worded: false });
  });

  test('an emptied heading is as it came; words for the room may be empty', () => {
    const plan = after({ kind: 'word', id: 'a', words: { title: ' ', words: '' } });
    expect(plannedSteps(spec, plan)[0]).toMatchObject({ title: 'Title a', words: '' });
  });

  test('typed back to what they were, nothing is the teacher’s own', () => {
    const plan = after({ kind: 'word', id: 'a', words: { title: 'Ours' } }, { kind: 'word', id: 'a', words: { title: 'Title a' } });
    expect(isAsItCame(plan)).toBe(true);
  });
});

test('back as it came: one step’s words, or everything', () => {
  const plan = after({ kind: 'word', id: 'a', words: { title: 'Ours' } }, { kind: 'switch', id: 'b', on: false }, { kind: 'move', id: 'a', by: 1 });
  expect(plannedSteps(spec, editedPlan(spec, plan, { kind: 'words as they came', id: 'a' })).map(({ title }) => title)).toEqual(['Title b', 'Title a', 'Title c']);
  expect(editedPlan(spec, plan, { kind: 'all as it came' })).toEqual(came);
});

describe('kept in the browser', () => {
  const shelf = (start: Record<string, string> = {}) => {
    const kept = new Map(Object.entries(start));
    return { kept, getItem: (key: string) => kept.get(key) ?? null, setItem: (key: string, value: string) => void kept.set(key, value), removeItem: (key: string) => void kept.delete(key) };
  };

  test('comes back as it was left, and leaves nothing behind once it is as it came', () => {
    const storage = shelf();
    const plan = after({ kind: 'move', id: 'a', by: 1 }, { kind: 'word', id: 'b', words: { words: 'Ours.' } });
    expect(savePlan(plan, storage)).toBe(true);
    expect(loadPlan(spec, storage)).toEqual(plan);
    savePlan(came, storage);
    expect(storage.kept.size).toBe(0);
  });

  test.each(['', 'null', '{', '[]', '{"classId":"test"}', '{"classId":"other","order":[],"shown":{},"words":{}}', '{"classId":"test","order":[1],"shown":{},"words":{}}'])(
    'what is not whole, or of another class, is as if it were not there: %s',
    (text) => {
      expect(loadPlan(spec, shelf({ 'rimpath.class.1': text }))).toEqual(came);
    },
  );

  test('a browser that keeps nothing says so', () => {
    const refuses = { getItem: () => null, setItem: () => { throw new Error('full'); }, removeItem: () => undefined };
    expect(savePlan(after({ kind: 'move', id: 'a', by: 1 }), refuses)).toBe(false);
    expect(savePlan(came, null)).toBe(false);
    expect(loadPlan(spec, null)).toEqual(came);
  });
});
