/** Links: what goes in comes out; and whatever is done to one, it is read as what went in, as nothing, or refused in a sentence, without anything kept being touched. */
import { deflateSync, strToU8 } from 'fflate';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crc32 } from '../../src/core/crc32';
import { linkOf, readLink } from '../../src/records/pictureLink';
import { pictureOf, pictureText } from '../../src/records/sharedPicture';
import { openShelf } from '../../src/records/shelf';
import { demoPlayers } from '../../src/records/library';
import { fullPlayer } from '../support/records';
import { longer, propertySeed, seedWords } from '../support/seed';
import { EVERYTHING, UNTICKED, VIEW, anyChoice, anyPlayer, anyView, unnamed } from '../support/sharedPictures';
import { createTabbedBrowser } from '../support/tabs';

const PICTURES = longer(600);
const MUTATED = longer(5_000);
const BASE = 'https://example.org/rimpath/';

const linked = (picture: ReturnType<typeof pictureOf>): string => {
  const made = linkOf(picture, BASE);
  if (made.kind !== 'link') throw new Error(`${made.characters} characters`);
  return made.address;
};

describe('links', () => {
  it(`${PICTURES} random pictures come back as they were ${seedWords}`, { timeout: 60 * PICTURES }, () => {
    fc.assert(
      fc.property(anyPlayer, anyView, anyChoice, (player, view, choice) => {
        const picture = pictureOf(player, player.lessons[0]!.id, view, choice);
        const read = readLink(new URL(linked(picture)).hash);
        expect(read.kind).toBe('picture');
        if (read.kind !== 'picture') return;
        // A place beyond the last reading is brought back to it.
        const readings = picture.player.lessons[0]!.readings.length;
        const selected = Math.min(picture.view.selected, Math.max(0, readings - 1));
        expect(unnamed(read.picture)).toEqual(unnamed({ ...picture, view: { ...picture.view, selected } }));
      }),
      { seed: propertySeed, numRuns: PICTURES },
    );
  });

  it(`${MUTATED} mutated links never throw and never change what is kept ${seedWords}`, { timeout: 60 * MUTATED }, async () => {
    const tab = createTabbedBrowser().openTab();
    const shelf = await openShelf(tab);
    await shelf.save(fullPlayer(), 0);
    const before = JSON.stringify((await shelf.all()).players);
    const begun = tab.transactions();
    const originals = [
      ...demoPlayers.map(({ player }) => pictureOf(player, '', { ...VIEW, selected: 2 }, UNTICKED)),
      pictureOf(fullPlayer(), 'lesson-1', VIEW, EVERYTHING),
    ].map((picture) => {
      const { hash } = new URL(linked(picture));
      const read = readLink(hash);
      return { hash, whole: read.kind === 'picture' ? JSON.stringify(unnamed(read.picture)) : '', text: pictureText(picture) };
    });
    const counts = { none: 0, refused: 0, same: 0, other: 0 };
    const look = (hash: string, whole: string | null): void => {
      const read = readLink(hash);
      if (read.kind === 'picture') {
        const same = JSON.stringify(unnamed(read.picture)) === whole;
        counts[same ? 'same' : 'other']++;
        // Letters changed by chance or on the way never make another picture.
        if (whole !== null && !same) throw new Error(`another picture of ${hash}`);
        return;
      }
      counts[read.kind]++;
      if (read.kind === 'refused' && (/[\p{Cc}\p{Zl}\p{Zp}]/u.test(read.message) || read.message.length > 1500 || !read.message.endsWith('.'))) {
        throw new Error(`no sentence: ${read.message}`);
      }
    };
    fc.assert(
      fc.property(fc.constantFrom(...originals), mutations, fc.boolean(), (original, changes, inside) => {
        if (!inside) look(changes.reduce(changed, original.hash), original.whole);
        // The text itself spoilt and packed anew, check sum and all: what a program with ill intent would send.
        else look(packedAnew(changes.reduce(changed, original.text)), null);
      }),
      { seed: propertySeed, numRuns: MUTATED },
    );
    expect(counts.refused).toBeGreaterThan(MUTATED / 2);
    expect(counts.same).toBeGreaterThan(0);
    expect(tab.transactions()).toBe(begun);
    expect(JSON.stringify((await shelf.all()).players)).toBe(before);
  });
});

const HOSTILE = [
  '"__proto__":{"x":1},', '"constructor":{},', '1e999', '-0', 'null', '[]', '{}', '[[[[[[[[', '"<script>alert(1)</script>"', '"\\u0000"', '"\\ud800"', ' ', ',', '"', '}',
  '99999999999999999999', `[${'0,'.repeat(600)}0]`, '%', '%00', '#', '=', 'Z', 'see1=', 'see99=', '\u0000', '\ud800', '🎺',
] as const;

const mutations = fc.array(
  fc.tuple(fc.nat(), fc.nat(30), fc.oneof(fc.constantFrom(...HOSTILE), fc.string({ maxLength: 6 }), fc.base64String({ maxLength: 8 })), fc.constantFrom('cut', 'end', 'put', 'instead', 'twice')),
  { minLength: 1, maxLength: 3 },
);

function changed(text: string, [at, length, piece, how]: readonly [number, number, string, string]): string {
  const place = at % (text.length + 1);
  if (how === 'cut') return text.slice(0, place) + text.slice(place + length);
  if (how === 'end') return text.slice(0, place);
  if (how === 'put') return text.slice(0, place) + piece + text.slice(place);
  if (how === 'instead') return text.slice(0, place) + piece + text.slice(place + piece.length);
  return text.slice(0, place) + text.slice(place, place + length) + text.slice(place);
}

function packedAnew(text: string): string {
  const packed = deflateSync(strToU8(text), { level: 1 });
  const check = new Uint8Array(4);
  new DataView(check.buffer).setUint32(0, crc32(packed));
  return `#see1=${Buffer.concat([check, packed]).toString('base64url')}Z`;
}
