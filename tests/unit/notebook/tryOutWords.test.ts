import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import { compareTryOut } from '../../../src/core/tryOutComparison';
import type { TryOutChange } from '../../../src/core/specs';
import type { TryOutCompared } from '../../../src/core/tryOutShapes';
import { airWords, changeName, easeSentence, easeWords, expectedSentence, marginText } from '../../../src/notebook/tryOuts/words';
import { demoPlayers } from '../../../src/records/library';

const [demo] = demoPlayers;
const analysis = analyse(demo!.record);
const asIs = (note: string): string => note;

function compared(change: TryOutChange): TryOutCompared {
  const result = compareTryOut(analysis, { id: 'tried', change, readings: [] });
  if (result.kind === 'refused') throw new Error(result.words);
  return result;
}

describe('a try-out in words', () => {
  it.each<[TryOutChange, 'held' | 'lap', string]>([
    [{ kind: 'hold-horn' }, 'held', 'The horn held still'],
    [{ kind: 'place-rim', upMm: -1.5 }, 'held', 'The rim 1.5\u00a0mm lower'],
    [{ kind: 'bring-horn-round', lateralDeg: 5 }, 'held', 'The horn 5° to the player’s right'],
    [{ kind: 'bring-horn-round', lateralDeg: 5 }, 'lap', 'The head turned 5° to the left'],
  ])('%j, %s, is called %s', (change, posture, words) => expect(changeName(change, posture)).toBe(words));

  it('a held horn is expected to load one half, more than a following one', () => {
    const words = expectedSentence(compared({ kind: 'hold-horn' }), 'held', asIs)!;
    const [, held, half, following] = /^At Bb5 the model expects (\d+)\u00a0% of the force on the (\w+) half of the rim; with the horn following it would be (\d+)\u00a0%\.$/.exec(words)!;
    expect(half).toBe('lower');
    expect(Number(held)).toBeGreaterThan(Number(following) + 3);
  });

  it('a horn that follows is expected to swing, the head instead where the instrument stays on the lap', () => {
    const change = { kind: 'let-horn-follow' } as const;
    expect(expectedSentence(compared(change), 'held', asIs)).toMatch(/^At Bb5 the model expects that the bell would come \d\.\d° up and \d\.\d° to the right, counted from home\.$/);
    expect(expectedSentence(compared(change), 'lap', asIs)).toMatch(/head/);
  });

  it('says how much easier it spoke, and nothing where nobody said', () => {
    const nothing = compared({ kind: 'hold-horn' });
    expect(easeSentence(nothing)).toBeNull();
    expect(easeSentence({ ...nothing, ease: { notes: 1, meanDifference: 1, spread: null } })).toBe(
      'On one note it spoke 1.0 easier than usual on the average, on the scale from 1 (hard) to 5 (easy).',
    );
    expect(easeSentence({ ...nothing, ease: { notes: 4, meanDifference: -0.75, spread: 0.5 } })).toMatch(/^On 4 notes it spoke 0\.8 harder .*; from note to note this differs by 0\.5\.$/);
    expect(easeSentence({ ...nothing, ease: { notes: 2, meanDifference: 0, spread: 0 } })).toMatch(/as easily as usual/);
  });

  it('names the sides of the air that were seen', () => {
    const seen = { takes: 2, travel: null, horn: null, ease: 3.5, airstream: { down: 1, up: 0, unsure: 1 }, remarks: [] };
    expect(airWords(seen)).toBe('down, not sure');
    expect(airWords(null)).toBe('–');
    expect(easeWords(seen)).toBe('3.5');
  });

  it('a margin is half a 95 % band, and left out where nobody could see it', () => {
    expect(marginText(1)).toBe('\u00a0±\u00a02.0');
    expect(marginText(0.01)).toBe('');
  });
});
