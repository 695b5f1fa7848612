import { describe, expect, it, vi } from 'vitest';
import { createRandom } from '../../../src/core/random';
import { createFilmTracker, type FilmTracker } from '../../../src/measure/filmTracker';
import { lostStretches } from '../../../src/measure/lostStretches';
import type { LandmarkName, PictureMarks } from '../../../src/measure/marks';
import type { Point } from '../../../src/measure/picture';
import type { TracedFrame } from '../../../src/measure/traces';
import { expectWithin } from '../../support/expectWithin';
import { AT_REST, flatScene, type FlatFrame, type Motion, RING, ringMarks, ringSeen, seenOnFace } from '../../support/flatScene';

const places: Partial<Record<LandmarkName, Point>> = {
  'nose-bridge': { x: 160.4, y: 60.2 },
  'inner-eye-right': { x: 120.7, y: 55.1 },
  'inner-eye-left': { x: 200.2, y: 58.8 },
  'cheekbone-right': { x: 80.6, y: 110.3 },
  'cheekbone-left': { x: 250.1, y: 112.9 },
};
const names = Object.keys(places) as LandmarkName[];
const rim = { innerDiameterMm: RING.innerPx / 2, outerDiameterMm: RING.outerPx / 2 };
const scene = flatScene(createRandom(11));
/** Drawing a frame takes 20 to 150 ms, by what else the machine does. */
vi.setConfig({ testTimeout: 60_000 });

/** A head that sways and a ring that goes its own way, frame by frame. */
function swayed(frame: number): { face: Motion; ring: Motion } {
  const face = { dx: 9 * Math.sin(frame / 6), dy: 5 * Math.sin(frame / 4), growth: 1 + 0.015 * Math.sin(frame / 5), turnRad: 0.03 * Math.sin(frame / 7) };
  const ring = { dx: face.dx + 2 * Math.sin(frame / 3), dy: face.dy - 3 * Math.sin(frame / 5), growth: face.growth, turnRad: -0.02 * Math.sin(frame / 4) };
  return { face, ring };
}

const timeOf = (frame: number): number => frame / 30;

function marksAt({ face, ring }: { face: Motion; ring: Motion }): PictureMarks {
  return { rim: ringMarks(ring), landmarks: Object.fromEntries(names.map((name) => [name, seenOnFace(places[name]!, face)])) };
}

function tracker(...anchorFrames: number[]): FilmTracker {
  return createFilmTracker({ view: 'front', anchors: anchorFrames.map((frame) => ({ timeS: timeOf(frame), marks: marksAt(swayed(frame)) })), rim });
}

function follow(into: FilmTracker, from: number, to: number, change: (frame: number) => Partial<FlatFrame> = () => ({})): TracedFrame[] {
  const traced: TracedFrame[] = [];
  for (let frame = from; frame < to; frame++) {
    const answer = into.followForward(scene.draw({ ...swayed(frame), ...change(frame) }), timeOf(frame));
    if (answer) traced.push(answer);
  }
  return traced;
}

const frameOf = ({ timeS }: TracedFrame): number => Math.round(30 * timeS);

/** Points to 0.05 px, which leaves 0.03 to the rounding of brightness; the ring's centre to 0.05 px, its radius to 0.1. */
function expectRight(traced: TracedFrame, except: readonly string[] = []): void {
  const { face, ring } = swayed(frameOf(traced));
  for (const name of names.filter((one) => !except.includes(one))) {
    const truth = seenOnFace(places[name]!, face);
    const found = traced.points[name];
    if (!found) throw new Error(`${name} is lost in frame ${frameOf(traced)}`);
    expectWithin(found.x, truth.x, { abs: 0.05 }, `${name} x in frame ${frameOf(traced)}`);
    expectWithin(found.y, truth.y, { abs: 0.05 }, `${name} y in frame ${frameOf(traced)}`);
  }
  if (except.includes('rim')) return;
  if (!traced.rim) throw new Error(`the rim is lost in frame ${frameOf(traced)}`);
  const truth = ringSeen(ring);
  expectWithin(traced.rim.centre.x, truth.centre.x, { abs: 0.05 }, 'rim x');
  expectWithin(traced.rim.centre.y, truth.centre.y, { abs: 0.05 }, 'rim y');
  expectWithin(traced.rim.semiMajorPx, truth.semiMajorPx, { abs: 0.1 }, 'semi-major axis');
  expectWithin(traced.rim.semiMinorPx, truth.semiMinorPx, { abs: 0.1 }, 'semi-minor axis');
}

