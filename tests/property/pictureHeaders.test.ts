/** Camera notes and picture headers from any bytes: never a throw, never a wait, and the right answer where there is one. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cameraNotes } from '../../src/measure/exif';
import { fileKind } from '../../src/measure/fileKind';
import { isWhole, pictureHeader } from '../../src/measure/pictureHeader';
import { longer, propertySeed, seedWords } from '../support/seed';

const runs = { seed: propertySeed, numRuns: longer(500) };
/** A kilobyte of nonsense is read in less than this, ms, on a machine that does other things too. */
const SLOW_MS = 250;

const looksAt = (bytes: Uint8Array): void => {
  const begin = performance.now();
  fileKind(bytes);
  cameraNotes(bytes);
  const header = pictureHeader(bytes);
  if (header !== null) {
    isWhole(bytes, header);
    cameraNotes(header.exif);
    expect(Number.isInteger(header.width) && Number.isInteger(header.height)).toBe(true);
  }
  expect(performance.now() - begin).toBeLessThan(SLOW_MS);
};

describe(`bytes that make no sense ${seedWords}`, () => {
  test('of any kind', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 1000 }), looksAt), runs);
  });

  const beginnings = [
    [0xff, 0xd8, 0xff, 0xe1, 0x00, 0x40, 0x45, 0x78, 0x69, 0x66, 0, 0],
    [0xff, 0xd8, 0xff],
    [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52],
    [...new TextEncoder().encode('RIFFxxxxWEBPVP8X')],
    [...new TextEncoder().encode('RIFFxxxxWEBPVP8L')],
    [0x4d, 0x4d, 0, 42, 0, 0, 0, 8],
    [0x49, 0x49, 42, 0, 8, 0, 0, 0],
  ];
  test('after a beginning that does', () => {
    fc.assert(
      fc.property(fc.constantFrom(...beginnings), fc.uint8Array({ maxLength: 400 }), (beginning, rest) => looksAt(Uint8Array.from([...beginning, ...rest]))),
      runs,
    );
  });

  test('in a good block with some bytes exchanged, or cut off', () => {
    fc.assert(
      fc.property(
        fc.boolean(),
        fc.array(fc.tuple(fc.nat(70), fc.nat(255)), { maxLength: 6 }),
        fc.nat(200),
        (isLittle, changes, kept) => {
          const bytes = jpegOf(tiffOf(26, isLittle), 400, 300);
          for (const [at, value] of changes) bytes[at % bytes.length] = value;
          looksAt(bytes.subarray(0, kept));
          looksAt(bytes);
        },
      ),
      runs,
    );
  });
});

describe(`what is there is found ${seedWords}`, () => {
  test('focal length and size, in either byte order', () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 2000 }), fc.integer({ min: 1, max: 65_535 }), fc.integer({ min: 1, max: 65_535 }), fc.boolean(), (focal, width, height, isLittle) => {
        const header = pictureHeader(jpegOf(tiffOf(focal, isLittle), width, height));
        expect(header).toMatchObject({ format: 'JPEG', width, height });
        expect(cameraNotes(header!.exif)).toEqual({ focal35Mm: focal });
      }),
      runs,
    );
  });

  test.each([0, 4, 2001, 65_535])('but a focal length of %i mm is none', (focal) => {
    expect(cameraNotes(tiffOf(focal, false))).toEqual({ focal35Mm: null });
  });

  test('a whole picture ends, one that is cut anywhere does not, whatever lies behind the end', () => {
    const whole = jpegOf(tiffOf(26, false), 40, 30);
    const header = pictureHeader(whole)!;
    expect(isWhole(whole, header)).toBe(true);
    expect(isWhole(Uint8Array.from([...whole, 1, 2, 3, 4]), header)).toBe(true);
    for (let length = 2; length < whole.length; length++) expect([length, isWhole(whole.subarray(0, length), header)]).toEqual([length, false]);
  });
});

/** Exif 2.32: first folder with one entry that leads to the second, which has the focal length as on 35 mm film. */
function tiffOf(focal35Mm: number, isLittle: boolean): Uint8Array {
  const bytes = new Uint8Array(46);
  const view = new DataView(bytes.buffer);
  view.setUint16(0, isLittle ? 0x4949 : 0x4d4d);
  view.setUint16(2, 42, isLittle);
  view.setUint32(4, 8, isLittle);
  const entry = (at: number, tag: number, type: number, value: number): void => {
    view.setUint16(at - 2, 1, isLittle);
    view.setUint16(at, tag, isLittle);
    view.setUint16(at + 2, type, isLittle);
    view.setUint32(at + 4, 1, isLittle);
    if (type === 3) view.setUint16(at + 8, value, isLittle);
    else view.setUint32(at + 8, value, isLittle);
  };
  entry(10, 0x8769, 4, 26);
  entry(28, 0xa405, 3, focal35Mm);
  return bytes;
}

/** A JPEG as far as its markers go: Exif with a small picture's end mark behind it, the size, some data, the end. */
function jpegOf(tiff: Uint8Array, width: number, height: number): Uint8Array {
  const segment = (marker: number, ...body: number[]): number[] => [0xff, marker, (body.length + 2) >> 8, (body.length + 2) & 0xff, ...body];
  return Uint8Array.from([
    ...[0xff, 0xd8],
    ...segment(0xe1, 0x45, 0x78, 0x69, 0x66, 0, 0, ...tiff, 0xff, 0xd9),
    ...segment(0xc0, 8, height >> 8, height & 0xff, width >> 8, width & 0xff, 1, 1, 0x11, 0),
    ...segment(0xda, 1, 1, 0, 0, 63, 0),
    ...[12, 0xff, 0, 34, 0xff, 0xd0, 56],
    ...[0xff, 0xd9],
  ]);
}
