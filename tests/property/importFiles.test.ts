/** Spoilt files: whatever is done to one, it is read or refused in one line, and refusing it changes nothing that is kept. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PlayerSpec } from '../../src/core/specs';
import { applyPlan, importPlan } from '../../src/records/exchange';
import { parsePlayersText, playersFile } from '../../src/records/schema';
import { openShelf } from '../../src/records/shelf';
import { fullPlayer } from '../support/records';
import { longer, propertySeed, seedWords } from '../support/seed';
import { createTabbedBrowser } from '../support/tabs';

const FILES = longer(10_000);

const whole = JSON.stringify(playersFile([fullPlayer(), { ...fullPlayer(), id: 'second', label: 'M. K.' }]));
const first = JSON.stringify({ format: 'rimpath-record', version: 1, player: { label: 'x', instrument: 'tuba' }, ...mouthOf(fullPlayer()) });
const texts = fc.constantFrom(whole, first);

function mouthOf({ arch, lips, lessons }: PlayerSpec): object {
  const { rim, force, upperLipShare } = lessons[1]!;
  return { arch, lips, rim, force, upperLipShare, readings: [] };
}

const HOSTILE = [
  '"__proto__":{"x":1},', '"constructor":{},', '"players":[],', '1e999', '-0', 'null', '[]', '{}', '[[[[[[[[', '"<script>alert(1)</script>"', '"\\u0000"',
  '"\\ud800"', ' ', ',', '"', '}', '\\', '99999999999999999999', `[${'0,'.repeat(600)}0]`, 'true', '"x":'.repeat(50),
] as const;

/** Bytes taken out, put in, swapped, doubled or cut off; a value exchanged for another kind of value. */
const spoilt = fc
  .tuple(texts, fc.array(fc.tuple(fc.nat(), fc.nat(40), fc.oneof(fc.constantFrom(...HOSTILE), fc.string({ maxLength: 6 })), fc.constantFrom('cut', 'put', 'instead', 'twice', 'value')), { minLength: 1, maxLength: 3 }))
  .map(([text, changes]) =>
    changes.reduce((now, [at, length, piece, how]) => {
      const place = at % (now.length + 1);
      if (how === 'cut') return length === 40 ? now.slice(0, place) : now.slice(0, place) + now.slice(place + length);
      if (how === 'put') return now.slice(0, place) + piece + now.slice(place);
      if (how === 'instead') return now.slice(0, place) + piece + now.slice(place + piece.length);
      if (how === 'twice') return now.slice(0, place) + now.slice(place, place + length) + now.slice(place);
      // A value stays a value more often than text does: this is what reaches the schema.
      const values = [...now.matchAll(/(?<=":)(?:-?[\d.e-]+|"[^"]*"|null)/g)];
      const chosen = values[at % Math.max(values.length, 1)];
      return chosen === undefined ? now : now.slice(0, chosen.index) + piece + now.slice(chosen.index + chosen[0].length);
    }, text));

describe('importing', () => {
  it(`${FILES} spoilt files never throw, and those that are refused change nothing ${seedWords}`, { timeout: 60 * FILES }, async () => {
    const tab = createTabbedBrowser().openTab();
    const shelf = await openShelf(tab);
    await shelf.save(fullPlayer(), 0);
    const { players: existing } = await shelf.all();
    const before = JSON.stringify(existing);
    const begun = tab.transactions();
    const counts = { refused: 0, notJson: 0, read: 0 };
    fc.assert(
      fc.property(spoilt, (text) => {
        const parsed = parsePlayersText(text);
        if (parsed.kind === 'refused') {
          counts.refused++;
          if (parsed.message.startsWith('file: not JSON')) counts.notJson++;
          if (!/; allowed/.test(parsed.message) || /[\p{Cc}\p{Zl}\p{Zp}]/u.test(parsed.message) || parsed.message.length > 1500) {
            throw new Error(`not one line: ${parsed.message}`);
          }
          return;
        }
        counts.read++;
        const plan = importPlan(existing, parsed.players);
        const changes = applyPlan(plan, new Map(), ['Invented']);
        // What is suggested never takes the place of what is kept, and what would be saved can be read again.
        for (const { player, revision } of changes) {
          if (revision !== 0 || existing.some((kept) => kept.player.id === player.id)) throw new Error('takes a place that is taken');
          if (parsePlayersText(JSON.stringify(playersFile([player]))).kind !== 'players') throw new Error('saves what cannot be read');
        }
      }),
      { seed: propertySeed, numRuns: FILES, endOnFailure: true },
    );
    expect(({} as { x?: unknown }).x).toBeUndefined();
    expect(tab.transactions()).toBe(begun);
    const after = await openShelf(tab);
    expect(JSON.stringify((await after.all()).players)).toBe(before);
    // Few spoilt files are files, but some must be, and some must get past the JSON, for this to say anything.
    expect(counts.read).toBeGreaterThan(FILES / 100);
    expect(counts.refused - counts.notJson).toBeGreaterThan(FILES / 10);
  });

  it(`those that are read go into the store whole, or not at all ${seedWords}`, async () => {
    const shelf = await openShelf(createTabbedBrowser().openTab());
    await shelf.save(fullPlayer(), 0);
    let imported = 0;
    await fc.assert(
      fc.asyncProperty(spoilt, async (text) => {
        const parsed = parsePlayersText(text);
        if (parsed.kind === 'refused') return;
        const { players } = await shelf.all();
        const changes = applyPlan(importPlan(players, parsed.players), new Map(parsed.players.map(({ id }) => [id, 'take-over'])), []);
        const answer = await shelf.importPlayers(changes);
        if (answer.kind !== 'imported') throw new Error(answer.kind);
        imported += answer.players.length;
        const { players: after, damaged } = await shelf.all();
        if (damaged.length > 0) throw new Error(damaged[0]?.message);
        for (const { player } of changes) {
          if (!after.some((kept) => kept.player.id === player.id && kept.player.label === player.label)) throw new Error('went missing');
          if (player.id !== fullPlayer().id) await shelf.remove(player.id);
        }
      }),
      { seed: propertySeed, numRuns: longer(1000), endOnFailure: true },
    );
    expect(imported).toBeGreaterThan(20);
  });
});
