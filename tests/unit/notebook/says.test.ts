import { describe, expect, test } from 'vitest';
import type { AirstreamFinding, Estimate, FollowRatio, LineOfTravel, LocalShape, OwnShape, SwingPrediction, TurnBack } from '../../../src/core/findings/findings';
import { airDetailWords, airWords, nearHalfWords } from '../../../src/notebook/says/airSaid';
import { fewWords } from '../../../src/notebook/says/CrossPart';
import { crossWords } from '../../../src/notebook/says/CrossTable';
import { followFitWords, followWords, offsetWords, ratioMeaning } from '../../../src/notebook/says/followSaid';
import { cannotTellWords, chanceWords, evidenceWords, listWords, needWords, pText } from '../../../src/notebook/says/saysWords';
import { bandWords, failedWords, fitWords, localWords, predictionWords, radiusWords, residualWords } from '../../../src/notebook/says/shapeSaid';
import {
  lineDetailWords,
  lineWords,
  straightWords,
  takesWords,
  towardWords,
  turnChanceWords,
  turnWords,
  wayWords,
} from '../../../src/notebook/says/travelSaid';
import { demoPlayers } from '../../support/demos';

const plain = (words: string): string => words.replaceAll('\u00a0', ' ');
const name = (note: string): string => note;
const estimate = (value: number, low: number, high: number): Estimate => ({ value, sd: (high - low) / 4, low, high });

const line: LineOfTravel = {
  fromUpDeg: estimate(20.3, 12, 28),
  mmPerOctave: estimate(1.9, 1.6, 2.2),
  upMmPerOctave: estimate(1.8, 1.5, 2.1),
  middleMm: { upMm: 1, rightMm: 0.4 },
  extentMm: estimate(3.4, 3, 3.8),
  offLineMm: 0.42,
  expectedOffLineMm: 0.6,
  straightP: 0.4,
};

describe('the line of travel', () => {
  test('is said in one sentence', () => {
    expect(plain(lineWords(line, null))).toBe('The rim goes up and 20° to the player’s right as the pitch rises: 1.9 mm an octave (1.6 to 2.2).');
    expect(plain(lineWords(line, 'down'))).toMatch(/^Descending, the rim goes up and 20°/);
  });

  test.each([
    [0.3, 'straight up'],
    [-20, 'up and 20° to the player’s left'],
    [75, 'to the player’s right and 15° up'],
    [-90.2, 'straight to the player’s left'],
    [105, 'to the player’s right and 15° down'],
    [-170, 'down and 10° to the player’s left'],
    [180, 'straight down'],
    [-179.8, 'straight down'],
  ])('%s° from straight up is “%s”', (angle, words) => expect(towardWords(angle)).toBe(words));

  test('says whether it is straight', () => {
    expect(plain(straightWords(line))).toBe('The notes stray 0.4 mm from the line; their own deviations alone would give about 0.6 mm. A straight line fits them.');
    expect(plain(straightWords({ ...line, offLineMm: 1.4, straightP: 0.004 }))).toContain('So the travel bends: a straight one would give readings that stray this far about once in 250 times (p = 0.004).');
    expect(plain(lineDetailWords(line))).toContain('sure to about 8° either way; from the lowest to the highest note it is 3.4 mm (3.0 to 3.8).');
  });

  test('which way turns the signs with the words', () => {
    expect(plain(wayWords({ way: 'pushes-up' }, line))).toBe('To ascend, the rim is pushed up: 1.8 mm an octave (1.5 to 2.1).');
    expect(plain(wayWords({ way: 'pulls-down' }, { ...line, upMmPerOctave: estimate(-1.8, -2.1, -1.5) }))).toBe(
      'To ascend, the rim is pulled down: 1.8 mm an octave (1.5 to 2.1).',
    );
    expect(plain(wayWords({ way: 'to-the-side' }, { ...line, upMmPerOctave: estimate(0.1, -0.3, 0.5) }))).toBe(
      'To ascend, the rim goes mostly to the side; its part upward is 0.1 mm an octave (−0.3 to 0.5).',
    );
  });
});

