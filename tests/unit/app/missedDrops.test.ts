import { describe, expect, test } from 'vitest';
import { catchMissedDrops, missedWords } from '../../../src/app/missedDrops';

const dragged = (type: string, types: readonly string[], names: readonly string[] = []): Event =>
  Object.assign(new Event(type, { cancelable: true }), { dataTransfer: { types, files: names.map((name) => ({ name })) } });

describe('files dropped beside the doors', () => {
  test('do not open in the page’s stead, and it is said where they go', () => {
    const page = new EventTarget();
    const missed: (readonly string[])[] = [];
    const end = catchMissedDrops(page, (names) => missed.push(names));
    const [over, drop, text] = [dragged('dragover', ['Files']), dragged('drop', ['Files'], ['a.mp4']), dragged('drop', ['text/plain'])];
    for (const event of [over, drop, text]) page.dispatchEvent(event);
    expect([over, drop, text].map((event) => event.defaultPrevented)).toEqual([true, true, false]);
    expect(missed).toEqual([['a.mp4']]);
    // A door has taken them already.
    const taken = dragged('drop', ['Files'], ['b.mp4']);
    taken.preventDefault();
    page.dispatchEvent(taken);
    end();
    const after = dragged('drop', ['Files'], ['c.mp4']);
    page.dispatchEvent(after);
    expect([missed.length, after.defaultPrevented]).toEqual([1, false]);
  });

  test('words', () => {
    expect(missedWords(['a.mp4'])).toMatch(/^a\.mp4 was dropped where nothing takes files\. Drop pictures and films on/);
    expect([missedWords([]), missedWords(['a', 'b'])].map((words) => words.split(' dropped')[0])).toEqual(['The files were', 'a, b were']);
  });
});
