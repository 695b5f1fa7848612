import { describe, expect, it } from 'vitest';
import { crc32 } from '../../../src/core/crc32';
import { isSameFile, markFile } from '../../../src/measure/fileMark';

const bytes = (length: number, seed = 0): Uint8Array<ArrayBuffer> => Uint8Array.from({ length }, (_, at) => (at * 31 + seed + (at >> 8)) & 0xff);
const mark = (content: Uint8Array<ArrayBuffer>, name = 'film.mp4', lastModified = 0) => markFile(new File([content], name, { lastModified }));

describe('the mark of a file', () => {
  it('is its size and the check sums of its first and last 64 kB', async () => {
    const content = bytes(200_000);
    const hex = (part: Uint8Array): string => crc32(part).toString(16).padStart(8, '0');
    expect(await mark(content)).toEqual({ name: 'film.mp4', bytes: 200_000, digest: hex(content.subarray(0, 65_536)) + hex(content.subarray(200_000 - 65_536)) });
    expect((await mark(bytes(3))).digest).toBe(hex(bytes(3)).repeat(2));
    expect(await mark(bytes(0))).toMatchObject({ bytes: 0, digest: '0000000000000000' });
  });

  it('knows a file again under another name and date, and no other file', async () => {
    const content = bytes(200_000);
    const one = await mark(content);
    expect(isSameFile(one, await mark(content, 'copy of film.mp4', 12345))).toBe(true);
    expect(isSameFile(one, await mark(bytes(200_001)))).toBe(false);
    for (const at of [0, 65_535, 199_999]) {
      const other = content.slice();
      other[at] = (other[at] as number) ^ 1;
      expect(isSameFile(one, await mark(other))).toBe(false);
    }
  });

  it.each<[string, string]>([
    ['C:\\films\\take 2.mp4', 'take 2.mp4'],
    ['films/take 2.mp4', 'take 2.mp4'],
    ['a\u0000b\u202ec.mp4', 'a b c.mp4'],
    ['folder/', 'unnamed'],
    ['', 'unnamed'],
    [`${'x'.repeat(300)}.mp4`, 'x'.repeat(200)],
  ])('calls %j %j', async (given, name) => {
    expect(await markFile({ name: given, size: 0, slice: () => new Blob([]) })).toMatchObject({ name });
  });

  it('fails where the file cannot be read', async () => {
    const gone = { name: 'x', size: 1, slice: () => ({ arrayBuffer: () => Promise.reject(new DOMException('gone', 'NotReadableError')) }) as unknown as Blob };
    await expect(markFile(gone)).rejects.toThrow('gone');
  });
});