describe('a swaying head without noise', () => {
  it('is followed forward, each point and the rim', () => {
    const traced = follow(tracker(0), 0, 24);
    expect(traced).toHaveLength(24);
    for (const frame of traced) expectRight(frame);
  });

  it('is followed back to the beginning in blocks, after what came before the marked frame was passed over', () => {
    const both = tracker(9);
    const onward = follow(both, 0, 12);
    expect(onward.map(frameOf)).toEqual([9, 10, 11]);
    const back = [[8, 7, 6, 5, 4], [3, 2, 1, 0]].flatMap((block) =>
      both.followBlockBackward(block.map((frame) => ({ frame: scene.draw(swayed(frame)), timeS: timeOf(frame) }))),
    );
    expect(back.map(frameOf)).toEqual([8, 7, 6, 5, 4, 3, 2, 1, 0]);
    for (const frame of [...back, ...onward]) expectRight(frame);
  });

  it('is followed through a change of exposure', () => {
    for (const frame of follow(tracker(0), 0, 6, (at) => ({ exposure: { gain: 1 - 0.06 * at, offset: 4 * at } }))) expectRight(frame);
  });
});

describe('what is hidden', () => {
  it('is lost, said to be lost, and comes back by itself, while the rest goes on', () => {
    const at = places['inner-eye-right']!;
    const hidden = (frame: number): boolean => frame >= 5 && frame < 11;
    const cover = { left: at.x - 24, top: at.y - 24, sizePx: 48 };
    const traced = follow(tracker(0), 0, 16, (frame) => (hidden(frame) ? { cover } : {}));
    for (const frame of traced) {
      expectRight(frame, ['inner-eye-right']);
      expect(frame.points['inner-eye-right'] === undefined).toBe(hidden(frameOf(frame)));
      if (!hidden(frameOf(frame))) expectRight(frame);
    }
    expect(lostStretches({ view: 'front', frames: traced })).toEqual([
      { name: 'inner-eye-right', fromS: timeOf(5), toS: timeOf(10), frames: 6 },
    ]);
  });

  it('is found again after a cut to another scene and back', () => {
    const other = flatScene(createRandom(12));
    const both = tracker(0);
    follow(both, 0, 4);
    for (let frame = 4; frame < 8; frame++) {
      const traced = both.followForward(other.draw({ face: AT_REST, ring: { ...AT_REST, dx: 400 } }), timeOf(frame))!;
      expect(traced.points).toEqual({});
      expect(traced.rim).toBeNull();
    }
    for (const frame of follow(both, 8, 11)) expectRight(frame);
  });

  it('is lost where it leaves the picture', () => {
    const gone: Motion = { ...AT_REST, dx: 75 };
    const both = createFilmTracker({ view: 'front', anchors: [{ timeS: 0, marks: marksAt({ face: AT_REST, ring: AT_REST }) }], rim });
    for (let frame = 0; frame <= 15; frame++) {
      const face = { ...gone, dx: 5 * frame };
      const traced = both.followForward(scene.draw({ face, ring: AT_REST }), timeOf(frame))!;
      if (frame !== 15) continue;
      expect(traced.points['cheekbone-left']).toBeUndefined();
      for (const name of ['nose-bridge', 'inner-eye-right', 'inner-eye-left'] as const) {
        expectWithin(traced.points[name]!.x, places[name]!.x + 75, { abs: 0.05 }, name);
      }
    }
  });

  it('a rim half hidden is still followed by its metal or its edge, to 0.5 px, with a larger deviation', () => {
    const cover = { left: RING.centre.x + 8, top: RING.centre.y - 60, sizePx: 120 };
    const [first, ...others] = follow(tracker(0), 0, 6, (frame) => (frame > 0 ? { cover } : {}));
    for (const { rim: found, timeS } of others) {
      if (!found) throw new Error('lost');
      const { centre } = ringSeen(swayed(30 * timeS).ring);
      expectWithin(found.centre.x, centre.x, { abs: 0.5 }, 'x');
      expectWithin(found.centre.y, centre.y, { abs: 0.5 }, 'y');
      expect(found.centreSdPx).toBeGreaterThan(first!.rim!.centreSdPx);
    }
  });
});

