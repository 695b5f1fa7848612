/** The parts of film reading that need no browser: turning, times, kinds of files, the words of a refusal. */
import { describe, expect, test, vi } from 'vitest';
import { fileKind } from '../../../src/measure/fileKind';
import { brokenFilm, changedSize } from '../../../src/measure/filmBroken';
import { frameIndexAt, hasVariableRate } from '../../../src/measure/frameTimes';
import { unfitRate } from '../../../src/measure/hearFilm';
import { MOST_FILM_S, refusalOfLength } from '../../../src/measure/openFilm';
import { MOST_TRACED_FRAMES, packTrace } from '../../../src/measure/packedTrace';
import { storedSize } from '../../../src/measure/pictureSize';
import { createProgress, type FilmProgress } from '../../../src/measure/progress';
import { filmRefusals, stillRefusals } from '../../../src/measure/refusals';
import { openStill } from '../../../src/measure/stillPicture';
import { turnUpright } from '../../../src/measure/upright';
import { expectWithin } from '../../support/expectWithin';

describe('a plane is turned', () => {
  // Two rows of three, each row with a byte of filling behind it.
  const plane = Uint8Array.from([1, 2, 3, 0, 4, 5, 6, 0]);
  test.each([
    [0, false, [1, 2, 3, 4, 5, 6]],
    [90, false, [4, 1, 5, 2, 6, 3]],
    [180, false, [6, 5, 4, 3, 2, 1]],
    [270, false, [3, 6, 2, 5, 1, 4]],
    [0, true, [3, 2, 1, 6, 5, 4]],
    [90, true, [1, 4, 2, 5, 3, 6]],
    [180, true, [4, 5, 6, 1, 2, 3]],
    [270, true, [6, 3, 5, 2, 4, 1]],
  ] as const)('by %i°, flipped: %s', (rotationDeg, isFlipped, turned) => {
    const into = new Uint8Array(6);
    turnUpright(plane, 4, 3, 2, { rotationDeg, isFlipped }, into);
    expect([...into]).toEqual(turned);
  });

  const turns = ([0, 90, 180, 270] as const).flatMap((rotationDeg) => [false, true].map((isFlipped) => ({ rotationDeg, isFlipped })));
  test.each(turns)('by $rotationDeg°, flipped: $isFlipped, pixel by pixel, by ones and by fours, larger than a tile and no multiple of one', ({ rotationDeg, isFlipped }) => {
    for (const [width, height, stride] of [[75, 41, 75], [76, 44, 80], [76, 44, 79]] as const) {
      const large = Uint8Array.from({ length: stride * height }, (_, index) => (index * 31 + (index >> 3)) % 256);
      const into = new Uint8Array(width * height);
      turnUpright(large, stride, width, height, { rotationDeg, isFlipped }, into);
      const [turnedWidth] = rotationDeg % 180 === 0 ? [width] : [height];
      for (let y = 0; y < height; y++) {
        for (let x = 0; x < width; x++) {
          const [turnedX, turnedY] = { 0: [x, y], 90: [height - 1 - y, x], 180: [width - 1 - x, height - 1 - y], 270: [y, width - 1 - x] }[rotationDeg] as [number, number];
          const shownX = isFlipped ? turnedWidth - 1 - turnedX : turnedX;
          if (into[turnedY * turnedWidth + shownX] !== large[y * stride + x]) throw new Error(`${width} × ${height}, stride ${stride}: pixel ${x}, ${y}`);
        }
      }
    }
  });

  test('only where it has room', () => {
    expect(() => turnUpright(plane, 4, 3, 2, { rotationDeg: 0, isFlipped: false }, new Uint8Array(5))).toThrow(/into: 5 bytes; allowed: 6 or more/);
  });
});

describe('times', () => {
  test('the frame of a time is the last that has begun', () => {
    const timesS = [0.02, 0.05, 0.09, 0.2];
    expect([-1, 0.02, 0.049, 0.05, 0.19, 0.2, 9].map((timeS) => frameIndexAt(timesS, timeS))).toEqual([0, 0, 0, 1, 2, 3, 3]);
    expect(() => frameIndexAt([], 1)).toThrow(/frameTimesS: no frames/);
  });

  test('rounding to the container’s ticks is not a variable rate, a slower camera is', () => {
    const rounded = (perSecond: number, ticks: number): number[] => Array.from({ length: 60 }, (_, index) => Math.round((index * ticks) / perSecond) / ticks);
    expect(hasVariableRate(rounded(29.97, 1000), 1000)).toBe(false);
    expect(hasVariableRate(rounded(59.94, 600), 600)).toBe(false);
    expect(hasVariableRate(rounded(29.97, 90_000), 90_000)).toBe(false);
    expect(hasVariableRate([0, 0.0333, 0.0667, 0.1083, 0.15], 90_000)).toBe(true);
    expect(hasVariableRate([0, 0.0333, 0.1, 0.1333], 90_000)).toBe(true);
    expect(hasVariableRate([0], 1000)).toBe(false);
  });
});

