import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { PlayerSpec } from '../../../src/core/specs';
import { copyFromThisTab, numberedLabel } from '../../../src/records/copies';
import { differenceWords } from '../../../src/records/differences';
import { applyPlan, importPlan } from '../../../src/records/exchange';
import { playersFileName, readPlayersFile } from '../../../src/records/playersFiles';
import { sameValue } from '../../../src/records/sameValue';
import { parsePlayersText, playersFile, playersFileText } from '../../../src/records/schema';
import { createMemoryShelf } from '../../../src/records/shelf';
import { bareMeasuring, fullMeasuring } from '../../support/measurings';
import { type Mutable, fullPlayer } from '../../support/records';

const player = (id: string, label = id): Mutable<PlayerSpec> => ({ ...fullPlayer(), id, label });
const kept = (one: PlayerSpec, revision = 3) => ({ player: one, revision, changedAt: 0 });

describe('what a file would change', () => {
  it('a player is new, the same, or changed', () => {
    const plan = importPlan([kept(player('a')), kept(player('b'))], [player('a'), { ...player('b'), label: 'other' }, player('c')]);
    expect(plan.map(({ kind, differences, suggested }) => [kind, differences, suggested])).toEqual([
      ['same', [], 'leave-out'],
      ['changes', ['label: “b” becomes “other”'], 'keep-both'],
      ['new', [], 'take-over'],
    ]);
  });

  it('a file of version 1, read twice, is known again although its ids are new', () => {
    const text = readFileSync(new URL('./goldens/full-1.json', import.meta.url), 'utf8');
    const read = (): readonly PlayerSpec[] => {
      const parsed = parsePlayersText(text);
      if (parsed.kind === 'refused') throw new Error(parsed.message);
      return parsed.players;
    };
    const [first] = read();
    const [plan] = importPlan([kept(first!, 1)], read());
    expect(plan).toMatchObject({ kind: 'same', suggested: 'leave-out', kept: { player: { id: first!.id } } });
    expect(applyPlan([plan!], new Map(), [])).toEqual([]);
    const taken = applyPlan([plan!], new Map([[plan!.incoming.id, 'take-over']]), []);
    expect(taken).toEqual([{ player: { ...plan!.incoming, id: first!.id }, revision: 1 }]);
  });

  it.each<[string, (before: Mutable<PlayerSpec>) => void, string[]]>([
    ['nothing', () => undefined, []],
    ['instrument', (one) => (one.instrument = 'tuba'), ['instrument: tenor-trombone becomes tuba']],
    ['arch', (one) => (one.arch = { single: { form: { kind: 'line' }, profile: { kind: 'straight' } } }), ['the arch is another']],
    ['lips', (one) => (one.lips.law = 'linear'), ['the lips are other ones']],
    ['a lesson more', (one) => one.lessons.push({ ...one.lessons[1]!, id: 'new', date: '2026-04-01' }), ['1 lesson more: of 2026-04-01']],
    ['a lesson fewer', (one) => one.lessons.shift(), ['1 lesson fewer: of 2026-03-01 would be lost']],
    ['the lessons’ order', (one) => one.lessons.reverse(), ['the lessons stand in another order']],
    ['another day', (one) => delete one.lessons[0]!.date, ['lesson of 2026-03-01: its day becomes unknown']],
    [
      'readings',
      (one) => {
        const { readings } = one.lessons[0]!;
        readings[0]!.ease = 1;
        readings.splice(1, 1);
        readings.push({ note: 'D4', take: 2 }, { note: 'D4', take: 3 });
      },
      ['lesson of 2026-03-01: 1 reading changed, 2 readings more, 1 reading fewer'],
    ],
    ['the readings’ order', (one) => one.lessons[0]!.readings.reverse(), ['lesson of 2026-03-01: the readings stand in another order']],
    [
      'rim, force, home, share and remark',
      (one) => {
        const lesson = one.lessons[1]!;
        lesson.rim.contourRadiusMm = null;
        lesson.force.newtons = 1;
        lesson.home = { note: 'F3' };
        lesson.upperLipShare.by = 'area';
        lesson.remark = 'x';
      },
      ['lesson without a day (lesson-2): the rim and the force and home and the upper lip’s share and the remark changed'],
    ],
    [
      'try-outs',
      (one) => {
        const { tryOuts } = one.lessons[0]!;
        tryOuts[0]!.readings = [];
        tryOuts.pop();
        tryOuts.push({ id: 'new', change: { kind: 'hold-horn' }, readings: [] });
      },
      ['lesson of 2026-03-01: 1 try-out changed, 1 try-out more, 1 try-out fewer'],
    ],
    ['what to try', (one) => (one.lessons[0]!.toTry = 'something else'), ['lesson of 2026-03-01: what to try at home changed']],
    ['where a reading was seen', (one) => (one.lessons[0]!.readings[0]!.from!.atS = 1.6), ['lesson of 2026-03-01: 1 reading changed']],
    [
      'measurings',
      (one) => {
        const measurings = [{ ...fullMeasuring(), take: 3 }, bareMeasuring('new')];
        one.lessons[0]!.measurings = measurings;
        one.lessons[1]!.measurings = [bareMeasuring('another')];
      },
      ['lesson of 2026-03-01: 1 measuring changed, 1 measuring more, 1 measuring fewer', 'lesson without a day (lesson-2): 1 measuring more'],
    ],
  ])('says what differs: %s', (_, change, words) => {
    const after = player('a');
    change(after);
    expect(differenceWords(player('a'), after)).toEqual(words);
  });

  it('a label with a script in it is text among the words', () => {
    const [plan] = importPlan([kept(player('a'))], [{ ...player('a'), label: '<script>alert(1)</script>' }]);
    expect(plan!.differences).toEqual(['label: “a” becomes “<script>alert(1)</script>”']);
  });
});

