import { describe, expect, it } from 'vitest';
import { checkCamera, unknownCamera, project } from '../../../src/measure/camera';
import { headFromFilm } from '../../../src/measure/headFromFilm';
import { readPlace } from '../../../src/measure/rimPlaces';
import { factor, invertSymmetric, solveFactored } from '../../../src/measure/symmetricSolver';
import { expectWithin } from '../../support/expectWithin';
import { filmHead } from '../../support/filmedHead';

describe('what cannot be measured is refused', () => {
  const film = filmHead({ seed: 1, turnSdDeg: 2, notes: 2, framesPerNote: 6 });

  it('with the field and what is allowed', () => {
    expect(() => headFromFilm({ ...film, trace: { ...film.trace, view: 'left' } })).toThrow('trace.view left');
    expect(() => headFromFilm({ ...film, rimDiameterMm: { value: 0, sd: 0.1 } })).toThrow('rimDiameterMm 0');
    expect(() => checkCamera({ ...unknownCamera(1280, 720), focalRelativeSd: 1 })).toThrow('focalRelativeSd 1');
    expect(() => project(unknownCamera(1280, 720), [0, 0, -1])).toThrow('before the camera');
  });

  it('in words where the film shows too little', () => {
    const shown = (count: number): typeof film.trace => ({
      ...film.trace,
      frames: film.trace.frames.map((frame) => ({ ...frame, points: Object.fromEntries(Object.entries(frame.points).slice(0, count)) })),
    });
    expect(headFromFilm({ ...film, trace: shown(4) })).toEqual({ kind: 'not-found', reason: 'too-few-landmarks' });
    expect(headFromFilm({ ...film, trace: shown(5), steady: undefined })).toEqual({ kind: 'not-found', reason: 'too-few-landmarks' });
    const mirrored = film.trace.frames.map((frame) => ({
      ...frame, points: Object.fromEntries(Object.entries(frame.points).map(([name, p]) => [name, { ...p, x: 1279 - p.x }])),
    }));
    expect(headFromFilm({ ...film, trace: { ...film.trace, frames: mirrored } })).toEqual({ kind: 'not-found', reason: 'sides-exchanged' });
  });

  it('a note without frames, and a set against itself is 0 without deviation', { timeout: 60_000 }, () => {
    const head = headFromFilm(film);
    if (head.kind !== 'found') throw new Error(head.reason);
    expect(readPlace(head, [], [film.noteFrames[0]!])).toEqual({ kind: 'not-read', reason: 'no-frames' });
    expect(readPlace(head, film.noteFrames[0]!, [])).toEqual({ kind: 'not-read', reason: 'no-home-frames' });
    expect(() => readPlace(head, [99], [[0]])).toThrow('frame 99');
    const itself = readPlace(head, film.noteFrames[0]!, [film.noteFrames[0]!]);
    if (itself.kind !== 'read') throw new Error(itself.reason);
    expect(itself.travel).toEqual({ upMm: 0, rightMm: 0, upSdMm: 0, rightSdMm: 0 });
    expect(itself.elevation!.sdDeg).toBeGreaterThan(0);
  });

  it('home that was sounded twice in two places lies between them, by its frames', { timeout: 60_000 }, () => {
    const head = headFromFilm(film);
    if (head.kind !== 'found') throw new Error(head.reason);
    // A note's few frames beside another's many are none that lie far out.
    const [many, few, other] = [film.noteFrames[0]!, film.noteFrames[1]!.slice(0, 8), film.noteFrames[1]!];
    const upFrom = (home: readonly (readonly number[])[]): number => {
      const read = readPlace(head, other, home);
      if (read.kind !== 'read') throw new Error(read.reason);
      return read.travel.upMm;
    };
    const [fromMany, fromFew] = [upFrom([many]), upFrom([few])];
    expect(Math.abs(fromMany - fromFew)).toBeGreaterThan(0.1);
    expectWithin(upFrom([many, few]), (many.length * fromMany + few.length * fromFew) / (many.length + few.length), { abs: 1e-9 }, 'travel from both, mm');
  });
});

it('one picture alone gives a place, with the whole uncertainty of an unknown head', () => {
  const film = filmHead({ seed: 3, turnSdDeg: 2, notes: 1 });
  const head = headFromFilm({ ...film, steady: undefined, trace: { ...film.trace, frames: film.trace.frames.slice(0, 1) } });
  if (head.kind !== 'found') throw new Error(head.reason);
  const place = readPlace(head, [0], [[0]]);
  if (place.kind !== 'read') throw new Error(place.reason);
  expect(place.elevation!.sdDeg).toBeGreaterThan(0.5);
  expect(place.elevation!.sdDeg).toBeLessThan(10);
});

it('a marking error changes no travel: every landmark 1 px off, always the same way', { timeout: 300_000 }, () => {
  const spec = { seed: 7, turnSdDeg: 3, landmarkNoisePx: 0.02, rimNoisePx: 0.02, framesPerNote: 8 };
  const read = (landmarkMarkingPx: number): number => {
    const film = filmHead({ ...spec, landmarkMarkingPx });
    const head = headFromFilm(film);
    if (head.kind !== 'found') throw new Error(head.reason);
    const place = readPlace(head, film.noteFrames[7]!, [film.noteFrames[0]!]);
    if (place.kind !== 'read') throw new Error(place.reason);
    return place.travel.upMm;
  };
  // Taken as travel, 1 px would be 0.18 mm.
  expectWithin(read(1), read(0), { abs: 0.06 }, 'up');
});

it('small symmetric systems are solved, and a dependent one is refused', () => {
  const matrix = Float64Array.of(4, 2, 1, 2, 5, 3, 1, 3, 6);
  const inverse = invertSymmetric(matrix, 3)!;
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) {
      const product = [0, 1, 2].reduce((sum, k) => sum + matrix[3 * i + k]! * inverse[3 * k + j]!, 0);
      expectWithin(product, i === j ? 1 : 0, { abs: 1e-14 }, `${i}, ${j}`);
    }
  }
  const right = Float64Array.of(7, 10, 10);
  const lower = Float64Array.from(matrix);
  expect(factor(lower, 3)).toBe(true);
  solveFactored(lower, 3, right);
  right.forEach((each) => expectWithin(each, 1, { abs: 1e-14 }));
  expect(invertSymmetric(Float64Array.of(1, 1, 1, 1), 2)).toBeNull();
});
