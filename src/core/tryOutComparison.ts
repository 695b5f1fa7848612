/** `compareTryOut`: a try-out beside the lesson's own readings, and what the model expected of the change. docs/numerics.md §15. */
import type { Analysis, HornAngles, KnownHorn, ReadingAnalysis, RimLoad, SeatAnswer, Seated } from './analysis';
import { analyse, workingsOf } from './analyse';
import { computeBands } from './bands';
import { DEFAULT_DEVIATIONS, type Deviations } from './deviations';
import { type MouthMoves, computeMoves } from './mouthMoves';
import { midiOf, printedNote } from './pitch';
import { isAngleSeen, UNSEEN_HORN_SD_DEG } from './readings';
import { changeBetween, isSeated } from './session';
import type { ReadingSpec, TryOutSpec } from './specs';
import { TryOutRefusedError, recordOfTryOut } from './tryOut';
import { type SeenGroup, type SeenPair, easeOf, groupOf, pairsSeen, seenAt } from './tryOutSeen';
import type { ExpectedAtNote, FeltLoad, HornChange, NoteCompared, TryOutComparison } from './tryOutShapes';
import { HomeUnseatedError, seatWords } from './words';
import { sayCore } from '../words/core';

/**
 * Compares a try-out with the lesson that `analysis` is of. Where travel was seen on one side only, the model is asked at that travel on
 * both. Deviations of the expected change are to first order; what is not known of the mouth is the same in both and mostly cancels.
 * Refused, in words, where the change cannot be made: the rim would leave one of the lips, or has no seat at the new place.
 * Throws RangeError for a note that cannot be read.
 */
export function compareTryOut(analysis: Analysis, tryOut: TryOutSpec, by: Deviations = DEFAULT_DEVIATIONS): TryOutComparison {
  const { change } = tryOut;
  const pairs = pairsSeen(analysis.record.readings, tryOut.readings);
  const sides = sidesOf(analysis, tryOut, pairs);
  if ('words' in sides) return { kind: 'refused', words: sides.words };
  const deviations = deviationsOf(sides, tryOut, by);
  const countedFrom = change.kind === 'place-rim' ? 'same-note' : 'home';
  const homeHorn = homeSeen(analysis, tryOut);
  const unseated: string[] = [];
  const notes = pairs.map((pair): NoteCompared => {
    const { note, midi, direction } = groupOf(pair);
    const [asUsual, tried] = [pair.asUsual && seenAt(pair.asUsual), pair.tried && seenAt(pair.tried)];
    const from = countedFrom === 'same-note' ? (asUsual?.horn ?? null) : homeHorn.own && midi === analysis.home.midi ? null : homeHorn.horn;
    return { note, midi, direction, asUsual, tried, expected: expectedAt(sides, tryOut, pair, deviations, unseated), seen: seenChange(from, tried?.horn ?? null) };
  });
  const problems = [...problemsOf(sides.usual, analysis, 'usualUnseated'), ...problemsOf(sides.tried, null, 'triedUnseated'), ...unseated];
  return { kind: 'compared', change, countedFrom, notes, ease: easeOf(notes), problems };
}

/** Both ways of playing, each with all notes that were seen in either. */
interface Sides {
  readonly usual: Analysis;
  readonly tried: Analysis;
}

function sidesOf(analysis: Analysis, tryOut: TryOutSpec, pairs: readonly SeenPair[]): Sides | { readonly words: string } {
  const { record, home } = analysis;
  const placed = (group: SeenGroup | null): boolean => group !== null && (group.midi === home.midi || group.readings.some(({ travel }) => travel !== undefined));
  const lent = (from: 'asUsual' | 'tried', to: 'asUsual' | 'tried'): ReadingSpec[] =>
    pairs.flatMap((pair) => (!placed(pair[to]) && placed(pair[from]) ? pair[from]!.readings : []));
  // Home as usual stays as the lesson has it; a try-out that did not look at home is taken from there.
  const toUsual = lent('tried', 'asUsual').filter(({ note }) => midiOf(note) !== home.midi);
  try {
    const changed = recordOfTryOut(record, tryOut);
    return {
      usual: toUsual.length === 0 ? analysis : analyse({ ...record, readings: [...record.readings, ...toUsual] }, analysis),
      tried: analyse({ ...changed, readings: [...changed.readings, ...lent('asUsual', 'tried')] }, analysis),
    };
  } catch (fault) {
    if (fault instanceof HomeUnseatedError || fault instanceof TryOutRefusedError) return { words: fault.message };
    throw fault;
  }
}

