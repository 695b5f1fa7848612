/** What moves in a class: players in step by note, one clock for all, and answers that are read off what was computed. */
import { describe, expect, test } from 'vitest';
import { answerOf, endFrame, stepSentences } from '../../../../src/app/class/answer';
import { type Actor, createCast, recordFor } from '../../../../src/app/class/cast';
import { createClassMotion } from '../../../../src/app/class/motion';
import { differences, wayOf } from '../../../../src/app/beside/twoPlayers';
import { type Follower, createFollower, pitchRange, sharedRange } from '../../../../src/app/follower';
import { analyse } from '../../../../src/core/analyse';
import { midiOf, noteName } from '../../../../src/core/pitch';
import type { ClassStep } from '../../../../src/records/classSchema';
import { classes } from '../../../../src/records/classes';
import { expectWithin } from '../../../support/expectWithin';

const [spec] = classes;
const step = (id: string): ClassStep => spec.steps.find((one) => one.id === id)!;
const cast = createCast(null);
const actorOf = (id: string, at = 0): Actor => cast.actor(step(id).who[at]!)!;
const followerOf = ({ analysis, live }: Actor): Follower => createFollower(() => ({ analysis, live, options: { horn: 'follow', view: 'seated' } }));
/** A glance finds angles to 0.01°, a full look closer. */
const GLANCE = { abs: 0.02 };

describe('two players in step by note', () => {
  const [up, down] = [actorOf('the-other-way'), actorOf('the-other-way', 1)];
  const shared = sharedRange(pitchRange(up.analysis), pitchRange(down.analysis))!;

  test('share the notes that both have', () => {
    expect([noteName(shared.low), noteName(shared.high)]).toEqual(['F3', 'Bb4']);
    expect(sharedRange({ low: 40, high: 50 }, { low: 51, high: 60 })).toBeNull();
    expect(sharedRange(null, { low: 51, high: 60 })).toBeNull();
  });

  test('each stands where its own path passes the note', () => {
    for (const actor of [up, down]) {
      const follower = followerOf(actor);
      for (let midi = shared.low; midi <= shared.high; midi += 2.5) {
        expect(follower.toPitch(midi)).toBe(true);
        expect(follower.current()?.midi).toBe(midi);
        expect(follower.current()?.travel).toEqual(actor.live.travelAt(midi));
      }
      const reading = actor.analysis.readings.find((one) => one.midi === midiOf('Bb3'))!;
      follower.toPitch(reading.midi);
      expectWithin(follower.current()!.travel.upMm, reading.travel.upMm, { abs: 1e-9 });
      expectWithin(follower.current()!.follow.pose.elevationDeg, reading.follow.pose.elevationDeg, GLANCE);
    }
  });

  test('where a player has no such note it says so and stands still at the nearest', () => {
    const follower = followerOf(down);
    let told = 0;
    follower.subscribe(() => (told += 1));
    expect(follower.toPitch(shared.high + 3)).toBe(false);
    const still = follower.current();
    expect(still?.midi).toBe(shared.high);
    expect(follower.hasNote()).toBe(false);
    expect(follower.toPitch(shared.high + 9)).toBe(false);
    // Nothing new to be drawn.
    expect([follower.current(), told]).toEqual([still, 1]);
    expect(follower.toPitch(shared.high - 1)).toBe(true);
    expect([follower.hasNote(), told]).toEqual([true, 2]);
  });

  test('a place where the rim finds no seat leaves the last picture', () => {
    const follower = followerOf(up);
    follower.toTravel({ upMm: 1, rightMm: 0 });
    const before = follower.current();
    expect(follower.toTravel({ upMm: 29, rightMm: 29 })).toBe(false);
    expect(follower.current()).toBe(before);
  });

  test('their numbers are those of full analyses, and how far apart they are', () => {
    const ways = [up, down].map(({ analysis, live }) => {
      const way = wayOf(analysis, live, shared.low, shared.high)!;
      const readings = [noteName(shared.low), noteName(shared.high)].map((note) => analysis.readings.find((one) => one.midi === midiOf(note))!);
      expectWithin(way.travel.upMm, readings[1]!.travel.upMm - readings[0]!.travel.upMm, { abs: 1e-9 });
      expectWithin(way.swing.elevationDeg, readings[1]!.changeFromHome.elevationDeg - readings[0]!.changeFromHome.elevationDeg, GLANCE);
      return way;
    });
    const apart = differences(ways[0]!, ways[1]!);
    expectWithin(apart.upMm, Math.abs(ways[0]!.travel.upMm - ways[1]!.travel.upMm), { abs: 1e-12 });
    expect(stepSentences(step('the-other-way'), [up, down], noteName)).toMatchObject({
      each: [expect.stringMatching(/^From F3 to Bb4 the rim goes .+ up .+; the bell would come .+\.$/), expect.stringMatching(/^From F3 to Bb4 the rim goes .+ down .+; the bell .+\.$/)],
      together: expect.stringContaining(`${apart.elevationDeg.toFixed(1)}° of swing up and down`) as string,
    });
  });
});