describe('the turn-back', () => {
  const takesFor = { eye: { sizeMm: 1.5, takes: 9 }, ruler: { sizeMm: 1.5, takes: 4 }, video: { sizeMm: 1.5, takes: 1 } };
  const turn: TurnBack = { found: true, p: 0.005, at: { note: 'D5', midi: 74, sizeMm: 1.62, side: 'above' }, takesFor };

  test('names the note, the size and the chance', () => {
    expect(plain(turnWords(turn, name, null))).toBe('The travel turns at D5: above it, it comes back by 1.6 mm.');
    expect(plain(turnWords({ ...turn, at: { ...turn.at!, side: 'below' } }, name, 'up'))).toBe('Ascending, the travel turns at D5: below it, it goes the other way by 1.6 mm.');
    expect(plain(turnChanceWords(turn, name))).toBe('A player who never turns back would give readings like these, or more so, about once in 200 times (p = 0.005).');
  });

  test('where none is found, none is claimed', () => {
    const none: TurnBack = { ...turn, found: false, p: 0.4 };
    expect(turnWords(none, name, null)).toBe('The travel is not seen to turn back.');
    expect(plain(turnChanceWords(none, name))).toBe(
      'The place that looks most like it is D5, by 1.6 mm. A player who never turns back would give readings like these, or more so, about 4 times in 10 (p = 0.40).',
    );
    expect(turnChanceWords({ ...none, at: null }, name)).toMatch(/^A player who never/);
  });

  test('says how many takes would be needed', () => {
    expect(plain(takesWords(turn))).toBe(
      'To find a turn-back of 1.5 mm over the last three notes you would need: by eye about 9 takes of every note, with a ruler 4, from video 1.',
    );
    expect(plain(takesWords({ takesFor: { ...takesFor, eye: { sizeMm: 1.5, takes: null } } }))).toBe(
      'To find a turn-back of 1.5 mm over the last three notes you would need: with a ruler about 4 takes of every note, from video 1. By eye it takes more than can be asked of anyone.',
    );
    const never = { sizeMm: 1.5, takes: null };
    expect(plain(takesWords({ takesFor: { eye: never, ruler: never, video: never } }))).toBe(
      'A turn-back of 1.5 mm over the last three notes is too small for this exercise: by eye, with a ruler and from video it takes more than can be asked of anyone.',
    );
  });
});

describe('the airstream', () => {
  const seen = (note: string, midi: number, down: number, up: number, unsure = 0) => ({ note, midi, direction: null, down, up, unsure });
  const air: AirstreamFinding = { seen: [seen('C5', 72, 2, 0), seen('D5', 74, 1, 0, 1), seen('F5', 77, 0, 0, 1)], changes: [], both: [], nearHalf: [], usualNearHalf: null };

  test('one side', () => {
    expect(airWords(air, name)).toBe('The air was seen to go down at 2 notes, and at none the other way.');
    expect(airDetailWords(air, name)).toBe('Not sure at F5.');
    expect(nearHalfWords(air, name)).toBeNull();
  });

  test('a change, and a note seen both ways', () => {
    const changing: AirstreamFinding = {
      ...air,
      seen: [...air.seen, seen('G5', 79, 1, 1), seen('A5', 81, 0, 2)],
      changes: [{ lowNote: 'D5', highNote: 'A5', from: 'down', to: 'up', direction: null }],
      both: ['G5'],
      nearHalf: [{ note: 'G5', shareByDiameter: 0.514 }],
    };
    expect(airWords(changing, name)).toBe('The air changes side between D5 (down) and A5 (up).');
    expect(airDetailWords(changing, name)).toBe('At G5 it was seen both ways, in different takes. Not sure at F5.');
    expect(plain(nearHalfWords(changing, name)!)).toBe(
      'The upper lip’s share of the diameter is near half and half at G5 (51 %). Many teachers find that the air is unsteady there (common practice, no published source).',
    );
  });

  test('one way of playing by itself, and the share of the lesson as it was set up', () => {
    const ways: AirstreamFinding = {
      ...air,
      changes: [{ lowNote: 'D5', highNote: 'A5', from: 'down', to: 'up', direction: 'up' }],
      usualNearHalf: 0.5,
    };
    expect(airWords(ways, name)).toBe('The air changes side between D5 (down) and A5 (up), ascending.');
    expect(plain(nearHalfWords(ways, name)!)).toContain('near half and half as this lesson was set up (50 %).');
  });

  test('nothing sure', () => {
    expect(airWords({ ...air, seen: [seen('F5', 77, 0, 0, 2)] }, name)).toBe('Which way the air goes was not seen surely at any note.');
    expect(airWords({ ...air, seen: [seen('F5', 77, 1, 1)], both: ['F5'] }, name)).toBe('At F5 the air was seen both ways, in different takes.');
  });
});

