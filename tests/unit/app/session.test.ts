import { describe, expect, test } from 'vitest';
import { describeSelected } from '../../../src/app/describe';
import { createSession, readingAt } from '../../../src/app/session';
import { DEFAULT_SETTINGS, readSettings } from '../../../src/app/settings';
import { PASS_MS, type FrameClock } from '../../../src/app/playhead';
import { PATH_STEPS } from '../../../src/app/pathSampler';
import { movesHome } from '../../../src/app/store';
import { analyse } from '../../../src/core/analyse';
import { createLive } from '../../../src/core/live';
import { UNSEEN_HORN_SD_DEG } from '../../../src/core/readings';
import type { HornSpec } from '../../../src/core/specs';
import { withTravel } from '../../../src/notebook/recordEdits';
import { demoPlayers, openedOf } from '../../support/demos';
import { expectWithin } from '../../support/expectWithin';

const record = demoPlayers[0]!.record;
const homeIndex = record.readings.findIndex((reading) => reading.note === record.home?.note);
const topIndex = record.readings.length - 1;

/** A frame clock wound by hand; counts what was asked of it. */
function handClock(): FrameClock & { advance(ms: number): void; waiting(): number } {
  const callbacks = new Map<number, (timeMs: number) => void>();
  let nextHandle = 1;
  let nowMs = 1000;
  return {
    request: (callback) => {
      callbacks.set(nextHandle, callback);
      return nextHandle++;
    },
    cancel: (handle) => void callbacks.delete(handle),
    waiting: () => callbacks.size,
    advance: (ms) => {
      nowMs += ms;
      const due = [...callbacks.values()];
      callbacks.clear();
      for (const callback of due) callback(nowMs);
    },
  };
}

function begin(selected = topIndex) {
  const clock = handClock();
  const session = createSession({ analyse, createLive }, clock, (work) => work(() => 1), () => () => undefined, { ...openedOf(record), settings: DEFAULT_SETTINGS, selected }, () => 'moved');
  return { clock, session, state: () => session.store.getState() };
}

describe('what moves the picture', () => {
  test('it starts at the selected note, and nothing asks for frames', () => {
    const { clock, session } = begin();
    expect(session.playhead.current()?.travel).toMatchObject({ upMm: 3.6, rightMm: 1.3 });
    expect(clock.waiting()).toBe(0);
  });

  test('choosing a note shows it', () => {
    const { session } = begin();
    session.selectReading(0);
    expect(session.playhead.current()?.midi).toBe(readingAt(session.store.getState(), 0)?.midi);
  });

  test('typing a travel changes the angle at once', () => {
    const { session, state } = begin();
    const before = readingAt(state(), topIndex)!.changeFromHome.elevationDeg;
    state().change((now) => withTravel(now, topIndex, { upMm: 1 }), 'typed');
    expect(session.playhead.current()?.travel.upMm).toBe(1);
    expect(readingAt(state(), topIndex)!.changeFromHome.elevationDeg).toBeLessThan(before - 0.5);
  });

  test('a hand that still holds the rim moves nothing of another player put in this one’s place', () => {
    const { session, state } = begin();
    session.startDrag();
    session.dragTo({ upMm: 3, rightMm: 1 });
    expect(state().record.readings[topIndex]!.travel!.upMm).toBe(3);
    const other = demoPlayers[1]!.record;
    state().open(openedOf(other));
    session.dragTo({ upMm: 9, rightMm: 9 });
    session.endDrag();
    expect(state().record).toEqual(other);
  });

  test('a note without a seat says so, and home is shown where there was no picture yet', () => {
    const clock = handClock();
    const unreachable = withTravel(record, topIndex, { rightMm: 55 });
    const session = createSession({ analyse, createLive }, clock, (work) => work(() => 1), () => () => undefined, { ...openedOf(unreachable), settings: DEFAULT_SETTINGS, selected: topIndex }, () => 'moved');
    expect(session.playhead.current()?.travel).toMatchObject({ upMm: 0, rightMm: 0 });
    expect(describeSelected(session.store.getState())).toMatch(/^Nothing can be said of B♭5: the rim /);
  });

  test('a note of several takes says that it is their mean', () => {
    const { state } = begin();
    const top = record.readings[topIndex]!;
    state().change(() => ({ ...record, readings: [...record.readings, { ...top, travel: { ...top.travel, upMm: 3 } }] }));
    expect(describeSelected(state())).toMatch(/^At B♭5 \(mean of 2 takes\) the rim is 3\.3\smm up/);
  });

  test('a horn angle counts as measured at home where both angles were seen', () => {
    const { state } = begin();
    const atHome = (horn: HornSpec) => {
      state().change(() => ({ ...record, readings: record.readings.map((one) => (one.note === record.home!.note ? { ...one, horn } : one)) }));
      return describeSelected(state());
    };
    expect(atHome({ elevationDeg: -8, lateralDeg: 0, sdDeg: 1 })).toContain('From the horn angle measured at home');
    expect(atHome({ elevationDeg: -8, lateralDeg: 0, sdDeg: 1, lateralSdDeg: UNSEEN_HORN_SD_DEG })).not.toContain('measured');
  });

  test('an unchanged record is not computed again', () => {
    const { state } = begin();
    const { analysis } = state();
    state().change((now) => now);
    state().set({ theme: 'projector' });
    expect(state().analysis).toBe(analysis);
  });

  test('held still shows the angle of home', () => {
    const { session, state } = begin();
    state().set({ horn: 'held' });
    const home = state().analysis!.home.follow.pose;
    expectWithin(session.playhead.current()!.shown.elevationDeg, home.elevationDeg, { abs: 1e-9 });
    expectWithin(session.playhead.current()!.shown.lateralDeg, home.lateralDeg, { abs: 1e-9 });
  });

  test('the flat plate shows no change', () => {
    const { session, state } = begin();
    state().set({ view: 'plate' });
    expectWithin(session.playhead.current()!.shown.elevationDeg, state().analysis!.home.follow.pose.elevationDeg, { abs: 1e-9 });
  });
});

