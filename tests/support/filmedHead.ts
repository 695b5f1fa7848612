/**
 * A front film's trace with known truth, at the level of marks: a head of its own shape that turns and moves, a rim that travels note by
 * note, a horn that swings, seen by a pinhole camera. Written without the sources' geometry (turns one axis after another, a plain
 * division by depth, the ellipse through five points), so that a mistake there cannot hide here.
 */
import { createRandom, type Random } from '../../src/core/random';
import { GENERIC_HEAD, HEAD_LEVEL_SD_DEG, HEAD_SIZE_SD, RIM_DEPTH_MM } from '../../src/measure/headShape';
import { LANDMARK_NAMES, type CameraSpec, type LandmarkName } from '../../src/measure/marks';
import type { FilmTrace, RimEllipse, TracedFrame, TracedPoint } from '../../src/measure/traces';

type Triple = [number, number, number];

export interface FilmedHeadSpec {
  readonly seed: number;
  /** Standard deviation of the head's turning about each axis during the take, degrees. */
  readonly turnSdDeg: number;
  readonly landmarks?: readonly LandmarkName[];
  readonly notes?: number;
  readonly framesPerNote?: number;
  readonly focalPx?: number;
  /** True focal length over the one the estimator is told: drawn from `focalRelativeSd` where left out. */
  readonly focalFactor?: number;
  readonly focalRelativeSd?: number;
  readonly rimDiameterMm?: number;
  /** The person's shape differs from the generic by so many of its deviations. */
  readonly shapeTimes?: number;
  readonly landmarkNoisePx?: number;
  readonly rimNoisePx?: number;
  readonly landmarkMarkingPx?: number;
  /** Likeness of one frame's tracking error and the next. */
  readonly alike?: number;
  /** Marked again from these parts of the take on, all or what is named: the hand errs anew. */
  readonly again?: { readonly at: readonly number[]; readonly what?: readonly (LandmarkName | 'rim' | 'horn')[] };
  /** This landmark slips by so many px halfway. */
  readonly slip?: { readonly name: LandmarkName; readonly px: number };
  readonly hornMark?: boolean;
  /** How far the rim stirs about its rest within a note, mm, and how like from one frame to the next. */
  readonly stirMm?: number;
  readonly stirAlike?: number;
  /** Whether the notes' frames are told. */
  readonly notesKnown?: boolean;
}

interface Marking {
  readonly landmarks: ReadonlyMap<LandmarkName, readonly number[]>;
  readonly horn: readonly number[];
  readonly rim: readonly number[];
}

export interface FilmedHead {
  readonly trace: FilmTrace;
  readonly camera: CameraSpec;
  readonly rimDiameterMm: { readonly value: number; readonly sd: number };
  readonly hornMarkMm: { readonly value: number; readonly sd: number } | undefined;
  readonly steady: readonly (readonly number[])[] | undefined;
  /** Frames of each note; the first is home. */
  readonly noteFrames: readonly (readonly number[])[];
  readonly truth: readonly { readonly upMm: number; readonly rightMm: number; readonly elevationDeg: number; readonly lateralDeg: number }[];
}