describe('the follow ratio', () => {
  const follow = (value: number, low: number, high: number): FollowRatio => ({ ratio: estimate(value, low, high), offsetDeg: 0.32, points: [], fitP: 0.3 });

  test.each([
    [0.93, 0.75, 1.1, 'the horn follows the arch'],
    [0.8, 0.3, 1.3, 'the horn follows the arch, wholly or in part'],
    [0.5, 0.3, 0.7, 'the horn follows the arch in part'],
    [0.1, -0.2, 0.4, 'the horn is held still, as far as can be told'],
    [-0.6, -0.9, -0.3, 'the horn goes against the arch'],
    [1.6, 1.3, 1.9, 'the horn swings further than the arch asks for'],
    [0.5, -0.2, 1.2, 'these readings fit a horn that follows the arch as well as one that is held still'],
  ])('%s (%s to %s): %s', (value, low, high, words) =>
    expect(plain(followWords(follow(value, low, high), 'lateral', 'held'))).toBe(
      `Sideways ${words}: ratio ${value.toFixed(2).replace('-', '−')} (${low.toFixed(2).replace('-', '−')} to ${high.toFixed(2).replace('-', '−')}).`,
    ));

  test('on the lap it is the head that moves', () => {
    expect(plain(followWords(follow(0.93, 0.75, 1.1), 'elevation', 'lap'))).toBe('Tipping forward and back the head follows the arch: ratio 0.93 (0.75 to 1.10).');
    expect(plain(followWords(follow(1.05, 0.07, 5), 'elevation', 'held'))).toMatch(/: ratio 1\.05 \(0\.07 or more\)\.$/);
    expect(plain(followWords(follow(-1, -5, -0.2), 'lateral', 'held'))).toMatch(/: ratio −1\.00 \(−0\.20 or less\)\.$/);
    expect(ratioMeaning('lap')).toContain('the head moves as the arch asks for');
    expect(ratioMeaning('held')).not.toContain('head');
  });

  test('the fit and the offset', () => {
    expect(plain(followFitWords(follow(1, 0.8, 1.2)))).toBe('One ratio fits all these notes (p = 0.30).');
    expect(plain(followFitWords({ ...follow(1, 0.8, 1.2), fitP: 0.0004 }))).toContain('come less than once in 1000 times (p < 0.001)');
    expect(offsetWords(follow(1, 0.8, 1.2), 'lateral')).toBe('At home the fitted line lies 0.3° to the player’s right of the angle measured there.');
    expect(offsetWords({ ...follow(1, 0.8, 1.2), offsetDeg: -0.01 }, 'lateral')).toBe('The fitted line passes through home.');
  });
});

