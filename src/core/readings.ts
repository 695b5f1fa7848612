/** A record's readings made ready: defaults filled in, several of one note pooled, branches by direction. */
import type { KnownHorn, KnownTravel, PathBranch, SeenAngles } from './analysis';
import { midiOf } from './pitch';
import type { HornSpec, JawSpec, MeasuringMethod, PlayerRecord, PlayingDirection, ReadingSpec, TravelSpec } from './specs';

/** Standard deviation of a travel by how it was measured, mm: our judgement, editable in every reading. One picture has no frames beside it to take the middle of. */
export const TRAVEL_SD_MM: Record<MeasuringMethod, number> = { eye: 1.5, ruler: 1, video: 0.3, picture: 0.7 };
/** Standard deviation of a horn angle read by eye against a protractor, degrees: our judgement, editable. */
export const HORN_SD_DEG = 2;
/** The deviation of an angle that nobody saw while the other was, degrees: so wide that nothing is said by it. */
export const UNSEEN_HORN_SD_DEG = 45;

/** Whether an angle with this deviation was seen at all. */
export const isAngleSeen = (sdDeg: number): boolean => sdDeg < UNSEEN_HORN_SD_DEG;

/** Deviations of both angles of a horn, degrees: their own, or those of an angle read by eye. */
export function hornSds({ sdDeg = HORN_SD_DEG, lateralSdDeg = sdDeg }: HornSpec): { readonly sdDeg: number; readonly lateralSdDeg: number } {
  return { sdDeg, lateralSdDeg };
}

/** Both angles of a horn, null for one that nobody saw. */
export function seenAngles({ elevationDeg, lateralDeg, sdDeg, lateralSdDeg }: KnownHorn): SeenAngles {
  return { elevationDeg: isAngleSeen(sdDeg) ? elevationDeg : null, lateralDeg: isAngleSeen(lateralSdDeg) ? lateralDeg : null };
}

const DEFAULT_METHOD: MeasuringMethod = 'ruler';

export interface PooledReading {
  readonly note: string;
  readonly midi: number;
  readonly direction: PlayingDirection | null;
  /** Indices into record.readings. */
  readonly sources: readonly number[];
  readonly travel: KnownTravel;
  readonly measured: KnownHorn | null;
  /** Null for the record's own jaw. */
  readonly jaw: JawSpec | null;
  readonly jawKnown: boolean;
  readonly forceN: number;
}

/**
 * Pools readings of one note and direction by their deviations, in the order in which the notes first appear. A note whose travel nobody
 * saw is no point of the path; the home note is, since travel is counted from it.
 */
export function poolReadings(record: PlayerRecord): PooledReading[] {
  const groups = new Map<string, number[]>();
  const homeMidi = record.home?.note === undefined ? null : midiOf(record.home.note);
  record.readings.forEach((reading, index) => {
    const key = `${midiOf(reading.note)} ${reading.direction ?? ''}`;
    const group = groups.get(key);
    if (group) group.push(index);
    else groups.set(key, [index]);
  });
  return [...groups.values()]
    .filter((sources) => sources.some((index) => record.readings[index]!.travel !== undefined) || midiOf(record.readings[sources[0]!]!.note) === homeMidi)
    .map((sources) => (sources.length === 1 ? alone(record, sources[0]!) : pool(record, sources)));
}

/** A note's only reading, worked out once: a drag makes a new record at every step, in which all readings but one are the same. */
function alone(record: PlayerRecord, index: number): PooledReading {
  const reading = record.readings[index]!;
  const known = madeAlone.get(reading);
  if (known?.arch === record.arch && known.force === record.force && known.pooled.sources[0] === index) return known.pooled;
  const pooled = pool(record, [index]);
  madeAlone.set(reading, { arch: record.arch, force: record.force, pooled });
  return pooled;
}

interface MadeAlone extends Pick<PlayerRecord, 'arch' | 'force'> {
  readonly pooled: PooledReading;
}

const NO_TRAVEL = { upMm: 0, rightMm: 0 } as const;

const madeAlone = new WeakMap<ReadingSpec, MadeAlone>();

/** Readings of one direction in order of pitch; a reading without a direction belongs to both. */
export function branchesOf(readings: readonly { midi: number; direction: PlayingDirection | null }[]): PathBranch[] {
  const directed = (['up', 'down'] as const).filter((way) => readings.some((reading) => reading.direction === way));
  const ways: (PlayingDirection | null)[] = directed.length > 0 ? [...directed] : [null];
  return ways.map((direction) => {
    const order = readings
      .map((_, index) => index)
      .filter((index) => {
        const reading = readings[index]!;
        if (reading.direction !== null) return reading.direction === direction;
        return !readings.some((other) => other.midi === reading.midi && other.direction === direction && direction !== null);
      })
      .sort((a, b) => readings[a]!.midi - readings[b]!.midi);
    return { direction, order };
  });
}