describe('playing', () => {
  test('goes from the lowest note to the highest and back, and the selection goes along', () => {
    const { clock, session, state } = begin(0);
    session.playhead.play();
    clock.advance(0);
    const { low, high } = state().live!.range!;
    for (let at = 0; at < PASS_MS; at += 50) clock.advance(50);
    expectWithin(session.playhead.current()!.midi!, high, { abs: 0.01 });
    expect(state().selected).toBe(topIndex);
    for (let at = 0; at < PASS_MS; at += 50) clock.advance(50);
    expectWithin(session.playhead.current()!.midi!, low, { abs: 0.01 });
    expect(session.playhead.isPlaying()).toBe(true);
  });

  test('without there and back it stops at the top', () => {
    const { clock, session, state } = begin(0);
    state().set({ loop: false });
    session.playhead.play();
    for (let at = 0; at <= PASS_MS + 100; at += 50) clock.advance(50);
    expect(session.playhead.isPlaying()).toBe(false);
    expect(clock.waiting()).toBe(0);
    expectWithin(session.playhead.current()!.midi!, state().live!.range!.high, { abs: 1e-9 });
  });

  test('twice the speed takes half the time', () => {
    const { clock, session, state } = begin(0);
    state().set({ speed: 2 });
    session.playhead.play();
    clock.advance(0);
    for (let at = 0; at < PASS_MS / 2; at += 50) clock.advance(50);
    expectWithin(session.playhead.current()!.midi!, state().live!.range!.high, { abs: 0.01 });
  });

  test('a pause asks for no more frames and keeps the picture', () => {
    const { clock, session } = begin(0);
    session.playhead.play();
    clock.advance(0);
    clock.advance(100);
    const { midi } = session.playhead.current()!;
    session.playhead.pause();
    expect(clock.waiting()).toBe(0);
    expect(session.playhead.current()!.midi).toBe(midi);
  });
});

