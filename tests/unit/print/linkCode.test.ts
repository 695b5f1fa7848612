/** Codes read back from the dots they are drawn with, by a reader that has nothing to do with what drew them. */
import { createCanvas, loadImage } from '@napi-rs/canvas';
import readCode from 'jsqr';
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, test } from 'vitest';
import { LinkCode } from '../../../src/print/LinkCode';
import { QUIET_SQUARES, ROOM_VERSION, linkCode } from '../../../src/print/linkCode';

const address = (characters: number): string => {
  const base = 'https://example.org/rimpath/#see1=';
  // Letters of every kind that a link has, none of them in a row that would compress.
  return base + Array.from({ length: characters - base.length }, (_, at) => LETTERS[(at * 29 + (at >> 5) * 7) % 64]).join('');
};
const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';

const codeOf = (text: string) => {
  const code = linkCode(text);
  if (code.kind !== 'code') throw new Error(`no code of ${text.length} characters`);
  return code;
};

/** The page's own SVG as a picture so many dots wide, seen through a lens that blurs by `blurDots`; then what the reader finds in it. */
async function readBack(text: string, dots: number, blurDots = 0): Promise<string | null> {
  const svg = renderToStaticMarkup(createElement(LinkCode, { squares: codeOf(text).squares, label: 'code' }))
    .replace('<svg ', `<svg xmlns="http://www.w3.org/2000/svg" width="${4 * dots}" height="${4 * dots}" `);
  const image = await loadImage(Buffer.from(svg));
  const canvas = createCanvas(dots, dots);
  const context = canvas.getContext('2d');
  context.imageSmoothingEnabled = true;
  context.imageSmoothingQuality = 'high';
  context.filter = blurDots > 0 ? `blur(${blurDots}px)` : 'none';
  context.drawImage(image, 0, 0, dots, dots);
  const { data } = context.getImageData(0, 0, dots, dots);
  return readCode(new Uint8ClampedArray(data), dots, dots)?.data ?? null;
}

describe('a link as a code', () => {
  test.each([60, 131, 259, 326, 598, 858])('%d characters are read back to the letter', async (characters) => {
    const text = address(characters);
    expect(await readBack(text, 800)).toBe(text);
  });

  test('the finest that is made is read from a blurred picture of three dots a square, as from the back of a room', async () => {
    const text = address(858);
    const { version, squares } = codeOf(text);
    expect(version).toBe(ROOM_VERSION);
    expect(await readBack(text, 3 * (squares.length + 2 * QUIET_SQUARES), 0.7)).toBe(text);
  });

  test('one that is spoilt is not read as another: the check can fail', async () => {
    expect(await readBack(address(858), 90)).toBe(null);
  });

  test('the fewest squares first, and what room is left goes to error correction', () => {
    // Version 1 holds 17 letters at the lowest level and 7 at the highest: the standard’s own table.
    expect(codeOf('a'.repeat(7))).toMatchObject({ version: 1, level: 'high' });
    expect(codeOf('a'.repeat(11))).toMatchObject({ version: 1, level: 'quartile' });
    expect(codeOf('a'.repeat(17))).toMatchObject({ version: 1, level: 'low' });
    expect(codeOf('a'.repeat(18))).toMatchObject({ version: 2 });
    expect(codeOf('a'.repeat(858))).toMatchObject({ version: 20, level: 'low' });
  });

  test('too fine for a room, or for any code', () => {
    expect(linkCode('a'.repeat(859))).toEqual({ kind: 'too-long', squaresASide: 101 });
    expect(linkCode('a'.repeat(2953))).toEqual({ kind: 'too-long', squaresASide: 177 });
    expect(linkCode('a'.repeat(2954))).toEqual({ kind: 'too-long', squaresASide: null });
    expect(() => linkCode('a', 41)).toThrow('most: 41; allowed: a whole number from 1 to 40');
  });
});
