import { describe, expect, test } from 'vitest';
import { PICTURE_OPENING, pageWithPicture } from '../../../src/app/oneFilePage';

const page = (inside = ''): string => `<!doctype html><body>${PICTURE_OPENING}${inside}</script><script type="module">const a = '${PICTURE_OPENING}';</script></body>`;
const inside = (text: string): string => text.slice(text.indexOf(PICTURE_OPENING) + PICTURE_OPENING.length, text.indexOf('</script>'));

describe('a picture put into the page that stands for itself', () => {
  test.each(['</script><script>alert(1)</script>', '<!--<script>', '</SCRIPT >', ']]>', '\u2028\u2029', '$&$1', '&lt;'])('words that would end the element, or be taken for a place: %j', (words) => {
    const text = JSON.stringify({ words });
    const made = pageWithPicture(page(), text)!;
    expect(JSON.parse(inside(made))).toEqual({ words });
    expect(made.replace(inside(made), () => '')).toBe(page());
  });

  test('another picture takes the place of the one that was in it', () => {
    expect(pageWithPicture(page('{"a":1}'), '{"b":2}')).toBe(page('{"b":2}'));
  });

  test('a text that is no such page', () => {
    for (const text of ['', '<!doctype html><title>Not found</title>', PICTURE_OPENING]) expect(pageWithPicture(text, '{}')).toBe(null);
  });
});