describe('readings seen going up and going down apart', () => {
  const readings = (['up', 'down'] as const).flatMap((direction) =>
    record.readings
      .filter((reading) => reading.note !== record.home?.note)
      .map((reading) => ({ ...reading, direction, travel: { ...reading.travel, upMm: reading.travel.upMm + (direction === 'down' ? 0.8 : 0) } })));
  const both = { ...record, readings };
  const beginBoth = (settings: Partial<typeof DEFAULT_SETTINGS>) => {
    const clock = handClock();
    const start = { ...openedOf(both), settings: { ...DEFAULT_SETTINGS, ...settings }, selected: 0 };
    const session = createSession({ analyse, createLive }, clock, (work) => work(() => 1), () => () => undefined, start, () => 'moved');
    return { clock, session };
  };
  /** Travel at the same pitch on the way up and on the way back down. */
  const passes = (settings: Partial<typeof DEFAULT_SETTINGS>): [number, number] => {
    const { clock, session } = beginBoth(settings);
    session.playhead.play();
    clock.advance(0);
    const half = PASS_MS / 2;
    for (let at = 0; at < half; at += 50) clock.advance(50);
    const up = session.playhead.current()!;
    for (let at = 0; at < PASS_MS; at += 50) clock.advance(50);
    const down = session.playhead.current()!;
    expectWithin(down.midi!, up.midi!, { abs: 1e-6 });
    return [up.travel.upMm, down.travel.upMm];
  };

  test('play up by the one and down by the other, or one of them both ways', () => {
    const [up, down] = passes({});
    expectWithin(down - up, 0.8, { abs: 1e-6 });
    for (const [plays, wanted] of [['up', up], ['down', down]] as const) {
      for (const travel of passes({ plays })) expectWithin(travel, wanted, { abs: 1e-6 }, plays);
    }
  });

  test('are sampled as two ways, each by its own readings', () => {
    const { session } = beginBoth({});
    const [up, down] = session.path.current();
    expect([up!.direction, down!.direction]).toEqual(['up', 'down']);
    expect(up!.frames).toHaveLength(PATH_STEPS);
    up!.frames.forEach((frame, index) => expectWithin(down!.frames[index]!.travel.upMm - frame.travel.upMm, 0.8, { abs: 1e-9 }));
  });

  test('the time line shows the way it was touched on, and knows until when a hand is at it', () => {
    const { session } = beginBoth({});
    session.scrub(62, 'up');
    const up = session.playhead.current()!.travel.upMm;
    session.scrub(62, 'down');
    expectWithin(session.playhead.current()!.travel.upMm - up, 0.8, { abs: 1e-9 });
    expect(session.store.getState().passing).toBe(true);
    session.endScrub();
    expect(session.store.getState().passing).toBe(false);
  });
});

describe('a hand that goes along the staff', () => {
  const next = topIndex - 1;

  test('is shown one picture a step, also where it comes to another note', () => {
    const { session, state } = begin();
    const shown: (number | null)[] = [];
    session.playhead.subscribe(() => shown.push(session.playhead.current()!.midi));
    const { midi } = readingAt(state(), next)!;
    session.scrub(midi + 0.1, null, topIndex);
    session.scrub(midi - 0.1, null, next);
    expect(shown).toEqual([midi + 0.1, midi - 0.1]);
    expect(state().selected).toBe(next);
    session.endScrub();
    expect(shown).toHaveLength(2);
  });

  test('has the words follow with its next step at the note, or when it lets go', () => {
    const { session, state } = begin();
    const { midi } = readingAt(state(), next)!;
    session.scrub(midi, null, next);
    expect(session.told.current()).toBe(topIndex);
    expect(session.chosen.current()).toBe(readingAt(state(), topIndex));
    session.scrub(midi + 0.05, null, next);
    expect(session.told.current()).toBe(next);
    expect(session.chosen.current()).toBe(readingAt(state(), next));
    session.scrub(midi + 1, null, topIndex);
    expect(session.told.current()).toBe(next);
    session.endScrub();
    expect(session.told.current()).toBe(topIndex);
    expect(session.chosenTravel.current()).toBe(state().record.readings[topIndex]!.travel);
  });

  test('stays at the take that was chosen of the note that it is at', () => {
    const { session, state } = begin();
    const top = record.readings[topIndex]!;
    state().change(() => ({ ...record, readings: [...record.readings, { ...top, travel: { ...top.travel, upMm: 3 } }] }));
    state().select(topIndex + 1);
    session.scrub(readingAt(state(), topIndex)!.midi - 0.1, null, topIndex);
    expect(state().selected).toBe(topIndex + 1);
    session.endScrub();
  });
});