export function filmHead(spec: FilmedHeadSpec): FilmedHead {
  const random = createRandom(spec.seed);
  const notes = spec.notes ?? 8;
  const perNote = spec.framesPerNote ?? 20;
  const names = spec.landmarks ?? LANDMARK_NAMES;
  const relativeSd = spec.focalRelativeSd ?? 0.12;
  const camera: CameraSpec = { width: 1280, height: 720, focalPx: spec.focalPx ?? 1000, focalRelativeSd: relativeSd };
  const focal = camera.focalPx * (spec.focalFactor ?? Math.exp(relativeSd * random.normal()));
  const diameter = { value: spec.rimDiameterMm ?? 27, sd: 0.1 };
  const radius = (diameter.value + diameter.sd * random.normal()) / 2;
  // Near enough to the rim to stay in the picture with the shortest of the drawn lenses.
  const markMm = { value: 50, sd: 1.5 };
  const markTrue = markMm.value + markMm.sd * random.normal();

  const size = 1 + HEAD_SIZE_SD * random.normal();
  const times = spec.shapeTimes ?? 1;
  const nod = random.normal();
  const persons = new Map<string, Triple>();
  const shape = new Map(names.map((name) => {
    const { placeMm, sdMm, sideSdMm } = GENERIC_HEAD[name];
    const kind = name.replace(/-(right|left)$/, '');
    if (!persons.has(kind)) persons.set(kind, [0, 1, 2].map(() => random.normal()) as Triple);
    return [name, placeMm.map((each, k) => {
      // Mirrored on the right: what both sides have in common lies outward, up and forward on both.
      const outward = k === 0 && name.endsWith('right') ? -1 : 1;
      const common = outward * Math.sqrt(Math.max(0, sdMm[k]! ** 2 - sideSdMm[k]! ** 2)) * persons.get(kind)![k]!;
      const nodded = k === 0 ? 0 : (HEAD_LEVEL_SD_DEG * Math.PI / 180) * nod * (k === 1 ? -placeMm[2] : placeMm[1]);
      return size * each + times * (common + sideSdMm[k]! * random.normal() + nodded);
    }) as Triple];
  }));
  const hand = (): Marking => ({
    landmarks: new Map(names.map((name) => [name, [0, 1].map(() => (spec.landmarkMarkingPx ?? 1) * random.normal())])),
    horn: [0, 1, 2, 3].map(() => random.normal()),
    rim: [0.2 * random.normal(), 0.2 * random.normal()],
  });
  const markings = [{ from: 0, ...hand() }];

  // Chosen so that the rim is about 150 px wide.
  const away = (focal * 2 * radius) / 150;
  const depth = RIM_DEPTH_MM.value + RIM_DEPTH_MM.sd * random.normal();
  const places = Array.from({ length: notes }, (_, i): Triple => {
    const up = i === 0 ? 0 : -3 + (7 * i) / Math.max(1, notes - 1) + 0.5 * random.normal();
    const left = i === 0 ? 0 : 1.2 * random.normal();
    return [left, up, depth - 0.02 * (left * left + up * up) + 0.3 * random.normal()];
  });
  const horns = Array.from({ length: notes }, (_, i) => ({ elevationDeg: -10 + 1.2 * places[i]![1] + random.normal(), lateralDeg: 2 + 2 * random.normal() - 1.5 * places[i]![0] }));
  const faced: Triple = [3 * random.normal(), 3 * random.normal(), 2 * random.normal()];
  const turns = [0, 1, 2].map(() => wander(random, notes * perNote, spec.turnSdDeg));
  const shifts = [0, 1, 2].map(() => wander(random, notes * perNote, 5.8));
  const noises = new Map<string, () => number>();
  const noise = (key: string, sd: number): number => {
    if (!noises.has(key)) noises.set(key, likeBefore(random, spec.alike ?? 0.6));
    return sd * noises.get(key)!();
  };
  const stirs = [0, 1, 2].map(() => {
    const next = likeBefore(random, spec.stirAlike ?? 0.8);
    return Array.from({ length: notes * perNote }, () => (spec.stirMm ?? 0.1) * next());
  });
  const isAgain = (what: LandmarkName | 'rim' | 'horn'): boolean => spec.again?.what?.includes(what) ?? true;
  for (const at of spec.again?.at ?? []) {
    const [before, now] = [markings.at(-1)!, hand()];
    markings.push({
      from: Math.round(at * notes * perNote),
      landmarks: new Map(names.map((name) => [name, (isAgain(name) ? now : before).landmarks.get(name)!])),
      horn: (isAgain('horn') ? now : before).horn,
      rim: (isAgain('rim') ? now : before).rim,
    });
  }
  const landmarkSd = spec.landmarkNoisePx ?? 0.3;
  const rimSd = spec.rimNoisePx ?? 0.1;

  const frames = Array.from({ length: notes * perNote }, (_, i): TracedFrame => {
    const note = Math.floor(i / perNote);
    const { landmarks: marking, horn: hornMarking, rim: rimMarking } = markings.findLast(({ from }) => i >= from)!;
    const place: Triple = places[note]!.map((each, k) => each + stirs[k]![i]!) as Triple;
    const angles = horns[note]!;
    const e = (angles.elevationDeg * Math.PI) / 180;
    const l = (angles.lateralDeg * Math.PI) / 180;
    const axis: Triple = [-Math.sin(l) * Math.cos(e), Math.sin(e), Math.cos(l) * Math.cos(e)];
    const degrees = [0, 1, 2].map((k) => faced[k]! + turns[k]![i]!);
    const rotate = (v: Triple): Triple => turned(v, degrees);
    const origin: Triple = [shifts[0]![i]!, shifts[1]![i]! + (170 * away) / focal, away + 10 + shifts[2]![i]!];
    // From the player's frame (left, up, forward) to the camera's (right, down, away).
    const toCamera = (v: Triple): Triple => {
      const [x, y, z] = rotate(v);
      return [origin[0] + x, origin[1] - y, origin[2] - z];
    };
    const see = (v: Triple): [number, number] => {
      const [x, y, z] = toCamera(v);
      return [639.5 + (focal * x) / z, 359.5 + (focal * y) / z];
    };
    const points: Partial<Record<string, TracedPoint>> = {};
    for (const name of names) {
      const [x, y] = see(shape.get(name)!);
      const slipped = spec.slip?.name === name && i >= (notes * perNote) / 2 ? spec.slip.px : 0;
      const offset = marking.get(name)!;
      points[name] = { x: x + offset[0]! + slipped + noise(`${name}x`, landmarkSd), y: y + offset[1]! + noise(`${name}y`, landmarkSd), sdPx: landmarkSd };
    }
    const alongHorn = (mm: number): [number, number] => see(place.map((each, k) => each + mm * axis[k]!) as Triple);
    const near = alongHorn(15);
    const far = alongHorn(markTrue);
    points['horn-near'] = { x: near[0] + hornMarking[0]! + noise('nx', 0.3), y: near[1] + hornMarking[1]! + noise('ny', 0.3), sdPx: 0.3 };
    points['horn-far'] = { x: far[0] + hornMarking[2]! + noise('fx', 0.3), y: far[1] + hornMarking[3]! + noise('fy', 0.3), sdPx: 0.3 };
    const [across, up] = acrossOf(axis);
    const ellipse = ellipseThrough([0, 1, 2, 3, 4].map((k) => {
      const a = (2 * Math.PI * k) / 5;
      return see(place.map((each, j) => each + radius * (Math.cos(a) * across[j]! + Math.sin(a) * up[j]!)) as Triple);
    }));
    // The two axes and the angle err so that the ellipse's shape errs alike in every direction.
    const apart = Math.max(ellipse.semiMajorPx - ellipse.semiMinorPx, 1);
    return {
      timeS: i / 30,
      points,
      rim: {
        centre: { x: ellipse.centre.x + noise('rx', rimSd), y: ellipse.centre.y + noise('ry', rimSd) },
        semiMajorPx: ellipse.semiMajorPx + rimMarking[0]! + noise('ra', rimSd),
        semiMinorPx: ellipse.semiMinorPx + rimMarking[1]! + noise('rb', rimSd),
        angleRad: ellipse.angleRad + noise('rt', rimSd) / (Math.SQRT2 * apart),
        centreSdPx: rimSd,
        axesSdPx: rimSd,
      },
    };
  });
  const noteFrames = places.map((_, note) => Array.from({ length: perNote }, (_, k) => note * perNote + k));
  return {
    trace: {
      view: 'front',
      frames,
      ...(spec.again && {
        marked: Object.fromEntries(([...names, 'rim', 'horn'] as const).filter(isAgain).flatMap((what) => {
          const times = markings.map(({ from }) => from / 30);
          return what === 'horn' ? [['horn-near', times], ['horn-far', times]] : [[what, times]];
        })),
      }),
    },
    camera,
    rimDiameterMm: diameter,
    hornMarkMm: spec.hornMark === false ? undefined : markMm,
    steady: spec.notesKnown === false ? undefined : noteFrames,
    noteFrames,
    truth: noteFrames.map((frames, note) => {
      // Where the rim really was over the note's frames, its stir included.
      const meanOf = (k: number, of: readonly number[]): number => places[Math.floor(of[0]! / perNote)]![k]! + of.reduce((sum, i) => sum + stirs[k]![i]!, 0) / of.length;
      return { upMm: meanOf(1, frames) - meanOf(1, noteFrames[0]!), rightMm: -(meanOf(0, frames) - meanOf(0, noteFrames[0]!)), ...horns[note]! };
    }),
  };
}