it('marks made anew in a later frame are followed from there, the others go on', () => {
  const moved = { x: 140.5, y: 80.5 };
  const again: PictureMarks = { landmarks: { 'nose-bridge': seenOnFace(moved, swayed(6).face) } };
  const both = createFilmTracker({
    view: 'front',
    anchors: [{ timeS: timeOf(6), marks: again }, { timeS: timeOf(0), marks: marksAt(swayed(0)) }],
    rim,
  });
  for (const frame of follow(both, 0, 10)) {
    const at = seenOnFace(frameOf(frame) < 6 ? places['nose-bridge']! : moved, swayed(frameOf(frame)).face);
    expectWithin(frame.points['nose-bridge']!.x, at.x, { abs: 0.05 }, 'x');
    expectRight(frame, ['nose-bridge']);
  }
});

it('a mark at the very edge of the picture is said not to be followed', () => {
  const both = createFilmTracker({ view: 'front', anchors: [{ timeS: 0, marks: { landmarks: { 'ear-left': { x: 318, y: 100 } } } }], rim });
  expect(both.followForward(scene.draw(swayed(0)), 0)!.points).toEqual({});
  expect(both.notFollowed).toEqual(['ear-left']);
});

it('a rim that is followed already goes on where too few of its points are put again', () => {
  const again: PictureMarks = { rim: ringMarks(swayed(1).ring).slice(0, 1), landmarks: {} };
  const both = createFilmTracker({ view: 'front', anchors: [{ timeS: 0, marks: marksAt(swayed(0)) }, { timeS: timeOf(1), marks: again }], rim });
  expect(follow(both, 0, 2).map((frame) => frame.rim !== null)).toEqual([true, true]);
  expect(both.notFollowed).toEqual([]);
  const none = createFilmTracker({ view: 'front', anchors: [{ timeS: 0, marks: again }], rim });
  follow(none, 0, 1);
  expect(none.notFollowed).toEqual(['rim']);
});

describe('input that cannot be', () => {
  const anchor = { timeS: 1, marks: marksAt({ face: AT_REST, ring: AT_REST }) };
  const picture = scene.draw(swayed(0));

  it('is refused with what is allowed', () => {
    expect(() => createFilmTracker({ view: 'front', anchors: [], rim })).toThrow(/anchors is empty/);
    expect(() => createFilmTracker({ view: 'front', anchors: [anchor, anchor], rim })).toThrow(/two anchors at 1 s/);
    expect(() => createFilmTracker({ view: 'front', anchors: [{ ...anchor, timeS: NaN }], rim })).toThrow(/NaN/);
    expect(() => createFilmTracker({ view: 'front', anchors: [anchor], rim: { innerDiameterMm: 27, outerDiameterMm: 27 } })).toThrow(/innerDiameterMm 27/);
    const both = createFilmTracker({ view: 'front', anchors: [anchor], rim });
    expect(() => both.followBlockBackward([])).toThrow(/no anchor yet/);
    expect(both.followForward(picture, 0.5)).toBeNull();
    expect(() => both.followForward(picture, 0.5)).toThrow(/timeS 0.5/);
    both.followForward(picture, 1);
    expect(() => both.followBlockBackward([{ frame: picture, timeS: 1 }])).toThrow(/timeS 1;/);
  });
});
