import { describe, expect, it } from 'vitest';
import { airstreamFinding } from '../../../../src/core/findings/airstream';
import { arcShare, areaShare } from '../../../../src/core/lipLine';
import type { AirstreamSeen, PlayerRecord, ReadingSpec } from '../../../../src/core/specs';
import { expectWithin } from '../../../support/expectWithin';
import { fullRecord } from '../../../support/records';

const seen = (note: string, airstream: AirstreamSeen, more: Partial<ReadingSpec> = {}): ReadingSpec => ({ note, airstream, ...more });

function told(readings: ReadingSpec[], share: PlayerRecord['upperLipShare'] = { value: 0.66, by: 'diameter' }) {
  const finding = airstreamFinding({ ...fullRecord(), readings, upperLipShare: share });
  if (finding.kind !== 'told') throw new Error(finding.reason);
  return finding;
}

describe('airstream', () => {
  it('counts by note, low to high, and names the two notes between which the side changes', () => {
    const finding = told([seen('C5', 'up'), seen('C4', 'down'), seen('C4', 'unsure'), seen('G4', 'down'), seen('A4', 'unsure')]);
    expect(finding.seen.map(({ note, down, up, unsure }) => [note, down, up, unsure])).toEqual([
      ['C4', 1, 0, 1],
      ['G4', 1, 0, 0],
      ['A4', 0, 0, 1],
      ['C5', 0, 1, 0],
    ]);
    expect(finding.changes).toEqual([{ lowNote: 'G4', highNote: 'C5', from: 'down', to: 'up', direction: null }]);
    expect(finding.both).toEqual([]);
    expect(finding.evidence).toEqual({ notes: 4, readings: 5 });
  });

  it('a note that was seen both ways is named, and is no side of a change', () => {
    const finding = told([seen('C4', 'down'), seen('E4', 'down'), seen('E4', 'up', { take: 2 }), seen('G4', 'up'), seen('C5', 'down')]);
    expect(finding.both).toEqual(['E4']);
    expect(finding.changes.map(({ lowNote, highNote }) => [lowNote, highNote])).toEqual([['C4', 'G4'], ['G4', 'C5']]);
  });

  it('ascending and descending each have their own changes', () => {
    const finding = told([
      seen('C4', 'down', { direction: 'up' }),
      seen('G4', 'up', { direction: 'up' }),
      seen('C4', 'down', { direction: 'down' }),
      seen('G4', 'down', { direction: 'down' }),
    ]);
    expect(finding.changes).toEqual([{ lowNote: 'C4', highNote: 'G4', from: 'down', to: 'up', direction: 'up' }]);
  });

  it.each([
    ['diameter', (f: number) => f],
    ['arc', arcShare],
    ['area', areaShare],
  ] as const)('near half is by diameter, whatever the record counts by (%s)', (by, meaning) => {
    const at = (note: string, byDiameter: number): ReadingSpec => ({ note, upperLipShare: meaning(byDiameter) });
    const finding = told([at('C4', 0.44), at('D4', 0.45), at('E4', 0.55), at('F4', 0.57), at('G4', 0.4), at('G4', 0.52)], { value: meaning(0.52), by });
    expect(finding.nearHalf.map(({ note }) => note)).toEqual(['D4', 'E4', 'G4']);
    expectWithin(finding.nearHalf[2]!.shareByDiameter, 0.46, { abs: 1e-7 });
    expectWithin(finding.usualNearHalf!, 0.52, { abs: 1e-7 });
  });

  it('cannot tell where nobody looked or was sure, and names the notes', () => {
    const finding = airstreamFinding({ ...fullRecord(), readings: [{ note: 'C5' }, seen('C4', 'unsure'), { note: 'C5' }] });
    expect(finding).toEqual({ kind: 'cannot-tell', reason: 'not-seen', needs: [{ notes: ['C4', 'C5'], takes: 1, of: 'airstream' }] });
  });
});