/** Slow and irregular: five waves of half a second to eight, scaled to this deviation over the take. */
function wander(random: Random, frames: number, sd: number): number[] {
  const waves = [8, 4, 2, 1, 0.5].map((seconds) => ({ seconds, size: Math.sqrt(seconds) * random.normal(), phase: 2 * Math.PI * random.uniform() }));
  const raw = Array.from({ length: frames }, (_, i) => waves.reduce((sum, w) => sum + w.size * Math.sin((2 * Math.PI * i) / 30 / w.seconds + w.phase), 0));
  const mean = raw.reduce((a, b) => a + b, 0) / frames;
  const rms = Math.sqrt(raw.reduce((a, b) => a + (b - mean) ** 2, 0) / frames);
  return raw.map((each) => ((each - mean) * sd) / rms);
}

function likeBefore(random: Random, alike: number): () => number {
  let last = random.normal();
  return () => {
    const now = last;
    last = alike * last + Math.sqrt(1 - alike * alike) * random.normal();
    return now;
  };
}

/** About x (nodding), then y (shaking), then z (tilting), degrees, in the player's frame. */
function turned([x, y, z]: Triple, degrees: readonly number[]): Triple {
  const [a, b, c] = degrees.map((each) => (each * Math.PI) / 180) as Triple;
  const y1 = y * Math.cos(a) - z * Math.sin(a);
  const z1 = y * Math.sin(a) + z * Math.cos(a);
  const x2 = x * Math.cos(b) + z1 * Math.sin(b);
  const z2 = -x * Math.sin(b) + z1 * Math.cos(b);
  return [x2 * Math.cos(c) - y1 * Math.sin(c), x2 * Math.sin(c) + y1 * Math.cos(c), z2];
}