describe('the own shape', () => {
  const along = { fromUpDeg: 20, elevation: estimate(0.8, 0.5, 1.1), lateral: estimate(0.6, 0.3, 0.9), modelElevation: 0.9, modelLateral: 0.5 };
  const local: LocalShape = { degPerMm: [[0.9, 0.02], [0, 1.64]], covariance: [], along, modelDegPerMm: [[1, 0], [0, 1.5]], fitP: 0.5 };

  test('says what a millimetre brings', () => {
    expect(localWords(local, 'held')).toBe(
      'Near home, every millimetre up swings the bell 0.9° up; every millimetre to the player’s right, 1.6° to the right.',
    );
    expect(localWords(local, 'lap')).toBe(
      'Near home, every millimetre up swings the head 0.9° forward; every millimetre to the player’s right, 1.6° to the left.',
    );
    expect(localWords({ ...local, degPerMm: null, covariance: null }, 'held')).toBe(
      'Near home, every millimetre along the line (up and 20° to the player’s right) swings the bell 0.8° up and 0.6° to the right.',
    );
    expect(localWords({ ...local, degPerMm: [[0, 0], [0, 0]] }, 'held')).toContain('swings the bell by less than 0.1°');
  });

  test('the radius after stands before the one before', () => {
    expect(plain(radiusWords('front', { beforeMm: estimate(27, 20, 34), afterMm: estimate(24.1, 21, 27.2) }))).toBe(
      'With these readings the front’s radius, seen from above, is 24.1 mm (21.0 to 27.2); the chosen arch alone says 27.0 mm (20.0 to 34.0).',
    );
  });
});

describe('the own shape', () => {
  const band = { mean: 0, sd: 1, low: -2, high: 2, found: 1990 };
  const swing = { elevationDeg: 0, lateralDeg: 0, elevationSdDeg: 1, lateralSdDeg: 1 };
  const at = (midi: number, measured: boolean, isDrawn: boolean): SwingPrediction => ({
    note: `${midi}`, midi, direction: null, measured, after: swing, before: isDrawn ? { ...swing, drawn: { elevation: band, lateral: band } } : swing,
  });
  const own = (part: Partial<OwnShape>): OwnShape => ({
    frontRadius: null, verticalRadius: null, iterations: 3, residualDeg: 0.84, fitP: 0.85, arch: demoPlayers[0]!.record.arch, predictions: [], ...part,
  });

  test('says what is left over, and how likely that is of a horn that follows', () => {
    expect(residualWords(own({}))).toBe('What the fitted arch leaves of the measured swings is 0.8° (root mean square).');
    expect(plain(fitWords(own({})))).toBe('From a horn that follows the arch, swings this far off or further come about 9 times in 10 (p = 0.85).');
    expect(plain(fitWords(own({ fitP: 0.004 })))).toBe(
      'From a horn that follows the arch, swings this far off come about once in 250 times (p = 0.004): this horn may not follow it, and then the radii tell little.',
    );
    expect(fitWords(own({ fitP: 0 }))).toContain('less than once in 1000 times');
  });

  test('says where its bands come from, and which notes were not measured', () => {
    expect(bandWords(own({ predictions: [at(60, true, true), at(61, false, true)] }))).toContain('2,000 mouths');
    expect(bandWords(own({ predictions: [at(60, true, false)] }))).toContain('no worker');
    expect(predictionWords(own({ predictions: [at(60, true, true), at(61, false, true)] }))).toContain('the one note where the horn was not measured');
  });

  test('says that a fit has failed, and when', () => {
    expect(failedWords({ kind: 'failed', iterations: 12, residualDeg: 3, words: 'The radii did not come to rest on these readings.' })).toBe(
      'The arch could not be fitted. The radii did not come to rest on these readings. It was given up after 12 steps.',
    );
  });
});