describe('a file is told by its first bytes', () => {
  const bytes = (...parts: (string | number)[]): Uint8Array =>
    Uint8Array.from(parts.flatMap((part) => (typeof part === 'number' ? [part] : [...part].map((letter) => letter.charCodeAt(0)))));
  test.each([
    ['text', new TextEncoder().encode('Übungen für Dienstag, 4 März\r\n\tnichts weiter')],
    ['text', new TextEncoder().encode(`${'é'.repeat(300)}`).subarray(0, 511)],
    ['picture', bytes(0xff, 0xd8, 0xff, 0xe1)],
    ['picture', bytes(0x89, 'PNG', 13, 10, 26, 10)],
    ['picture', bytes('RIFF', 1, 2, 3, 4, 'WEBPVP8 ')],
    ['sound', bytes('RIFF', 1, 2, 3, 4, 'WAVEfmt ')],
    ['sound', bytes('ID3', 4, 0)],
    ['sound', bytes(0xff, 0xfb, 0x90, 0)],
    ['sound', bytes(0, 0, 0, 24, 'ftypM4A ')],
    ['film', bytes(0, 0, 0, 24, 'ftypqt  ')],
    ['film', bytes(0x1a, 0x45, 0xdf, 0xa3)],
    ['heic', bytes(0, 0, 0, 24, 'ftypheic')],
    ['unknown', bytes(1, 2, 3, 4, 5, 6)],
    ['unknown', bytes()],
    ['unknown', bytes(0xc3, 0x28, 0xa0, 0xa1, 'and more of it')],
  ] as const)('%s', (kind, start) => {
    expect(fileKind(start)).toBe(kind);
  });
});

describe('the size of a picture, before it is decoded', () => {
  const from = (...parts: readonly (string | readonly number[])[]): Uint8Array =>
    Uint8Array.from(parts.flatMap((part) => (typeof part === 'string' ? [...part].map((letter) => letter.charCodeAt(0)) : part)));
  const zeros = (count: number): number[] => new Array<number>(count).fill(0);
  test.each([
    ['GIF', from('GIF89a', [0x40, 0x9c, 0x30, 0x75])],
    ['BMP', from('BM', zeros(12), [40, 0, 0, 0], [0x40, 0x9c, 0, 0], [0xd0, 0x8a, 0xff, 0xff])],
    ['BMP of the oldest kind', from('BM', zeros(12), [12, 0, 0, 0], [0x40, 0x9c], [0x30, 0x75], zeros(4))],
    ['AVIF, its tiles being smaller', from(zeros(4), 'ftypavif', zeros(8), 'ispe', zeros(4), [0, 0, 2, 0, 0, 0, 2, 0], 'ispe', zeros(4), [0, 0, 0x9c, 0x40, 0, 0, 0x75, 0x30], zeros(8))],
  ])('%s', (_, bytes) => {
    expect(storedSize(bytes)).toEqual({ width: 40_000, height: 30_000 });
  });

  test('is not told by what ends before it, or is something else', () => {
    expect([from('GIF8'), from('BM', zeros(8)), from(zeros(4), 'ftypavif'), from('hello, teacher')].map(storedSize)).toEqual([null, null, null, null]);
  });
});

describe('a picture that there is no memory for', () => {
  test('is let go before anybody is told', async () => {
    const close = vi.fn();
    vi.stubGlobal('createImageBitmap', () => Promise.resolve({ width: 10, height: 10, close }));
    vi.stubGlobal('OffscreenCanvas', class { getContext = (): null => null; });
    await expect(openStill(new Blob([Uint8Array.from([1, 2, 3, 200])]))).rejects.toThrow('no canvas');
    expect(close).toHaveBeenCalledOnce();
    vi.unstubAllGlobals();
  });
});

