import { describe, expect, test } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import { computeBands } from '../../../src/core/bands';
import { type SentencesFrom, handOutSentences } from '../../../src/print/handOutSentences';
import { inventedFindings, inventedPlayer } from '../../support/handOutPlayers';

const of = (player: string, more: Partial<SentencesFrom> = {}) =>
  handOutSentences({
    analysis: analyse(inventedPlayer(player)), findings: null, bands: null, posture: 'held', noteLabel: (note) => note.replace('b', '♭'), ...more,
  });
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

test('the readings alone: travel, swing and why, and what holding would mean', () => {
  const { rim, horn, held } = of('up');
  expect(plain(rim)).toMatch(/^From home, F4, to B♭5 the rim travels 3\.6 mm up and 1\.3 mm to the player’s right\.$/);
  expect(plain(horn)).toMatch(/^Because teeth and gums are curved both ways, .* at B♭5, from the angle at home, the bell would come \d\.\d° up and \d\.\d° to the right\.$/);
  expect(plain(held)).toMatch(/^If the horn stayed as at home at B♭5, \d\d % of the force would lie on the (lower|upper) half of the rim\.$/);
});

test('the numbers are those of the analysis', () => {
  const analysis = analyse(inventedPlayer('up'));
  const { changeFromHome, held } = analysis.readings.at(-1)!;
  const sentences = of('up', { analysis });
  expect(sentences.horn).toContain(`${changeFromHome.elevationDeg.toFixed(1)}° up and ${changeFromHome.lateralDeg.toFixed(1)}° to the right`);
  const most = Math.max(held.load.share.upper, held.load.share.lower, held.load.share.left, held.load.share.right);
  expect(sentences.held).toContain(`${Math.round(most * 100)}\u00a0%`);
});

test('± only where it is known', () => {
  const analysis = analyse(inventedPlayer('up'));
  expect(JSON.stringify(of('up', { analysis }))).not.toContain('±');
  const bands = computeBands(analysis);
  const margin = bands.at(-1)!.change.elevationSdDeg * 1.959963984540054;
  expect(of('up', { analysis, bands }).horn).toContain(`° ± ${margin.toFixed(1)}° up`);
});

test('with findings: the line of travel, the turn-back and the follow ratio, each with its ±', () => {
  const { rim, horn } = of('up', { findings: inventedFindings });
  expect(plain(rim)).toBe('Going up the range, the rim travels 2.1 ± 0.4 mm an octave, upward and 21° ± 8° toward the player’s right. Above F5 it comes back by 1.6 mm.');
  expect(plain(horn)).toMatch(/As measured, the horn went along with 0\.8 ± 0\.3 of the swing up and down and 0\.7 ± 0\.4 of the swing sideways\.$/);
});

test('no direction is sent home where the band holds none at all', () => {
  const analysis = analyse(inventedPlayer('up'));
  const bands = computeBands(analysis).map((band) => ({ ...band, change: { elevationSdDeg: 4, lateralSdDeg: 4 } }));
  expect(of('up', { analysis, bands }).horn).toMatch(/ only if the horn swings along\. At .+ these readings cannot tell yet how far: /);
  expect(of('up', { analysis, bands }).horn).not.toMatch(/°/);
});

test('a follow ratio that is hardly known is not sent home', () => {
  const { lateral } = inventedFindings.follow;
  if (lateral.kind !== 'told') throw new Error('the invented findings tell a ratio sideways');
  const vague = { ...lateral, ratio: { value: 1.1, sd: 1.3, low: -1.4, high: 3.6 } };
  const { horn } = of('up', { findings: { ...inventedFindings, follow: { ...inventedFindings.follow, lateral: vague } } });
  expect(plain(horn)).toMatch(/As measured, the horn went along with 0\.8 ± 0\.3 of the swing up and down\.$/);
});

describe('a line downward', () => {
  const leaning = (fromUp: number) => {
    const line = inventedFindings.travel[0]!.line;
    if (line.kind !== 'told') throw new Error('the invented findings tell a line');
    const told = {
      ...line,
      fromUpDeg: { value: fromUp, sd: 2, low: fromUp - 4, high: fromUp + 4 },
      upMmPerOctave: { value: -1.9, sd: 0.2, low: -2.3, high: -1.5 },
    };
    const turnBack = { kind: 'cannot-tell' as const, reason: 'too-few-notes' as const, needs: [] };
    return plain(of('down', { findings: { ...inventedFindings, travel: [{ ...inventedFindings.travel[0]!, line: told, turnBack }] } }).rim);
  };
  test('leans to the right', () => expect(leaning(160)).toContain('downward and 20° ± 4° toward the player’s right.'));
  test('leans to the left', () => expect(leaning(-150)).toContain('downward and 30° ± 4° toward the player’s left.'));
  test('goes straight', () => expect(leaning(179)).toContain('an octave, downward.'));
});

test('findings that cannot tell leave the readings’ own words', () => {
  const cannot = { kind: 'cannot-tell' as const, reason: 'too-few-notes' as const, needs: [] };
  const findings = { ...inventedFindings, travel: [{ direction: null, line: cannot, way: cannot, turnBack: cannot }], follow: { elevation: cannot, lateral: cannot } };
  expect(of('up', { findings })).toEqual(of('up'));
});

test('on the lap it is the head that moves', () => {
  const sentences = of('tuba', { posture: 'lap' });
  expect(sentences.horn).toMatch(/the head would tip \d\.\d° forward and turn \d\.\d° to the right\.$/);
  expect(sentences.held).toMatch(/^If the head stayed as at home/);
  expect(JSON.stringify(sentences)).not.toMatch(/bell|the horn/);
});

test('home alone, and nothing at all, are said as such', () => {
  expect(of('one').rim).toBe('Only home, F4, has been written down so far.');
  expect(of('none').rim).toBe('No travel has been written down yet.');
  expect(of('one').horn).toBe(of('none').horn);
  expect(of('none').horn).not.toMatch(/\d/);
});

test('nothing reads like a diagnosis or an order', () => {
  for (const player of ['up', 'down', 'tuba', 'broad', 'one', 'none', 'many']) {
    const posture = player === 'tuba' ? ('lap' as const) : ('held' as const);
    const text = Object.values(of(player, { posture, findings: player === 'none' ? null : inventedFindings })).join(' ');
    expect(text).not.toMatch(/\b(must|should|wrong|correct|fault|problem|need|bad|good|always|never|type)\b/i);
  }
});