describe('dragging the rim', () => {
  test('gives the selected note its travel, in one undo step, and stops the playing', () => {
    const { session, state } = begin();
    const before = state().record;
    session.playhead.play();
    session.startDrag();
    session.dragTo({ upMm: 3, rightMm: 1 });
    session.dragTo({ upMm: 2.5, rightMm: 0.5 });
    expect(session.playhead.isPlaying()).toBe(false);
    expect(session.playhead.current()?.travel).toMatchObject({ upMm: 2.5, rightMm: 0.5 });
    session.endDrag();
    expect(state().record.readings[topIndex]?.travel).toMatchObject({ upMm: 2.5, rightMm: 0.5 });
    state().undo();
    expect(state().record).toBe(before);
    expect(session.playhead.current()?.travel).toMatchObject({ upMm: 3.6, rightMm: 1.3 });
  });

  test('a place where the rim cannot rest is not taken, and the picture stays', () => {
    const { session, state } = begin();
    session.startDrag();
    session.dragTo({ upMm: 3, rightMm: 1 });
    session.dragTo({ upMm: 0, rightMm: 59 });
    session.endDrag();
    expect(state().record.readings[topIndex]?.travel).toMatchObject({ upMm: 3, rightMm: 1 });
    expect(state().failure).toBeNull();
  });

  test('at the home note the home place moves, and every travel stays', () => {
    const { session, state } = begin(homeIndex);
    const before = state().analysis!.home;
    expect(movesHome(state().record, homeIndex)).toBe(true);
    session.startDrag();
    session.dragTo({ upMm: 0.5, rightMm: -0.25 });
    session.endDrag();
    expectWithin(state().analysis!.home.upMm, before.upMm + 0.5, { abs: 1e-9 });
    expectWithin(state().analysis!.home.rightMm, before.rightMm - 0.25, { abs: 1e-9 });
    expect(state().record.readings).toEqual(record.readings);
  });

  test('keys move it by their step and say so', () => {
    const { session, state } = begin();
    session.nudge({ upMm: 0.1, rightMm: 0 });
    session.nudge({ upMm: 0.1, rightMm: 0 });
    expect(state().record.readings[topIndex]?.travel?.upMm).toBe(3.8);
    expect(state().announcement).toBe('moved');
    state().undo();
    expect(state().record.readings[topIndex]?.travel?.upMm).toBe(3.6);
  });
});

describe('what cannot be computed', () => {
  test('a note out of reach is named, the others and the picture stay', () => {
    const { session, state } = begin();
    const shown = session.playhead.current();
    state().change((now) => withTravel(now, topIndex, { rightMm: 59 }), 'typed');
    expect(state().analysis!.problems.map((one) => one.readingIndex)).toEqual([topIndex]);
    expect(state().analysis!.readings).toHaveLength(topIndex);
    expect(session.playhead.current()).toBe(shown);
  });

  test('a home out of reach is said, and the last good analysis stays', () => {
    const { session, state } = begin();
    const { analysis } = state();
    const shown = session.playhead.current();
    state().change((now) => ({ ...now, home: { ...now.home, rightMm: 59 } }));
    expect(state().failure).toContain('At home ');
    expect(state().analysis).toBe(analysis);
    expect(session.playhead.current()).toBe(shown);
    state().undo();
    expect(state().failure).toBeNull();
  });
});

describe('settings', () => {
  test('keep what is understood and leave the rest at its default', () => {
    expect(readSettings({ theme: 'projector', speed: 99, camera: 'moon', other: 1 })).toEqual({ ...DEFAULT_SETTINGS, theme: 'projector' });
    expect(readSettings(null)).toEqual(DEFAULT_SETTINGS);
    expect(readSettings('x')).toEqual(DEFAULT_SETTINGS);
  });
});

describe('another arch, undone', () => {
  test('has the seats it had, and so has the other one when it is done again: none is worked out anew', () => {
    const { state } = begin();
    const before = state().analysis!;
    const { arch } = record;
    if ('single' in arch) throw new Error('two jaws');
    state().change((now) => ({ ...now, arch: { ...arch, jaw: { ...arch.jaw, forwardMm: arch.jaw.forwardMm - 1 } } }));
    const changed = state().analysis!;
    expect(changed.home.follow).not.toBe(before.home.follow);
    state().undo();
    expect(state().analysis!.home.follow).toBe(before.home.follow);
    for (const [index, { follow }] of state().analysis!.readings.entries()) expect(follow).toBe(before.readings[index]!.follow);
    state().redo();
    expect(state().analysis!.home.follow).toBe(changed.home.follow);
    // A reading changed in between is worked out; the rest is as it was.
    state().change((now) => ({ ...now, readings: now.readings.slice(0, -1) }));
    expect(state().analysis!.readings).toHaveLength(record.readings.length - 1);
    state().undo();
    state().undo();
    expect(state().analysis!.readings.map(({ changeFromHome }) => changeFromHome)).toEqual(analyse(record).readings.map(({ changeFromHome }) => changeFromHome));
  });
});