describe('a refusal', () => {
  test('repeats only the printable beginning of a name', () => {
    expect(filmRefusals.text(`a\u0000b\n${'c'.repeat(100)}.mp4`).words).toMatch(/^“a b c{56}…” holds text/);
    expect(stillRefusals.text('').words).toMatch(/^The file holds text/);
  });

  test('tells in every case what to do', () => {
    const films = [
      ...[filmRefusals.empty(), filmRefusals.unreadable(), filmRefusals.text('a'), filmRefusals.picture('a'), filmRefusals.otherKind('a'), filmRefusals.soundOnly('a')],
      ...[filmRefusals.noFrames(), filmRefusals.cutShort(), filmRefusals.damaged(), filmRefusals.codec('HEVC'), filmRefusals.tooLarge(8000, 4000, 9e6)],
      ...[filmRefusals.tooLong(9000, 1200), filmRefusals.tooManyFrames(144_000, 72_000), filmRefusals.oldBrowser()],
    ];
    const stills = [
      ...[stillRefusals.empty(), stillRefusals.unreadable(), stillRefusals.text('a'), stillRefusals.film('a'), stillRefusals.otherKind('a'), stillRefusals.cutShort()],
      ...[stillRefusals.damaged(), stillRefusals.codec('HEIC'), stillRefusals.tooLarge(20_000, 9000, 1e8)],
    ];
    for (const { words } of [...films, ...stills]) expect(words).toMatch(/[Cc]opy|[Cc]hoose|[Dd]rop|[Ss]ave|[Ss]et|[Cc]ut|[Uu]se a newer|[Mm]ake it/);
    expect(filmRefusals.tooLong(9000, 1200).words).toContain('lasts 2 h 30 min; at most 20 minutes');
    expect(filmRefusals.tooManyFrames(144_007, 72_000).words).toContain('has 144,007 pictures; at most 72,000');
  });

  test('a film whose trace no lesson could keep is refused before anybody has followed it', () => {
    expect(refusalOfLength(MOST_TRACED_FRAMES, MOST_FILM_S)).toBeNull();
    expect(refusalOfLength(MOST_TRACED_FRAMES + 1, 600)?.words).toContain('has 72,001 pictures');
    expect(refusalOfLength(10, MOST_FILM_S + 1)?.words).toContain('lasts 20 minutes');
    const frames = Array.from({ length: MOST_TRACED_FRAMES + 1 }, (_, index) => ({ timeS: index / 240, rim: null, points: {} }));
    expect(() => packTrace({ view: 'front', frames })).toThrow(RangeError);
  });
});

describe('a film that breaks off', () => {
  test('is damaged at a place, or gone', () => {
    expect(brokenFilm(3.21, new Error('decoder')).message).toContain('past 3.2 s: it is damaged there');
    expect(brokenFilm(3.21, new DOMException('', 'NotReadableError')).message).toContain('can no longer be read');
  });

  test('is told where its pictures change their size, or its sound cannot be listened to', () => {
    expect(changedSize(3.21, { width: 640, height: 360 }, { width: 640, height: 360 })).toBeNull();
    expect(changedSize(3.21, { width: 1280, height: 720 }, { width: 640, height: 360 })?.message).toContain('From 3.2 s on the film’s pictures have another size (1280 × 720 px instead of 640 × 360)');
    expect(unfitRate({ sampleRate: 48_000, timeS: 0 })).toBeNull();
    expect([7350, 352_800, NaN].map((sampleRate) => unfitRate({ sampleRate, timeS: 0 })?.message.includes('Tap the notes by hand'))).toEqual([true, true, true]);
  });
});

describe('progress', () => {
  test('tells at most ten times a second, the time left at the pace so far, and the end', () => {
    let nowMs = 0;
    const told: FilmProgress[] = [];
    const progress = createProgress({ of: 100, ofS: 4, onProgress: (one) => told.push(one), now: () => nowMs });
    for (let frame = 1; frame <= 100; frame++) {
      nowMs = frame * 30;
      progress.done();
    }
    expect(told.length).toBe(25);
    expect(told[0]).toEqual({ doneS: 4 * 0.04, ofS: 4, leftS: null });
    // After 50 frames at 30 ms each the other 50 take 1.5 s.
    const half = told.find(({ doneS }) => doneS >= 2)!;
    expectWithin(half.leftS!, (100 - 25 * half.doneS) * 0.03, { abs: 1e-9 }, 'time left');
    expect(told.at(-1)).toEqual({ doneS: 4, ofS: 4, leftS: 0 });
  });
});
