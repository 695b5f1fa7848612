import { describe, expect, test } from 'vitest';
import { type SentenceFacts, sentence } from '../../../src/notebook/sentence';

const even = { upper: 0.5, lower: 0.5, right: 0.5, left: 0.5 };
const facts: SentenceFacts = {
  note: 'G5',
  travel: { upMm: 3.1, rightMm: 1.2 },
  changeFromHome: { elevationDeg: 3, lateralDeg: 2.2 },
  homeMeasured: true,
  heldShare: { ...even, right: 0.42, left: 0.58 },
  posture: 'held',
};
const plain = (words: string): string => words.replaceAll('\u00a0', ' ');
const say = (changes: Partial<SentenceFacts> = {}): string => plain(sentence({ ...facts, ...changes }));

describe('the sentence', () => {
  test('says travel, swing and what holding still costs', () => {
    expect(say()).toBe(
      'At G5 the rim is 3.1 mm up and 1.2 mm to the player’s right of home. ' +
        'From the horn angle measured at home, the bell would come 3.0° up and 2.2° to the right. ' +
        'Held still, 58 % of the force would lie on the left half.',
    );
  });

  test('gives the margins where they are known', () => {
    expect(say({ margin: { elevationDeg: 1.4, lateralDeg: 0.6 } })).toContain(
      'the bell would come 3.0° ± 1.4° up and 2.2° ± 0.6° to the right.',
    );
  });

  test('turns the words with the signs', () => {
    const words = say({ travel: { upMm: -3.1, rightMm: -1.2 }, changeFromHome: { elevationDeg: -3, lateralDeg: -2.2 } });
    expect(words).toContain('3.1 mm down and 1.2 mm to the player’s left of home');
    expect(words).toContain('3.0° down and 2.2° to the left');
  });

  test.each([
    [{ upMm: 2, rightMm: 0 }, 'At G5 the rim is 2.0 mm above home.'],
    [{ upMm: -2, rightMm: 0.04 }, 'At G5 the rim is 2.0 mm below home.'],
    [{ upMm: 0, rightMm: -2 }, 'At G5 the rim is 2.0 mm to the player’s left of home.'],
    [{ upMm: 0, rightMm: 0 }, 'At G5 the rim is at home.'],
  ])('leaves out what is nothing: %j', (travel, words) => {
    expect(say({ travel }).startsWith(words)).toBe(true);
  });

  test('says that the bell stays when the swing rounds to nothing', () => {
    expect(say({ changeFromHome: { elevationDeg: 0.04, lateralDeg: -0.04 } })).toContain('the bell would stay where it is.');
  });

  test('moves the head the other way when the horn rests on the lap', () => {
    expect(say({ posture: 'lap' })).toContain('the head would tip 3.0° forward and turn 2.2° to the left.');
    expect(say({ posture: 'lap', changeFromHome: { elevationDeg: -3, lateralDeg: 0 } })).toContain('the head would tip 3.0° back.');
  });

  test('does not claim a measured angle that is not there', () => {
    expect(say({ homeMeasured: false })).toContain('From the horn angle at home,');
    expect(say({ homeMeasured: false })).not.toContain('measured');
  });

  test('calls an even load even', () => {
    expect(say({ heldShare: { ...even, upper: 0.51, lower: 0.49 } })).toContain('Held still, the force would stay even.');
  });

  test.each(['upper', 'lower', 'right', 'left'] as const)('names the %s half when it carries most', (half) => {
    expect(say({ heldShare: { ...even, [half]: 0.61 } })).toContain(`61 % of the force would lie on the ${half} half.`);
  });
});