/** Deviations of a travel up and to the right, mm: its own, or the method's. */
export function travelSds({ travel, method = DEFAULT_METHOD }: ReadingSpec): Pick<KnownTravel, 'sdMm' | 'rightSdMm'> {
  const { sdMm = TRAVEL_SD_MM[method], rightSdMm = sdMm } = travel ?? {};
  return { sdMm, rightSdMm };
}

/** As a reading keeps them: the second only where it is another. */
export function sdsAsKept(sdMm: number, rightSdMm: number): Pick<TravelSpec, 'sdMm' | 'rightSdMm'> {
  return rightSdMm === sdMm ? { sdMm } : { sdMm, rightSdMm };
}

/** How sure a reading is as a whole: the root mean square of both, which is either where they are the same. */
function wholeSd(reading: ReadingSpec): number {
  const { sdMm, rightSdMm } = travelSds(reading);
  return sdMm === rightSdMm ? sdMm : Math.sqrt((sdMm ** 2 + rightSdMm ** 2) / 2);
}

function pool(record: PlayerRecord, sources: readonly number[]): PooledReading {
  const readings = sources.map((index) => record.readings[index]!);
  const first = readings[0]!;
  const seen = readings.filter((each) => each.travel !== undefined);
  // Nobody saw the home note's travel: it is none, by what home means.
  const travels = seen.length > 0 ? seen : readings.map((each) => ({ ...each, travel: NO_TRAVEL }));
  const up = weighted(travels.map((each) => [each.travel!.upMm, travelSds(each).sdMm]));
  const right = weighted(travels.map((each) => [each.travel!.rightMm, travelSds(each).rightSdMm]));
  const horns = readings.flatMap((each) => (each.horn ? [each.horn] : []));
  const elevation = weightedAngle(horns.map((horn) => [horn.elevationDeg, hornSds(horn).sdDeg]));
  const lateral = weightedAngle(horns.map((horn) => [horn.lateralDeg, hornSds(horn).lateralSdDeg]));
  const seenJaws = readings.filter((each) => each.jaw !== undefined);
  const force = weighted(readings.map((each) => [each.force?.newtons ?? record.force.newtons, wholeSd(each)]));
  return {
    note: first.note,
    midi: midiOf(first.note),
    direction: first.direction ?? null,
    sources,
    travel: { upMm: up.value, rightMm: right.value, sdMm: up.sd, rightSdMm: right.sd },
    measured: horns.length > 0 ? { elevationDeg: elevation.value, lateralDeg: lateral.value, sdDeg: elevation.sd, lateralSdDeg: lateral.sd } : null,
    jaw: 'single' in record.arch || seenJaws.length === 0 ? null : pooledJaw(record.arch.jaw, seenJaws),
    jawKnown: seenJaws.length > 0,
    forceN: force.value,
  };
}

function pooledJaw(own: JawSpec, readings: readonly ReadingSpec[]): JawSpec {
  const of = (field: 'openingMm' | 'forwardMm' | 'hingeDeg'): number =>
    weighted(readings.map((each) => [each.jaw?.[field] ?? own[field], wholeSd(each)])).value;
  return { ...own, openingMm: of('openingMm'), forwardMm: of('forwardMm'), hingeDeg: of('hingeDeg') };
}

/** The same of an angle: takes in which it was not seen say nothing, and where it never was it stays unseen. */
export function weightedAngle(pairs: readonly (readonly [number, number])[]): { value: number; sd: number } {
  const seen = pairs.filter(([, sd]) => isAngleSeen(sd));
  return seen.length > 0 ? weighted(seen) : { value: weighted(pairs).value, sd: UNSEEN_HORN_SD_DEG };
}

/** Mean weighted by 1/sd²; a deviation of 0 outweighs all others. */
export function weighted(pairs: readonly (readonly [number, number])[]): { value: number; sd: number } {
  const exact = pairs.filter(([, sd]) => sd === 0);
  if (exact.length > 0) return { value: exact.reduce((sum, [value]) => sum + value, 0) / exact.length, sd: 0 };
  const [only] = pairs;
  if (pairs.length === 1 && only) return { value: only[0], sd: only[1] };
  const weight = pairs.reduce((sum, [, sd]) => sum + 1 / (sd * sd), 0);
  return {
    value: pairs.reduce((sum, [value, sd]) => sum + value / (sd * sd), 0) / weight,
    sd: Math.sqrt(1 / weight),
  };
}
