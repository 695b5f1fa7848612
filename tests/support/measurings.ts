/** Measurings as a record keeps them, and traces to pack: fresh copies, and random ones. */
import * as fc from 'fast-check';
import { createRandom } from '../../src/core/random';
import type { LandmarkName } from '../../src/measure/marks';
import { LANDMARK_NAMES } from '../../src/measure/marks';
import { packTrace, TRACED_NAMES } from '../../src/measure/packedTrace';
import type { FilmTrace, TracedFrame, TracedName, TracedPoint, TracedRim } from '../../src/measure/traces';
import type { AcceptedReading, Measuring, MeasuringSource } from '../../src/records/measuringSchema';
import type { Mutable } from './records';

/** Everything followed through so many frames at 30 a second: a head that sways by some mm, noise as tracking has it, some frames lost. */
export function swayingTrace(frameCount: number, seed = 1): FilmTrace {
  const { normal, uniform } = createRandom(seed);
  const noise = (sd: number): number => sd * normal();
  const sway = (at: number, phase: number): number => 24 * Math.sin(at / 37 + phase) + 11 * Math.sin(at / 11 + 2 * phase);
  const frames = Array.from({ length: frameCount }, (_, at): TracedFrame => {
    const isLost = at % 200 > 190;
    const points: Partial<Record<TracedName, TracedPoint>> = {};
    TRACED_NAMES.forEach((name, place) => {
      if (isLost && place % 3 === 0) return;
      points[name] = {
        x: 300 + 40 * place + sway(at, 0.3) + noise(0.07),
        y: 200 + 25 * place + sway(at, 1.9) + noise(0.07),
        sdPx: 0.08 + 0.03 * Math.abs(Math.sin(at / 20)) + 0.01 * uniform(),
      };
    });
    const rim: TracedRim = {
      centre: { x: 640 + sway(at, 0.3) + 6 * Math.sin(at / 15) + noise(0.07), y: 420 + sway(at, 1.9) + noise(0.07) },
      semiMajorPx: 75 + Math.sin(at / 50) + noise(0.05),
      semiMinorPx: 71 + Math.sin(at / 40) + noise(0.05),
      angleRad: 0.4 + 0.1 * Math.sin(at / 30) + noise(0.01),
      centreSdPx: 0.06 + 0.01 * uniform(),
      axesSdPx: 0.05 + 0.01 * uniform(),
    };
    // Stamps as a container has them, in 90 kHz ticks.
    return { timeS: Math.round((at / 29.97) * 90_000) / 90_000, rim: isLost ? null : rim, points };
  });
  return { view: 'front', frames };
}

const point = (x: number, y: number) => ({ x, y });

/** Two films of one take, with every optional field somewhere. */
export function fullMeasuring(): Mutable<Measuring> {
  const landmarks = Object.fromEntries(LANDMARK_NAMES.map((name, at) => [name, point(500 + 30 * at, 210.5)])) as Record<LandmarkName, { x: number; y: number }>;
  return {
    id: 'measuring-1',
    kind: 'film',
    date: '2026-03-01',
    take: 2,
    sources: [
      {
        ...{ name: 'take 2 front.mp4', bytes: 31_457_280, digest: '0123456789abcdef', view: 'front', width: 1280, height: 720 },
        ...{ durationS: 30.03, focalPx: 1100, focalRelativeSd: 0.15 },
        anchors: [
          {
            timeS: 0.5,
            marks: {
              rim: [point(565, 420), point(715, 421), point(640, 345), point(640.1, 495), point(600, 480)],
              landmarks,
              level: { from: point(1, 2), to: point(3, 4) },
              horn: { from: point(640, 420), to: point(660, 640) },
              hornMarkMm: { value: 400, sd: 20 },
              lipLine: [point(570, 410), point(710, 412)],
            },
          },
          { timeS: 12.25, marks: { landmarks: {} } },
        ],
        trace: packTrace(swayingTrace(5)),
      },
      {
        ...{ name: 'take 2 side.mov', bytes: 1, digest: 'fedcba9876543210', view: 'right', width: 720, height: 1280 },
        ...{ focalPx: 900.5, focalRelativeSd: 0.2, offsetS: -1.204, anchors: [] },
      },
    ],
    sound: { tuningCents: -12.5, notes: [{ startS: 1.02, endS: 1.9, midi: 53, cents: 4.1 }, { startS: 2, endS: 2.5, midi: null, cents: null }] },
    accepted: [
      {
        ...{ note: 'F3', source: 1, startS: 1.08, endS: 1.84, frames: 23, upperLipShare: 0.62 },
        ...{ travel: { upMm: 0.4, rightMm: -0.2, sdMm: 0.3 }, elevation: { deg: -8, sdDeg: 1.1 }, lateral: { deg: 1, sdDeg: 2.5 } },
      },
      { note: 'B♭3', frames: 0 },
    ],
  };
}

/** One picture, with nothing that may be absent. */
export function bareMeasuring(id: string): Mutable<Measuring> {
  return {
    ...{ id, kind: 'pictures', date: '2026-03-02' },
    sources: [{ name: 'side.jpg', bytes: 9, digest: '00000000ffffffff', view: 'left', width: 4032, height: 3024, focalPx: 3000, focalRelativeSd: 0.1, anchors: [] }],
    accepted: [],
  };
}

/** Numbers on the steps that a trace is kept in, or between them. */
function numbers(low: number, high: number, perUnit: number, onSteps: boolean): fc.Arbitrary<number> {
  const least = Math.ceil(low * perUnit);
  const most = Math.floor(high * perUnit);
  return onSteps ? fc.integer({ min: least, max: most }).map((steps) => steps / perUnit) : fc.double({ min: low, max: high, noNaN: true });
}