/** A note's model answer on one side; at home itself home's own, which needs no reading. */
interface ModelAt {
  readonly index: number | null;
  readonly follow: Seated;
  readonly held: Seated;
  readonly change: HornAngles;
}

function modelAt(side: Analysis, pair: SeenPair, first: 'asUsual' | 'tried'): ModelAt | null {
  const groups = (first === 'tried' ? [pair.tried, pair.asUsual] : [pair.asUsual, pair.tried]).filter((group) => group !== null);
  for (const { midi, direction } of groups) {
    const index = side.readings.findIndex((reading) => reading.midi === midi && reading.direction === direction);
    const found = side.readings[index];
    if (found) return { index, follow: found.follow, held: found.held, change: found.changeFromHome };
  }
  const { home } = side;
  if (groupOf(pair).midi !== home.midi) return null;
  return { index: null, follow: home.follow, held: home.follow, change: { elevationDeg: 0, lateralDeg: 0 } };
}

function expectedAt(sides: Sides, tryOut: TryOutSpec, pair: SeenPair, deviations: DeviationAt, unseated: string[]): ExpectedAtNote | null {
  const [usual, tried] = [modelAt(sides.usual, pair, 'asUsual'), modelAt(sides.tried, pair, 'tried')];
  if (!usual || !tried) return null;
  const { change } = tryOut;
  const asked = (lateralDeg: number): HornChange => ({ elevationDeg: 0, lateralDeg, elevationSdDeg: 0, lateralSdDeg: 0 });
  const found = (angles: HornAngles): HornChange => ({ ...angles, ...deviations(usual.index, tried.index) });
  switch (change.kind) {
    case 'hold-horn':
      return { hornChange: asked(0), loadAsUsual: felt(usual.follow.load), loadTried: felt(tried.held.load) };
    case 'let-horn-follow':
      return { hornChange: found(tried.change), loadAsUsual: felt(usual.held.load), loadTried: felt(tried.follow.load) };
    case 'place-rim':
      return { hornChange: found(changeBetween(usual.follow.pose, tried.follow.pose)), loadAsUsual: felt(usual.follow.load), loadTried: felt(tried.follow.load) };
    case 'bring-horn-round': {
      const round = broughtRound(sides.tried, tried, change.lateralDeg);
      if (!isSeated(round)) {
        unseated.push(sayCore('roundUnseated', { note: printedNote(groupOf(pair).note), why: round.words }));
        return null;
      }
      return { hornChange: asked(change.lateralDeg), loadAsUsual: felt(usual.follow.load), loadTried: felt(round.load) };
    }
  }
}

/** The horn held at home's elevation and that much to the side of home's angle. */
function broughtRound(side: Analysis, at: ModelAt, lateralDeg: number): SeatAnswer {
  const { home, record } = side;
  const reading = at.index === null ? side.readings.find(({ midi }) => midi === home.midi) : side.readings[at.index];
  return workingsOf(side).aside().held(
    {
      upMm: home.upMm + (reading?.travel.upMm ?? 0),
      rightMm: home.rightMm + (reading?.travel.rightMm ?? 0),
      forceN: reading?.forceN ?? record.force.newtons,
      jaw: reading?.jaw ?? null,
    },
    { elevationDeg: home.follow.pose.elevationDeg, lateralDeg: home.follow.pose.lateralDeg + lateralDeg },
    at.held.pose,
  );
}

function felt({ share, lipShare, contactFraction, peakOverMeanPressure, momentNmm }: RimLoad): FeltLoad {
  return { share, lipShare, contactFraction, peakOverMeanPressure, momentNmm };
}

type DeviationAt = (usual: number | null, tried: number | null) => Pick<HornChange, 'elevationSdDeg' | 'lateralSdDeg'>;

