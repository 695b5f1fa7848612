/** The class view's address, in browsers that let a page rewrite its own and in one that does not. */
import { afterEach, expect, test, vi } from 'vitest';
import { leaveClass, noteStep, stepInAddress } from '../../../../src/app/classDoor';

afterEach(() => vi.unstubAllGlobals());

function pageAt(hash: string, replaceState: (data: unknown, unused: string, address: string) => void): { readonly hash: string } {
  const location = { hash, pathname: '/folder/page.html', search: '?language=de' };
  vi.stubGlobal('window', { location, history: { replaceState }, requestAnimationFrame: () => 0 });
  return location;
}

test.each([['#class', ''], ['#class/', null], ['#class/sideways', 'sideways'], ['#classes', null], ['#share', null], ['', null]])('%j names the step %j', (hash, step) => {
  expect(stepInAddress(hash)).toBe(step);
});

test('a step is written into the address, and leaving takes it out', () => {
  const written: string[] = [];
  pageAt('#class', (_, __, address) => void written.push(address));
  noteStep('sideways');
  leaveClass();
  expect(written).toEqual(['#class/sideways', '/folder/page.html?language=de']);
});

test('where the address may not be rewritten the class goes on, and can be left', () => {
  const location = pageAt('#class/sideways', () => {
    throw new DOMException('not for a page from a disk', 'SecurityError');
  });
  noteStep('your-turn');
  expect(location.hash).toBe('#class/sideways');
  leaveClass();
  expect(location.hash).toBe('');
});
