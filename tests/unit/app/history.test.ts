import { describe, expect, test } from 'vitest';
import { MAX_STEPS, closeStep, redo, startHistory, step, undo } from '../../../src/app/history';

describe('undo and redo', () => {
  test('go back and forward one step at a time', () => {
    const three = step(step(startHistory('a'), 'b', null), 'c', null);
    expect(undo(three).present).toBe('b');
    expect(undo(undo(three)).present).toBe('a');
    expect(redo(undo(three)).present).toBe('c');
    expect(undo(startHistory('a')).present).toBe('a');
    expect(redo(three)).toBe(three);
  });

  test('steps with one key are undone together, until the run is closed', () => {
    const dragged = step(step(step(startHistory('a'), 'b', 'drag'), 'c', 'drag'), 'd', 'drag');
    expect(undo(dragged).present).toBe('a');
    const again = step(closeStep(dragged), 'e', 'drag');
    expect(undo(again).present).toBe('d');
  });

  test('a step by another key does not join', () => {
    expect(undo(step(step(startHistory('a'), 'b', 'one'), 'c', 'two')).present).toBe('b');
  });

  test('after an undo the same key starts a step of its own', () => {
    const undone = undo(step(step(startHistory('a'), 'b', null), 'c', 'drag'));
    expect(undo(step(undone, 'd', 'drag')).present).toBe('b');
  });

  test('a new step forgets what was undone', () => {
    expect(step(undo(step(startHistory('a'), 'b', null)), 'c', null).future).toEqual([]);
  });

  test('the same value is no step', () => {
    const history = startHistory('a');
    expect(step(history, 'a', null)).toBe(history);
  });

  test('only so many steps are kept', () => {
    let history = startHistory(0);
    for (let count = 1; count <= MAX_STEPS + 10; count++) history = step(history, count, null);
    expect(history.past).toHaveLength(MAX_STEPS);
    expect(history.past[0]).toBe(10);
  });
});
