import { deflateSync, strToU8 } from 'fflate';
import { describe, expect, test } from 'vitest';
import { crc32 } from '../../../src/core/crc32';
import { demoPlayers } from '../../../src/records/library';
import { LINK_DICTIONARY_1 } from '../../../src/records/linkDictionary';
import { LARGEST_INFLATED_BYTES, LONGEST_LINK, linkOf, readLink } from '../../../src/records/pictureLink';
import { pictureOf } from '../../../src/records/sharedPicture';
import { fullPlayer } from '../../support/records';
import { EVERYTHING, UNTICKED, VIEW, unnamed } from '../../support/sharedPictures';

const BASE = 'https://example.org/rimpath/';
/** Made when links of version 1 began: it stands for all that were ever given away. */
const FIRST_LINK =
  '#see1=XgxglO2Z0Q2AMAhEJ_LHbR3CpZzEYiCBAC2giZp0gUZp0rv3qMMCIkmGEaDefIUR3lBtHi8YsGCgQtk_PensfjsEJuG6Do5GMB2ccnDtUXQ2EQa2wM7GwBZ4PLV_Ixkjm32XZaIww5igfeb9ItaqaAgGEmFuj0p5N4wHvbAwU_HY9uvPVYnhxACLHtnD86njiTx5A1RFqnpv4AiDsm8dnVNRfwvcuzgVs_UEZ';

const packed = (bytes: Uint8Array): string => {
  const deflated = deflateSync(bytes, { level: 9 });
  const check = new Uint8Array(4);
  new DataView(check.buffer).setUint32(0, crc32(deflated));
  return `#see1=${Buffer.concat([check, deflated]).toString('base64url')}Z`;
};
const refusal = (hash: string): string => {
  const read = readLink(hash);
  if (read.kind !== 'refused') throw new Error(`${read.kind}: ${hash.slice(0, 40)}`);
  return read.message;
};

describe('a picture as a link', () => {
  test('of version 1 is read for ever', () => {
    // Whoever changes a letter of the dictionary makes every link unreadable that was given away.
    expect(crc32(strToU8(LINK_DICTIONARY_1))).toBe(2999753486);
    const read = readLink(FIRST_LINK);
    if (read.kind !== 'picture') throw new Error(read.kind);
    expect(unnamed(read.picture)).toEqual(unnamed(pictureOf(fullPlayer(), 'lesson-1', { ...VIEW, camera: 'side', selected: 1 }, UNTICKED)));
  });

  test('stands on the page’s own address, in letters that need no escaping', () => {
    for (const base of [BASE, 'http://127.0.0.1:5173/', 'https://example.org/a/b/index.html']) {
      const made = linkOf(pictureOf(fullPlayer(), 'lesson-1', VIEW, UNTICKED), base);
      if (made.kind !== 'link') throw new Error(made.kind);
      expect(made.address.startsWith(`${base}#see1=`)).toBe(true);
      expect(new URL(made.address).href).toBe(made.address);
      expect(encodeURI(made.address)).toBe(made.address);
      // Programs that find links in a text leave out a mark at the end.
      expect(made.address).toMatch(/[A-Za-z0-9]$/);
    }
  });

  test('of an invented player has a few hundred characters, short enough for a code', () => {
    for (const { player } of demoPlayers) {
      for (const { id } of player.lessons) {
        const made = linkOf(pictureOf(player, id, VIEW, UNTICKED), BASE);
        expect(made.kind === 'link' ? made.address.length : null).toBeLessThan(700);
      }
    }
  });

  test('one that some program wrote with %3D is the same', () => {
    expect(readLink(FIRST_LINK.replace('=', '%3D')).kind).toBe('picture');
  });

  test('one that would be too long is not made, and says how long it would have been', () => {
    const player = fullPlayer();
    const [lesson] = player.lessons;
    // Remarks that do not compress.
    lesson!.readings = Array.from({ length: 40 }, (_, at) => ({ note: 'F3', remark: Array.from({ length: 300 }, (__, place) => String.fromCodePoint(0x4e00 + ((at * 7919 + place * 104729) % 9000))).join('') }));
    const made = linkOf(pictureOf(player, lesson!.id, VIEW, EVERYTHING), BASE);
    expect(made.kind === 'too-long' ? made.characters : 0).toBeGreaterThan(LONGEST_LINK);
    expect(linkOf(pictureOf(player, lesson!.id, VIEW, UNTICKED), BASE).kind).toBe('link');
  });
});

describe('an address', () => {
  test.each(['', '#', '#share', '#player-label', '#see', '#seen', '#:~:text=horn', '#says', '#class', '#class/', '#class/not-a-wall'])('without a picture: %j', (hash) => {
    expect(readLink(hash)).toEqual({ kind: 'none' });
  });

  test('of something else is refused in a sentence', () => {
    for (const hash of ['#/route/1', '#classes/1', '#class/1/2', '#access=1', '#!see1=A', '#<script>']) expect(refusal(hash)).toContain('is no picture of this program. Ask for it once more');
  });

  test('that was cut off or changed anywhere is told from one that is whole', () => {
    for (let at = '#see1'.length; at < FIRST_LINK.length; at++) expect(refusal(FIRST_LINK.slice(0, at))).toContain('was cut off or changed on its way');
    for (let at = '#see1='.length; at < FIRST_LINK.length - 1; at++) {
      const other = FIRST_LINK[at] === 'A' ? 'B' : 'A';
      expect(refusal(FIRST_LINK.slice(0, at) + other + FIRST_LINK.slice(at + 1))).toContain('was cut off or changed on its way');
    }
  });

  test('of a newer version asks for a reload', () => {
    expect(refusal('#see2=AAAA')).toContain('made by a newer version of this program');
  });

  test('that is longer than any that is made', () => {
    expect(refusal(`#see1=${'A'.repeat(LONGEST_LINK)}Z`)).toContain(`up to ${LONGEST_LINK} are read`);
  });

  test('that would fill the memory is given up on the way', () => {
    // As much as a link can hold: some megabytes of one letter.
    const bomb = packed(new Uint8Array(4_000_000).fill(0x20));
    expect(bomb.length).toBeLessThan(LONGEST_LINK);
    expect(refusal(bomb)).toContain('no picture that can be read');
    const almost = packed(new Uint8Array(LARGEST_INFLATED_BYTES).fill(0x20));
    expect(refusal(almost)).toContain('not JSON');
  });

  test('whose picture is not what the format allows names what is wrong', () => {
    const words = refusal(packed(strToU8('{"format":"rimpath-picture","version":1,"view":{},"record":{}}')));
    expect(words).toMatch(/^The picture in this link cannot be read \(view\.camera: missing; allowed: one of .*Nothing of yours has been changed\.$/);
    expect(refusal(packed(new Uint8Array([0xff, 0xfe, 0xfd])))).toContain('no picture that can be read');
  });
});
