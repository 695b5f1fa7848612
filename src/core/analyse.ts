/** `analyse(record)`: the pure function from what was observed to what the views show. */
import type { Analysis, HomeAnalysis, HornAngles, LoadDetail, Problem, ReadingAnalysis, Seated, SeenAngles, ViewAngles } from './analysis';
import type { MouthOf } from './arch';
import { anglesFromAxis } from './frame';
import { onceAsked } from './onceAsked';
import { midiOf } from './pitch';
import { type PooledReading, branchesOf, poolReadings, seenAngles } from './readings';
import { type SeatRequest, type SeatSession, changeBetween, createSeatSession } from './session';
import { type FittedNormal, type FittedSphere, facesWithin, fitNormal, fitSphere } from './smoothViews';
import { shareByDiameter } from './lipLine';
import type { JawSpec, PlayerRecord } from './specs';
import type { Vec3 } from './vector';
import { HomeUnseatedError } from './words';
import { sayCore } from '../words/core';

/** What a record's analysis keeps at hand for the next one and for the moving picture. */
export interface Workings {
  readonly session: SeatSession;
  /** Another session of the same mouth, for what is worked out between the steps of a hand: each starts from where its last answer was. */
  readonly aside: () => SeatSession;
  readonly views: SmoothViews;
  /** What stands in for the arch under the rim; null: nothing does. */
  readonly mouthOf: MouthOf | null;
}

export interface SmoothViews {
  readonly sphere: FittedSphere | null;
  readonly normal: FittedNormal | null;
  sphereAxis(centre: Vec3): Vec3;
  normalAxis(centre: Vec3): Vec3;
  /** Both at home, which every change counts from. */
  readonly atHome: Readonly<Record<'sphere' | 'normal', HornAngles>>;
}

const workings = new WeakMap<Analysis, Workings>();

/** The session and fitted views behind an analysis made by `analyse`; throws for any other. */
export function workingsOf(analysis: Analysis): Workings {
  const found = workings.get(analysis);
  if (!found) throw new TypeError('workingsOf: only for an Analysis that `analyse` returned');
  return found;
}

/**
 * Analyses a record (already checked by its schema). `before` is an earlier analysis: what it shares with this record is reused.
 * Readings without a seat are named in `problems`. With `glance` a reading that has moved is sought from where it was and gets its load
 * at a glance, quick enough for a drag; a later full analysis looks again. `mouthOf`: what stands in for the arch under the rim; absent, what did
 * in `before`, where that is of the same arch.
 * Throws HomeUnseatedError where home itself has no seat, RangeError where arch, rim or a note cannot be read.
 */