describe('answers are read off what is computed', () => {
  /** The same place asked of a full analysis, as the notebook would have it. */
  const inFull = (id: string) => {
    const { plays, who } = step(id);
    if (plays.kind !== 'line') throw new RangeError(`${id}: ${plays.kind}; allowed: a step whose rim goes along a line`);
    const record = recordFor(who[0]!, null)!;
    const { upMm, rightMm } = plays;
    return analyse({ ...record, readings: [{ note: 'C5', travel: { upMm, rightMm } }] }).readings[0]!;
  };

  test('on a flat plate the horn keeps its direction', () => {
    const actor = actorOf('flat-plate');
    const end = endFrame(step('flat-plate'), actor)!;
    expect(answerOf('bell up or down', actor, end)).toBe(2);
    expect(answerOf('bell to the side', actor, end)).toBe(2);
    expectWithin(end.shown.elevationDeg, actor.analysis.home.follow.pose.elevationDeg, GLANCE);
  });

  test('held still, the half that carries more of the force', () => {
    const actor = actorOf('held-still');
    const answer = answerOf('upper or lower half', actor, endFrame(step('held-still'), actor)!);
    expect(answer).toBe(inFull('held-still').held.load.share.upper > 0.5 ? 0 : 1);
  });

  test.each(['horn-follows', 'sideways'])('%s: the way the bell goes, and by how much', (id) => {
    const actor = actorOf(id);
    const end = endFrame(step(id), actor)!;
    const { changeFromHome } = inFull(id);
    const change = id === 'sideways' ? changeFromHome.lateralDeg : changeFromHome.elevationDeg;
    expect(Math.abs(change)).toBeGreaterThan(1);
    expect(answerOf(step(id).question!.about, actor, end)).toBe(change > 0 ? 0 : 1);
    expect(stepSentences(step(id), [actor], noteName).together).toContain(`${Math.abs(change).toFixed(1)}°`);
  });

  test('the other way round the answer is the other one', () => {
    const actor = actorOf('sideways');
    const left = actor.live.atTravel({ upMm: 0, rightMm: -4 }, { horn: 'follow', view: 'seated' })!;
    expect(answerOf('bell to the side', actor, left)).toBe(1);
  });
});

describe('one clock', () => {
  const setUp = (id: string, still = false) => {
    const actors = step(id).who.map((_, at) => actorOf(id, at));
    const followers = actors.map(followerOf);
    const asked: ((ms: number) => void)[] = [];
    const clock = { request: (callback: (ms: number) => void) => asked.push(callback), cancel: () => void asked.splice(0) };
    const motion = createClassMotion({ plays: step(id).plays, actors, followers, reducedMotion: () => still, clock });
    let nowMs = 0;
    const run = (frames: number, ms = 50): void => {
      for (let frame = 0; frame < frames; frame++) asked.shift()?.((nowMs += ms));
    };
    return { motion, followers, asked, run };
  };

  test('takes the rim from home to its place and stops there', () => {
    const { motion, followers, asked, run } = setUp('horn-follows');
    expect(motion.stands()).toBe('start');
    motion.play();
    run(20);
    expect([motion.isPlaying(), motion.stands()]).toEqual([true, 'on the way']);
    motion.pause();
    expect([motion.isPlaying(), asked.length]).toEqual([false, 0]);
    motion.play();
    run(200);
    expect([motion.isPlaying(), motion.stands(), asked.length]).toEqual([false, 'end', 0]);
    expectWithin(followers[0]!.current()!.travel.upMm, 4, { abs: 1e-9 });
    motion.toStart();
    expectWithin(followers[0]!.current()!.travel.upMm, 0, { abs: 1e-9 });
  });

  test('two players show the same note at every frame, until one of them has it no more', () => {
    const { motion, followers, run } = setUp('the-other-way');
    motion.play();
    let together = 0;
    for (let frame = 0; frame < 130; frame++) {
      run(1);
      const [one, other] = followers.map((follower) => ({ midi: follower.current()!.midi, has: follower.hasNote() }));
      expect(one!.has || other!.has).toBe(true);
      if (!one!.has || !other!.has) continue;
      expect(one!.midi).toBe(other!.midi);
      together += 1;
    }
    expect(together).toBeGreaterThan(20);
    expect(followers.map((follower) => follower.hasNote())).toEqual([true, false]);
  });

  test('with less motion the end is there at once', () => {
    const { motion, followers, asked } = setUp('sideways', true);
    motion.play();
    expect([motion.stands(), asked.length]).toEqual(['end', 0]);
    expectWithin(followers[0]!.current()!.travel.rightMm, 4, { abs: 1e-9 });
  });

  test('a number from the room: from where the rim is, straight there', () => {
    const { motion, followers, run } = setUp('your-turn');
    motion.goTo({ upMm: -2, rightMm: 1 });
    run(200);
    motion.goTo({ upMm: 3, rightMm: 1 });
    run(30);
    const { upMm, rightMm } = followers[0]!.current()!.travel;
    expect(upMm).toBeGreaterThan(-2);
    expect(upMm).toBeLessThan(3);
    expectWithin(rightMm, 1, { abs: 1e-9 });
    run(200);
    expectWithin(followers[0]!.current()!.travel.upMm, 3, { abs: 1e-9 });
  });
});