function acrossOf([x, y, z]: Triple): [Triple, Triple] {
  const level = Math.hypot(x, z);
  const across: Triple = [z / level, 0, -x / level];
  return [across, [y * across[2] - z * across[1], z * across[0] - x * across[2], x * across[1] - y * across[0]]];
}

/** The conic A x² + B xy + C y² + D x + E y = 1 about the points' mean, by elimination, read off as an ellipse. */
export function ellipseThrough(points: readonly (readonly [number, number])[]): RimEllipse {
  const mx = points.reduce((sum, p) => sum + p[0], 0) / points.length;
  const my = points.reduce((sum, p) => sum + p[1], 0) / points.length;
  const scale = Math.max(...points.map((p) => Math.hypot(p[0] - mx, p[1] - my)));
  const rows = points.map((p) => {
    const x = (p[0] - mx) / scale;
    const y = (p[1] - my) / scale;
    return [x * x, x * y, y * y, x, y, 1];
  });
  for (let i = 0; i < 5; i++) {
    const pivot = rows.slice(i).reduce((best, row, k) => (Math.abs(row[i]!) > Math.abs(rows[best]![i]!) ? i + k : best), i);
    [rows[i], rows[pivot]] = [rows[pivot]!, rows[i]!];
    for (let k = 0; k < 5; k++) {
      if (k === i) continue;
      const times = rows[k]![i]! / rows[i]![i]!;
      for (let j = i; j < 6; j++) rows[k]![j]! -= times * rows[i]![j]!;
    }
  }
  const [a, b, c, d, e] = rows.slice(0, 5).map((row, i) => row[5]! / row[i]!) as [number, number, number, number, number];
  const det = 4 * a * c - b * b;
  const x0 = (b * e - 2 * c * d) / det;
  const y0 = (b * d - 2 * a * e) / det;
  const level = 1 + a * x0 * x0 + b * x0 * y0 + c * y0 * y0;
  const mean = (a + c) / 2 / level;
  const apart = Math.hypot((a - c) / 2, b / 2) / level;
  // The major axis lies where the quadratic form is least.
  const angle = Math.atan2(b, a - c) / 2 + Math.PI / 2;
  return {
    centre: { x: mx + scale * x0, y: my + scale * y0 },
    semiMajorPx: scale / Math.sqrt(mean - apart),
    semiMinorPx: scale / Math.sqrt(mean + apart),
    angleRad: angle > Math.PI / 2 ? angle - Math.PI : angle,
  };
}