function deviationsOf(sides: Sides, { change }: TryOutSpec, by: Deviations): DeviationAt {
  if (change.kind === 'let-horn-follow') {
    const bands = computeBands(sides.tried, by);
    return (_usual, tried) => (tried === null ? { elevationSdDeg: 0, lateralSdDeg: 0 } : bands[tried]!.change);
  }
  if (change.kind !== 'place-rim') return () => ({ elevationSdDeg: 0, lateralSdDeg: 0 });
  const [before, after] = [computeMoves(sides.usual, by), computeMoves(sides.tried, by)];
  return (usual, tried) => {
    const moved = after.shared.map((move, k) => difference(angleMove(move, tried), angleMove(before.shared[k]!, usual)));
    const all = [...moved, ...ownDifference(sides, before, usual, after, tried)];
    return { elevationSdDeg: Math.hypot(...all.map(({ elevationDeg }) => elevationDeg)), lateralSdDeg: Math.hypot(...all.map(({ lateralDeg }) => lateralDeg)) };
  };
}

const STILL: HornAngles = { elevationDeg: 0, lateralDeg: 0 };

/** How the horn's own angle moves: home's and the change from there. */
function angleMove({ home, readings }: MouthMoves['shared'][number], index: number | null): HornAngles {
  const change = index === null ? STILL : readings[index];
  return home && change ? { elevationDeg: home.elevationDeg + change.elevationDeg, lateralDeg: home.lateralDeg + change.lateralDeg } : STILL;
}

const difference = (a: HornAngles, b: HornAngles): HornAngles => changeBetween(b, a);

/** Errors of the notes' own: one and the same where a side's travel was lent to the other, else each by itself. */
function ownDifference(sides: Sides, before: MouthMoves, usual: number | null, after: MouthMoves, tried: number | null): HornAngles[] {
  const [one, other] = [usual === null ? [] : before.own[usual]!, tried === null ? [] : after.own[tried]!];
  const lent = usual !== null && tried !== null && sameSource(sides.usual, sides.usual.readings[usual]!, sides.tried, sides.tried.readings[tried]!);
  if (lent) return other.map(({ name, change }) => difference(change ?? STILL, one.find((each) => each.name === name)?.change ?? STILL));
  return [...one, ...other].flatMap(({ change }) => change ?? []);
}

function sameSource(usual: Analysis, a: ReadingAnalysis, tried: Analysis, b: ReadingAnalysis): boolean {
  return a.sources.some((source) => b.sources.some((other) => usual.record.readings[source] === tried.record.readings[other]));
}

/** Home's horn angle that a seen change counts from: the try-out's own where the change leaves home where it was, else the lesson's. */
function homeSeen({ home }: Analysis, { change, readings }: TryOutSpec): { readonly horn: KnownHorn | null; readonly own: boolean } {
  if (change.kind === 'bring-horn-round') return { horn: home.measured, own: false };
  const own = home.midi === null ? undefined : pairsSeen([], readings.filter(({ note }) => midiOf(note) === home.midi))[0]?.tried;
  const horn = own ? seenAt(own).horn : null;
  return horn ? { horn, own: true } : { horn: home.measured, own: false };
}

function seenChange(from: KnownHorn | null, to: KnownHorn | null): HornChange | null {
  if (!from || !to) return null;
  return { ...changeBetween(from, to), elevationSdDeg: changeSd(from.sdDeg, to.sdDeg), lateralSdDeg: changeSd(from.lateralSdDeg, to.lateralSdDeg) };
}

const changeSd = (from: number, to: number): number => (isAngleSeen(from) && isAngleSeen(to) ? Math.hypot(from, to) : UNSEEN_HORN_SD_DEG);

/** The lesson's own problems are its page's to tell. */
function problemsOf(side: Analysis, known: Analysis | null, which: 'usualUnseated' | 'triedUnseated'): string[] {
  if (side === known) return [];
  return side.problems.flatMap(({ readingIndex, reason, words }) => {
    const reading = readingIndex === null ? undefined : side.record.readings[readingIndex];
    if (known?.record.readings.some((each) => each === reading)) return [];
    return [reading && reason !== 'bad-reading' ? sayCore(which, { note: printedNote(reading.note), why: seatWords(reason) }) : words];
  });
}
