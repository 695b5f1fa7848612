import { describe, expect, test } from 'vitest';
import { type PlayerObservations, crossWithAir, crossWithSwing, observationsOf } from '../../../src/core/findings/crossTable';
import type { AirstreamFinding, CannotTell, Finding, Findings, FollowRatio, WhichWay } from '../../../src/core/findings/findings';
import { demoPlayers, openedOf } from '../../support/demos';

const player = (way: PlayerObservations['way'], air: PlayerObservations['air'], swing: PlayerObservations['swing']): PlayerObservations => ({
  id: '',
  label: '',
  way,
  air,
  swing,
});

describe('the cross table', () => {
  const players = [
    player('pushes-up', 'down', 'follows'),
    player('pushes-up', 'down', null),
    player('pulls-down', 'up', 'held'),
    player('to-the-side', 'changes', 'against'),
    player(null, 'down', 'follows'),
    player('pushes-up', null, 'follows'),
  ];

  test('counts every player once, with those of whom nothing can be told', () => {
    const table = crossWithAir(players);
    expect(table.rows).toEqual(['pushes-up', 'pulls-down', 'to-the-side', null]);
    expect(table.columns).toEqual(['down', 'up', 'changes', null]);
    expect(table.counts).toEqual([
      [2, 0, 0, 1],
      [0, 1, 0, 0],
      [0, 0, 1, 0],
      [1, 0, 0, 0],
    ]);
    expect([table.rowTotals, table.columnTotals, table.total]).toEqual([[3, 1, 1, 1], [3, 1, 1, 1], 6]);
  });

  test('the horn by itself', () => {
    expect(crossWithSwing(players).counts).toEqual([
      [2, 0, 0, 1],
      [0, 1, 0, 0],
      [0, 0, 1, 0],
      [1, 0, 0, 0],
    ]);
  });
});

describe('what was seen of a player', () => {
  const evidence = { notes: 5, readings: 5 };
  const cannot: CannotTell = { kind: 'cannot-tell', reason: 'not-seen', needs: [] };
  const ratio = (low: number, high: number): Finding<FollowRatio> => ({
    kind: 'told',
    evidence,
    ratio: { value: (low + high) / 2, sd: 1, low, high },
    offsetDeg: 0,
    points: [],
    fitP: 0.5,
  });
  const air = (part: Partial<AirstreamFinding>): Finding<AirstreamFinding> => ({ kind: 'told', evidence, seen: [], changes: [], both: [], nearHalf: [], usualNearHalf: null, ...part });
  const way = (seen: WhichWay['way']): Finding<WhichWay> => ({ kind: 'told', evidence, way: seen });
  const findings: Findings = { travel: [], airstream: cannot, follow: { elevation: cannot, lateral: cannot } };
  const seen = (part: Partial<Findings>): PlayerObservations => observationsOf(openedOf(demoPlayers[0]!.record).player, () => ({ ...findings, ...part }));
  const at = (down: number, up: number) => ({ note: 'C5', midi: 72, direction: null, down, up, unsure: 0 });

  test('nothing told, nothing claimed', () => {
    expect(seen({})).toMatchObject({ id: 'player-1', label: demoPlayers[0]!.record.player.label, way: null, air: null, swing: null });
  });

  test('is asked of the last lesson', () => {
    const { player: one } = openedOf(demoPlayers[0]!.record);
    const last = { ...one.lessons[0]!, id: 'lesson-2', readings: [] };
    let asked = 0;
    observationsOf({ ...one, lessons: [...one.lessons, last] }, (record) => {
      asked += 1;
      expect(record.readings).toEqual([]);
      return findings;
    });
    expect(asked).toBe(1);
  });

  test('the way is that of ascending', () => {
    const travel = (direction: 'up' | 'down' | null, which: WhichWay['way']) => ({ direction, line: cannot, way: way(which), turnBack: cannot });
    expect(seen({ travel: [travel('up', 'pushes-up'), travel('down', 'pulls-down')] }).way).toBe('pushes-up');
    expect(seen({ travel: [travel('down', 'pulls-down')] }).way).toBeNull();
    expect(seen({ travel: [travel(null, 'to-the-side')] }).way).toBe('to-the-side');
  });

  test('the air: one side, a change, or neither', () => {
    expect(seen({ airstream: air({ seen: [at(2, 0), at(1, 0)] }) }).air).toBe('down');
    expect(seen({ airstream: air({ seen: [at(0, 1)] }) }).air).toBe('up');
    expect(seen({ airstream: air({ seen: [at(0, 0)] }) }).air).toBeNull();
    expect(seen({ airstream: air({ seen: [at(1, 1)], both: ['C5'] }) }).air).toBeNull();
    expect(seen({ airstream: air({ changes: [{ lowNote: 'C5', highNote: 'D5', from: 'down', to: 'up', direction: null }] }) }).air).toBe('changes');
  });

  test('the horn by what its interval holds, sideways before up and down', () => {
    const swing = (lateral: Finding<FollowRatio>, elevation: Finding<FollowRatio> = cannot) => seen({ follow: { lateral, elevation } }).swing;
    expect(swing(ratio(0.7, 1.2))).toBe('follows');
    expect(swing(ratio(0.2, 0.7))).toBe('follows');
    expect(swing(ratio(-0.3, 0.4))).toBe('held');
    expect(swing(ratio(-0.9, -0.2))).toBe('against');
    expect(swing(ratio(-0.3, 1.4))).toBeNull();
    expect(swing(cannot, ratio(-0.9, -0.2))).toBe('against');
    expect(swing(ratio(0.7, 1.2), ratio(-0.9, -0.2))).toBe('follows');
  });
});
