/** What was seen of a try-out and of playing as usual, gathered by note and put side by side. */
import { midiOf } from './pitch';
import { hornSds, travelSds, weighted, weightedAngle } from './readings';
import type { PlayingDirection, ReadingSpec } from './specs';
import type { EaseCompared, NoteCompared, SeenAtNote } from './tryOutShapes';

/** All takes of one note, played one way. */
export interface SeenGroup {
  readonly note: string;
  readonly midi: number;
  readonly direction: PlayingDirection | null;
  readonly readings: readonly ReadingSpec[];
}

/** A note as usual, as tried, or both. */
export interface SeenPair {
  readonly asUsual: SeenGroup | null;
  readonly tried: SeenGroup | null;
}

/**
 * Pairs every note and direction tried with the same as usual. Readings that say neither direction go with those of either. What was
 * seen on one side only stands alone. Rising in pitch; without a direction, ascending, descending.
 */
export function pairsSeen(asUsual: readonly ReadingSpec[], tried: readonly ReadingSpec[]): SeenPair[] {
  const usualGroups = groupsOf(asUsual);
  const triedGroups = groupsOf(tried);
  const pairs: SeenPair[] = triedGroups.map((group) => {
    const same = usualGroups.filter(({ midi }) => midi === group.midi);
    const fit = same.find(({ direction }) => direction === group.direction) ?? same.find(({ direction }) => direction === null || group.direction === null);
    return { asUsual: fit ?? null, tried: group };
  });
  const alone = usualGroups.filter((group) => !pairs.some((pair) => pair.asUsual === group));
  return [...pairs, ...alone.map((group) => ({ asUsual: group, tried: null }))].sort((a, b) => {
    const [one, other] = [groupOf(a), groupOf(b)];
    return one.midi - other.midi || ORDER.indexOf(one.direction) - ORDER.indexOf(other.direction);
  });
}

/** The group that names a pair: as tried, or else as usual. */
export const groupOf = (pair: SeenPair): SeenGroup => (pair.tried ?? pair.asUsual)!;

const ORDER: readonly (PlayingDirection | null)[] = [null, 'up', 'down'];

function groupsOf(readings: readonly ReadingSpec[]): SeenGroup[] {
  const groups = new Map<string, { group: Omit<SeenGroup, 'readings'>; readings: ReadingSpec[] }>();
  for (const reading of readings) {
    const [midi, direction] = [midiOf(reading.note), reading.direction ?? null];
    const key = `${midi} ${direction}`;
    const known = groups.get(key);
    if (known) known.readings.push(reading);
    else groups.set(key, { group: { note: reading.note, midi, direction }, readings: [reading] });
  }
  return [...groups.values()].map(({ group, readings: own }) => ({ ...group, readings: own }));
}

/** All takes of a note together: travel and horn by their deviations, ease as a plain mean. */
export function seenAt({ readings }: SeenGroup): SeenAtNote {
  const travels = readings.flatMap((reading) => (reading.travel ? [{ ...reading.travel, ...travelSds(reading) }] : []));
  const horns = readings.flatMap(({ horn }) => (horn ? [{ ...horn, ...hornSds(horn) }] : []));
  const up = weighted(travels.map(({ upMm, sdMm }) => [upMm, sdMm]));
  const right = weighted(travels.map(({ rightMm, rightSdMm }) => [rightMm, rightSdMm]));
  const elevation = weightedAngle(horns.map(({ elevationDeg, sdDeg }) => [elevationDeg, sdDeg]));
  const lateral = weightedAngle(horns.map(({ lateralDeg, lateralSdDeg }) => [lateralDeg, lateralSdDeg]));
  const eases = readings.flatMap(({ ease }) => (ease === undefined ? [] : [ease]));
  const airs = (which: 'down' | 'up' | 'unsure'): number => readings.filter(({ airstream }) => airstream === which).length;
  return {
    takes: readings.length,
    travel: travels.length > 0 ? { upMm: up.value, rightMm: right.value, sdMm: up.sd, rightSdMm: right.sd } : null,
    horn:
      horns.length > 0
        ? { elevationDeg: elevation.value, lateralDeg: lateral.value, sdDeg: elevation.sd, lateralSdDeg: lateral.sd }
        : null,
    ease: eases.length > 0 ? mean(eases) : null,
    airstream: { down: airs('down'), up: airs('up'), unsure: airs('unsure') },
    remarks: readings.flatMap(({ remark }) => (remark === undefined || remark === '' ? [] : [remark])),
  };
}

/** Tried less as usual, over the notes that have an ease on both sides; null where none has. */
export function easeOf(notes: readonly NoteCompared[]): EaseCompared | null {
  const differences = notes.flatMap(({ asUsual, tried }) => {
    const [before, after] = [asUsual?.ease ?? null, tried?.ease ?? null];
    return before === null || after === null ? [] : [after - before];
  });
  if (differences.length === 0) return null;
  const middle = mean(differences);
  const squares = differences.reduce((sum, each) => sum + (each - middle) ** 2, 0);
  return { notes: differences.length, meanDifference: middle, spread: differences.length > 1 ? Math.sqrt(squares / (differences.length - 1)) : null };
}

const mean = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0) / values.length;