describe('what is missing', () => {
  test.each([
    [{ notes: ['D5', 'F5'], takes: 2, of: 'travel' as const }, 'take 2 more readings each at D5 and F5'],
    [{ notes: ['D5'], takes: 1, of: 'travel' as const }, 'take 1 more reading at D5'],
    [{ notes: [], takes: 1, moreNotes: 2, of: 'travel' as const }, 'take readings at 2 more notes'],
    [{ notes: ['G5'], takes: 2, moreNotes: 1, of: 'travel' as const }, 'take readings at 1 more note, such as G5, 2 takes of each'],
    [{ notes: ['D5', 'F5'], takes: 1, of: 'horn' as const }, 'measure the horn’s angle at D5 and F5'],
    [{ notes: ['D5', 'F5'], takes: 3, of: 'horn' as const }, 'measure the horn’s angle at D5 and F5, 3 more times each'],
    [{ notes: ['D5'], takes: 1, of: 'jaw' as const }, 'say where the jaw stands at D5'],
    [{ notes: [], takes: 1, of: 'airstream' as const }, 'look which way the air goes'],
    [{ notes: ['D5'], takes: 600, of: 'travel' as const }, 'more readings than a lesson holds would be needed at D5: measure more finely'],
  ])('%j: %s', (need, words) => expect(needWords(need, name)).toBe(words));

  test('the reason comes first, but where the wish says it all', () => {
    const needs = [{ notes: ['D5', 'F5'], takes: 1, of: 'jaw' as const }];
    expect(cannotTellWords({ kind: 'cannot-tell', reason: 'jaw-not-known', needs }, name)).toBe(
      'Cannot tell yet: where the jaw stands was not seen at the notes, and half a millimetre of jaw is about a degree of horn. Say where the jaw stands at D5 and F5.',
    );
    expect(cannotTellWords({ kind: 'cannot-tell', reason: 'too-few-notes', needs: [{ notes: [], takes: 1, moreNotes: 2, of: 'travel' }] }, name)).toBe(
      'Cannot tell yet: take readings at 2 more notes.',
    );
    expect(cannotTellWords({ kind: 'cannot-tell', reason: 'too-unsure', needs: [] }, name)).toBe('Cannot tell yet: the readings are not sure enough.');
    expect(cannotTellWords({ kind: 'cannot-tell', reason: 'too-unsure', needs: [] }, name, 'Sideways')).toBe(
      'Sideways, it cannot be told yet: the readings are not sure enough.',
    );
  });
});

describe('shared words', () => {
  test.each([
    [0.99, 'nearly every time'],
    [0.4, 'about 4 times in 10'],
    [0.143, 'about once in 7 times'],
    [0.0213, 'about once in 45 times'],
    [0.005, 'about once in 200 times'],
    [0.001, 'about once in 1000 times'],
    [0, 'less than once in 1000 times'],
  ])('p = %s happens %s', (p, words) => expect(chanceWords(p)).toBe(words));

  test.each([-0.1, 1.1, Number.NaN])('%s is no chance', (p) => expect(() => chanceWords(p)).toThrow(RangeError));

  test('lists, evidence, probabilities and players', () => {
    expect([listWords([]), listWords(['D5']), listWords(['D5', 'F5']), listWords(['D5', 'F5', 'A5'])]).toEqual(['', 'D5', 'D5 and F5', 'D5, F5 and A5']);
    expect(evidenceWords({ notes: 1, readings: 12 })).toBe('From 1 note, 12 readings.');
    expect([pText(0.0004), pText(0.012), pText(0.4)].map(plain)).toEqual(['p < 0.001', 'p = 0.012', 'p = 0.40']);
    expect(crossWords(3)).toContain('no statistics of players in general. So few');
    expect(crossWords(60)).not.toContain('So few');
  });

  test('too few players for a table', () => {
    expect(fewWords(0, 0)).toBe('No player is kept here yet. A table needs at least 2.');
    expect(fewWords(1, 0)).toBe('Only one player is kept here. A table needs at least 2.');
    expect(fewWords(3, 1)).toBe('Of the 3 kept players, only one could be looked at. A table needs at least 2.');
    expect(fewWords(3, 0)).toContain('none could be looked at');
    expect(fewWords(3, 2)).toBeNull();
  });
});