/** Any trace that may be kept; with `onSteps` every value lies where it is kept, so that it comes back the same. */
export function anyTrace(onSteps: boolean): fc.Arbitrary<FilmTrace> {
  const place = fc.oneof(numbers(-200, 2000, 20, onSteps), numbers(-100_000, 100_000, 20, onSteps));
  const deviation = fc.oneof(numbers(0.01, 2, 100, onSteps), numbers(0.01, 100_000, 100, onSteps));
  const length = fc.oneof(numbers(0, 400, 20, onSteps), numbers(0, 100_000, 20, onSteps));
  const angleRad = numbers(-1.57, 1.57, 2000, onSteps);
  const rim = fc.record({ centre: fc.record({ x: place, y: place }), semiMajorPx: length, semiMinorPx: length, angleRad, centreSdPx: deviation, axesSdPx: deviation });
  const traced = fc.record({ x: place, y: place, sdPx: deviation });
  const timeS = fc.oneof(numbers(0, 300, 10_000, onSteps), numbers(-21_600, 21_600, 10_000, onSteps));
  const points = fc.record(Object.fromEntries(TRACED_NAMES.map((name) => [name, traced])) as Record<TracedName, typeof traced>, { requiredKeys: [] });
  const frame = fc.record({ timeS, rim: fc.option(rim), points });
  return fc.record({ view: fc.constantFrom('front' as const, 'right' as const, 'left' as const, 'above' as const), frames: fc.array(frame, { maxLength: 12 }) });
}

const within = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true }).map((value) => value + 0);
const place = fc.record({ x: within(-100_000, 100_000), y: within(-100_000, 100_000) });
const places = fc.array(place, { maxLength: 8 });
const line = fc.record({ from: place, to: place });
const marks = fc.record(
  {
    landmarks: fc.record(Object.fromEntries(LANDMARK_NAMES.map((name) => [name, place])) as Record<LandmarkName, typeof place>, { requiredKeys: [] }),
    rim: places,
    level: line,
    horn: line,
    hornMarkMm: fc.record({ value: within(0.1, 5000), sd: within(0.1, 5000) }),
    lipLine: places,
  },
  { requiredKeys: ['landmarks'] },
);
const anySource: fc.Arbitrary<MeasuringSource> = fc.record(
  {
    name: fc.string({ minLength: 1, maxLength: 200 }),
    bytes: fc.integer({ min: 1, max: 1e12 }),
    digest: fc.array(fc.constantFrom(...'0123456789abcdef'), { minLength: 16, maxLength: 16 }).map((digits) => digits.join('')),
    view: fc.constantFrom('front' as const, 'right' as const, 'left' as const, 'above' as const),
    width: fc.integer({ min: 1, max: 30_000 }),
    height: fc.integer({ min: 1, max: 30_000 }),
    durationS: within(0, 21_600),
    focalPx: within(1e-3, 1e6),
    focalRelativeSd: within(0, 10),
    offsetS: within(-60, 21_600),
    anchors: fc.array(fc.record({ timeS: within(-60, 21_600), marks }), { maxLength: 3 }),
    trace: anyTrace(false).map(packTrace),
  },
  { requiredKeys: ['name', 'bytes', 'digest', 'view', 'width', 'height', 'focalPx', 'focalRelativeSd', 'anchors'] },
);
const stretch = fc.tuple(within(-60, 21_600), within(-60, 21_600)).map(([one, other]) => ({ startS: Math.min(one, other), endS: Math.max(one, other) }));
const angle = fc.record({ deg: within(-80, 80), sdDeg: within(0.001, 45) });
const noteHeard = fc
  .tuple(stretch, fc.option(within(0, 127)), fc.option(within(-1200, 1200)))
  .map(([{ startS, endS }, midi, cents]) => ({ startS, endS, midi, cents }));
const accepted: fc.Arbitrary<AcceptedReading> = fc
  .tuple(
    fc.option(stretch),
    fc.record(
      {
        ...{ note: fc.constantFrom('F3', 'B♭3', 'C-1', 'F#4'), frames: fc.nat(72_000), source: fc.constant(0), elevation: angle, lateral: angle },
        travel: fc.record({ upMm: within(-60, 60), rightMm: within(-60, 60), sdMm: within(0.001, 20), rightSdMm: within(0.001, 20) }, { requiredKeys: ['upMm', 'rightMm', 'sdMm'] }),
        upperLipShare: within(0.001, 0.999),
      },
      { requiredKeys: ['note', 'frames'] },
    ),
  )
  .map(([times, rest]) => ({ ...rest, ...times }));

/** Any measuring that may be kept. */
export const anyMeasuring: fc.Arbitrary<Measuring> = fc.record(
  {
    id: fc.integer({ min: 0, max: 1e9 }).map((number) => `any-${number}`),
    kind: fc.constantFrom('pictures' as const, 'film' as const),
    date: fc.constantFrom('2026-03-01', '2024-02-29'),
    take: fc.integer({ min: 1, max: 99 }),
    sources: fc.array(anySource, { minLength: 1, maxLength: 3 }),
    sound: fc.record({ tuningCents: fc.option(within(-1200, 1200)), notes: fc.array(noteHeard, { maxLength: 5 }) }),
    accepted: fc.array(accepted, { maxLength: 4 }),
  },
  { requiredKeys: ['id', 'kind', 'date', 'sources', 'accepted'] },
);