describe('what is done with a file', () => {
  it('follows the choices, and nothing is lost without one', async () => {
    const shelf = createMemoryShelf();
    await shelf.save(player('a', 'M. K.'), 0);
    await shelf.save(player('b'), 0);
    const { players } = await shelf.all();
    const incoming = [
      { ...player('a', 'M. K.'), instrument: 'tuba' },
      { ...player('b'), instrument: 'tuba' },
      player('c'),
      { ...player('d', 'M. K.'), instrument: 'trumpet' },
    ];
    const plan = importPlan(players, incoming);
    const changes = applyPlan(plan, new Map([['b', 'take-over'], ['c', 'leave-out']]), players.map((one) => one.player.label), () => 'new-id');
    expect((await shelf.importPlayers(changes)).kind).toBe('imported');
    expect((await shelf.list()).players.map(({ id, label, instrument }) => [id, label, instrument])).toEqual([
      ['a', 'M. K.', 'tenor-trombone'],
      ['b', 'b', 'tuba'],
      ['d', 'M. K.', 'trumpet'],
      ['new-id', 'M. K. (2)', 'tuba'],
    ]);
    // The shelf has moved on: the same plan is not carried out a second time.
    expect((await shelf.importPlayers(changes)).kind).toBe('conflict');
  });

  it('numbers labels so that they stay apart and short enough', () => {
    expect(numberedLabel('M. K.', new Set(['M. K. (2)', 'M. K. (3)']))).toBe('M. K. (4)');
    expect(numberedLabel('M. K. (2)', new Set(['M. K. (2)']))).toBe('M. K. (3)');
    expect(numberedLabel('', new Set())).toBe('(2)');
    const long = numberedLabel('x'.repeat(200), new Set());
    expect(long).toBe(`${'x'.repeat(196)} (2)`);
    const copy = copyFromThisTab(player('a', 'y'.repeat(200)), () => 'b');
    expect(copy).toEqual({ ...player('a'), id: 'b', label: `${'y'.repeat(179)} (copy from this tab)` });
    expect(copyFromThisTab(copy, () => 'c').label).toBe(copy.label);
    expect(parsePlayersText(playersFileText([copy])).kind).toBe('players');
  });
});

describe('files', () => {
  const read = (content: BlobPart, size?: number) => {
    const blob = new Blob([content]);
    return readPlayersFile({ size: size ?? blob.size, arrayBuffer: () => blob.arrayBuffer() });
  };

  it('are read with or without a byte order mark', async () => {
    const text = playersFileText([player('a')]);
    expect(await read(text)).toEqual({ kind: 'players', players: [player('a')], fromVersion: 4 });
    expect(await read(`\uFEFF${text}`)).toMatchObject({ kind: 'players' });
  });

  it.each<[string, () => Promise<unknown>, string]>([
    ['too large, unread', () => read('', 100_000_001), 'file: 100000001 bytes; allowed: up to 100000000'],
    ['other bytes', () => read(Uint8Array.from([0x89, 0x50, 0xff, 0xfe])), 'file: not UTF-8 text; allowed: a JSON file in UTF-8'],
    ['newer', () => read('{"format":"rimpath-record","version":7}'), 'version: 7 is newer than this program reads; allowed: 1 to 5'],
    ['gone meanwhile', () => readPlayersFile({ size: 1, arrayBuffer: () => Promise.reject(new Error('gone')) }), 'file: cannot be read; allowed: a readable JSON file'],
  ])('are refused with a reason: %s', async (_, attempt, message) => {
    expect(await attempt()).toEqual({ kind: 'refused', message });
  });

  it.each<[string, string]>([
    ['M. K.', 'rimpath-M-K-2026-03-01.json'],
    ['Zoë', 'rimpath-Zoë-2026-03-01.json'],
    ['../../<script>', 'rimpath-script-2026-03-01.json'],
    ['演奏', 'rimpath-演奏-2026-03-01.json'],
    ['', 'rimpath-player-2026-03-01.json'],
    [`${'x'.repeat(39)} y`, `rimpath-${'x'.repeat(39)}-2026-03-01.json`],
  ])('are named after the player: %j', (label, name) => {
    expect(playersFileName([player('a', label)], '2026-03-01')).toBe(name);
  });

  it('of everything are named so', () => {
    expect(playersFileName([player('a'), player('b')], '2026-03-01')).toBe('rimpath-players-2026-03-01.json');
  });
});

describe('the same value', () => {
  it.each<[unknown, unknown, boolean]>([
    [{ a: 1, b: [1, { c: 2 }] }, { b: [1, { c: 2 }], a: 1 }, true],
    [{ a: 1, b: undefined }, { a: 1 }, true],
    [{ a: null }, {}, false],
    [[1, 2], [1], false],
    [[1], { 0: 1 }, false],
    [{ a: 1 }, { a: '1' }, false],
    [{ constructor: 1 }, {}, false],
    [{}, { toString: undefined }, true],
    [playersFile([player('a')]), playersFile([player('b')]), false],
  ])('%j and %j: %s', (a, b, same) => {
    expect(sameValue(a, b)).toBe(same);
    expect(sameValue(b, a)).toBe(same);
  });
});