export function analyse(record: PlayerRecord, before?: Analysis, detail: LoadDetail = 'full', mouthOf?: MouthOf | null): Analysis {
  const steps = analysisSteps(record, before, detail, mouthOf);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The same in steps of some milliseconds, so that a page can breathe between them: the seat at home, what is smooth there, each reading. */
export function* analysisSteps(record: PlayerRecord, before?: Analysis, detail: LoadDetail = 'full', mouthOf?: MouthOf | null): Generator<void, Analysis> {
  const standIn = mouthOf !== undefined ? mouthOf : before !== undefined && before.record.arch === record.arch ? workingsOf(before).mouthOf : null;
  const sameMouth = before !== undefined && samePlayer(before.record, record) && workingsOf(before).mouthOf === standIn;
  const { session, aside } = sameMouth ? workingsOf(before) : sessionsOf(record, standIn);
  const pooled = poolReadings(record);
  const home = analyseHome(record, session, pooled, before);
  yield;
  const sameHome = sameMouth && before.home.follow === home.follow;
  const views = sameHome ? workingsOf(before).views : smoothViews(record, session, home);
  const readings: ReadingAnalysis[] = [];
  const problems: Problem[] = [];
  for (const reading of pooled) {
    const kept = sameHome ? before.readings.find((each) => sameReading(each, reading) && (each.detail === 'full' || detail === 'glance')) : undefined;
    if (kept) {
      readings.push({ ...kept, ...reading, predictedHorn: predict(home, kept.changeFromHome) });
      continue;
    }
    yield;
    // A glance starts from the last one. A full look starts from home, so that an answer hangs on the record alone: among far-fetched
    // mouths there are some that hold a second seat, which a hand may drag the rim into.
    const near = detail === 'full' ? undefined : before?.readings.find((each) => each.midi === reading.midi && each.direction === reading.direction);
    const answer = analyseReading({ session, views, home, detail }, reading, near);
    if ('words' in answer) problems.push(answer);
    else readings.push(answer);
  }
  const analysis: Analysis = { record, home, readings, branches: sameNotes(before, readings) ? before.branches : branchesOf(readings), problems };
  workings.set(analysis, { session, aside, views, mouthOf: standIn });
  return analysis;
}

const sessionsOf = (record: PlayerRecord, mouthOf: MouthOf | null): Pick<Workings, 'session' | 'aside'> => ({
  session: createSeatSession(record, undefined, mouthOf ?? undefined),
  aside: onceAsked(() => createSeatSession(record, undefined, mouthOf ?? undefined)),
});

/** Where the rim's centre stands at zero travel, mm up and to the player's right of the origin; absent parts by docs/model.md. */
export function homePlace(record: PlayerRecord): { readonly upMm: number; readonly rightMm: number } {
  const opening = 'single' in record.arch ? 0 : record.arch.jaw.openingMm;
  const share = shareByDiameter(record.upperLipShare);
  return {
    upMm: record.home?.upMm ?? -opening / 2 + (record.rim.innerDiameterMm / 2) * (2 * share - 1),
    rightMm: record.home?.rightMm ?? 0,
  };
}

function analyseHome(
  record: PlayerRecord,
  session: SeatSession,
  pooled: readonly PooledReading[],
  before: Analysis | undefined,
): HomeAnalysis {
  const place = homePlace(record);
  const midi = record.home?.note === undefined ? null : midiOf(record.home.note);
  const reading = pooled.find((each) => each.midi === midi);
  const request: SeatRequest = {
    ...place,
    forceN: reading?.forceN ?? record.force.newtons,
    jaw: reading?.jaw ?? null,
  };
  const kept = before && workingsOf(before).session === session && sameRequest(homeRequests.get(before.home), request, session.jaw);
  let follow: Seated;
  if (kept) follow = before.home.follow;
  else {
    const answer = session.follow(request);
    if (answer.kind === 'unseated') throw new HomeUnseatedError(answer.reason, place.upMm, place.rightMm);
    follow = answer;
  }
  const home: HomeAnalysis = {
    note: record.home?.note ?? null,
    midi,
    ...place,
    lipLineMm: session.lipLineMm,
    follow,
    measured: pooled.find((each) => each.midi === midi && each.measured !== null)?.measured ?? null,
  };
  homeRequests.set(home, request);
  return home;
}

const homeRequests = new WeakMap<HomeAnalysis, SeatRequest>();

interface AtHand extends Pick<Workings, 'session' | 'views'> {
  readonly home: HomeAnalysis;
  readonly detail: LoadDetail;
}

function analyseReading(
  { session, views, home, detail }: AtHand,
  reading: PooledReading,
  near: ReadingAnalysis | undefined,
): ReadingAnalysis | Problem {
  const request: SeatRequest = {
    upMm: home.upMm + reading.travel.upMm,
    rightMm: home.rightMm + reading.travel.rightMm,
    forceN: reading.forceN,
    jaw: reading.jaw,
  };
  // At home's own place the answer is home's own, so that no change from home is none at all.
  const follow = sameRequest(homeRequests.get(home), request, session.jaw)
    ? home.follow
    : session.follow(request, near?.follow.pose ?? home.follow.pose, detail);
  if (follow.kind === 'unseated') return problem(reading, follow.reason, follow.words, 'follow');
  const held = session.held(request, home.follow.pose, near?.held.pose ?? follow.pose, detail);
  if (held.kind === 'unseated') return problem(reading, held.reason, held.words, 'held');
  const changeFromHome = changeBetween(home.follow.pose, follow.pose);
  const centre = follow.pose.rimCentreMm;
  return {
    ...reading,
    detail,
    follow,
    held,
    changeFromHome,
    predictedHorn: predict(home, changeFromHome),
    views: {
      plate: viewAngles(home.follow.pose, home.follow.pose),
      sphere: viewAngles(views.atHome.sphere, anglesFromAxis(views.sphereAxis(centre))),
      normal: viewAngles(views.atHome.normal, anglesFromAxis(views.normalAxis(centre))),
    },
  };
}

function problem(
  reading: PooledReading,
  reason: Problem['reason'],
  words: string,
  question: 'follow' | 'held',
): Problem {
  const index = reading.sources[0]!;
  const { upMm, rightMm } = reading.travel;
  return {
    readingIndex: index,
    reason,
    words: sayCore('readingUnseated', { index, note: reading.note, upMm, rightMm, held: question === 'held' ? 'yes' : 'no', why: words }),
  };
}

function predict(home: HomeAnalysis, change: HornAngles): SeenAngles | null {
  if (!home.measured) return null;
  const { elevationDeg, lateralDeg } = seenAngles(home.measured);
  if (elevationDeg === null && lateralDeg === null) return null;
  return {
    elevationDeg: elevationDeg === null ? null : elevationDeg + change.elevationDeg,
    lateralDeg: lateralDeg === null ? null : lateralDeg + change.lateralDeg,
  };
}

function viewAngles(from: HornAngles, to: HornAngles): ViewAngles {
  return { elevationDeg: to.elevationDeg, lateralDeg: to.lateralDeg, changeFromHome: changeBetween(from, to) };
}

/** One surface is its own smooth surface; on two jaws both views are fitted to what the rim reaches at home. */
function smoothViews(record: PlayerRecord, session: SeatSession, home: HomeAnalysis): SmoothViews {
  const [x, y] = home.follow.pose.rimCentreMm;
  const faces = facesWithin(session.arch, x, y, record.rim.outerDiameterMm / 2);
  const sphere = fitSphere(faces, x, y);
  const single = session.arch.lower === null ? session.arch.upper : null;
  const normal = single ? null : fitNormal(faces, session.arch.upper.placed.curve, y);
  const flat = home.follow.pose.axis;
  const sphereAxis = (centre: Vec3): Vec3 => sphere?.axisAt(centre) ?? flat;
  const normalAxis = (centre: Vec3): Vec3 => (single ? single.closest(centre).normal : (normal?.axisAt(centre) ?? flat));
  const homeCentre = home.follow.pose.rimCentreMm;
  const atHome = { sphere: anglesFromAxis(sphereAxis(homeCentre)), normal: anglesFromAxis(normalAxis(homeCentre)) };
  return { sphere, normal, sphereAxis, normalAxis, atHome };
}

function samePlayer(a: PlayerRecord, b: PlayerRecord): boolean {
  return a.arch === b.arch && a.rim === b.rim && a.lips === b.lips && a.upperLipShare === b.upperLipShare;
}

/** Whether two requests are one, `own` being the jaw that a request without one means. */
function sameRequest(a: SeatRequest | undefined, b: SeatRequest, own: JawSpec | null): boolean {
  return (
    a !== undefined && a.upMm === b.upMm && a.rightMm === b.rightMm && a.forceN === b.forceN && sameJaw(a.jaw ?? own, b.jaw ?? own)
  );
}

function sameReading(a: ReadingAnalysis, b: PooledReading): boolean {
  return (
    a.midi === b.midi && a.direction === b.direction && a.forceN === b.forceN && sameJaw(a.jaw, b.jaw) &&
    a.travel.upMm === b.travel.upMm && a.travel.rightMm === b.travel.rightMm
  );
}

/** The same notes in the same order and direction: then each way of the path is the same too. */
function sameNotes(before: Analysis | undefined, readings: readonly ReadingAnalysis[]): before is Analysis {
  return (
    before?.readings.length === readings.length &&
    before.readings.every(({ midi, direction }, index) => midi === readings[index]!.midi && direction === readings[index]!.direction)
  );
}

function sameJaw(a: PooledReading['jaw'], b: PooledReading['jaw']): boolean {
  if (a === null || b === null) return a === b;
  return a.openingMm === b.openingMm && a.forwardMm === b.forwardMm && a.hingeDeg === b.hingeDeg && a.hingeArmMm === b.hingeArmMm;
}
