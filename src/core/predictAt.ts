/** What the model expects at notes nobody measured: travel read off the path between the readings, seated like any other. */
import type { Analysis, AngleBand, HornAngles, SeenAngles } from './analysis';
import { analyse } from './analyse';
import { type PredictedBand, bandsOfMoves } from './bands';
import { DEFAULT_DEVIATIONS, type Deviations } from './deviations';
import { computeMoves } from './mouthMoves';
import { shapePreserving } from './path';
import { noteName } from './pitch';
import type { JawSpec, PlayerRecord, PlayingDirection, ReadingSpec } from './specs';

export interface NotePrediction {
  /** Sounding. */
  readonly note: string;
  readonly midi: number;
  readonly direction: PlayingDirection | null;
  /** A reading's own note; false where the travel was read off the path. */
  readonly measured: boolean;
  readonly changeFromHome: HornAngles;
  readonly band: AngleBand;
  /** With the measured home angle; null without one, as is the part of an angle nobody saw at home. */
  readonly predictedHorn: SeenAngles | null;
  readonly predictedBand: PredictedBand | null;
}

/**
 * Predictions at whole semitones (MIDI numbers), low to high. A note without a reading gets the path's travel, force and jaw there, and travel
 * deviations between its neighbours' (how travel really runs between two notes is not in it). Notes beyond the readings are left
 * out, as are those where the rim finds no seat. `direction`: which way of the path; absent, the first. Throws RangeError for a fraction.
 */
export function predictAt(analysis: Analysis, midis: readonly number[], direction?: PlayingDirection | null, by: Deviations = DEFAULT_DEVIATIONS): NotePrediction[] {
  const whole = analyse(recordWithNotes(analysis, midis, direction), analysis);
  const bands = bandsOfMoves(whole, computeMoves(whole, by));
  const way = wayOf(analysis, direction);
  const asked = new Set(midis);
  const measured = new Set(way.map(({ midi }) => midi));
  return whole.readings
    .flatMap((reading, index): NotePrediction[] => {
      const ofWay = way.some(({ midi, direction: own }) => midi === reading.midi && own === reading.direction) || !measured.has(reading.midi);
      if (!asked.has(reading.midi) || !ofWay) return [];
      const { note, midi, changeFromHome, predictedHorn } = reading;
      const { change, predicted } = bands[index]!;
      return [{ note, midi, direction: reading.direction, measured: measured.has(midi), changeFromHome, band: change, predictedHorn, predictedBand: predicted }];
    })
    .sort((a, b) => a.midi - b.midi);
}

/** The record with a reading at each of these notes within its path that has none, as `predictAt` describes. */
export function recordWithNotes(analysis: Analysis, midis: readonly number[], direction?: PlayingDirection | null): PlayerRecord {
  midis.forEach((midi, index) => {
    if (!Number.isInteger(midi)) throw new RangeError(`midis[${index}]: ${midi}; allowed: whole numbers`);
  });
  const { record, home } = analysis;
  const way = wayOf(analysis, direction);
  const [lowest, highest] = [way[0]?.midi ?? Infinity, way.at(-1)?.midi ?? -Infinity];
  const added = [...new Set(midis)]
    .filter((midi) => !way.some((reading) => reading.midi === midi) && midi > lowest && midi < highest)
    .sort((a, b) => a - b);
  if (added.length === 0) return record;
  const between = pathOf(analysis, way);
  const readings = added.map((midi): ReadingSpec => {
    const said = direction === undefined || direction === null ? {} : { direction };
    // Home's own note means no travel, wherever the path goes by.
    return midi === home.midi ? { note: noteName(midi), ...said } : { note: noteName(midi), ...said, ...between(midi) };
  });
  return { ...record, readings: [...record.readings, ...readings] };
}

function wayOf({ branches, readings }: Analysis, direction: PlayingDirection | null | undefined): Analysis['readings'] {
  const branch = branches.find((each) => each.direction === (direction ?? null)) ?? branches[0];
  return (branch?.order ?? []).map((index) => readings[index]!);
}

function pathOf({ record }: Analysis, way: Analysis['readings']): (midi: number) => Omit<ReadingSpec, 'note'> {
  const knots = way.map(({ midi }) => midi);
  const own = 'single' in record.arch ? null : record.arch.jaw;
  const curve = (of: (reading: (typeof way)[number]) => number): ((midi: number) => number) => shapePreserving(knots, way.map(of)).at;
  const [up, right, force] = [curve(({ travel }) => travel.upMm), curve(({ travel }) => travel.rightMm), curve(({ forceN }) => forceN)];
  const jaw = (['openingMm', 'forwardMm', 'hingeDeg'] satisfies (keyof JawSpec)[]).map((field) => [field, curve((reading) => reading.jaw?.[field] ?? own?.[field] ?? 0)] as const);
  return (midi) => {
    const above = way.findIndex((reading) => reading.midi > midi);
    const [before, after] = [way[above - 1]!, way[above]!];
    const part = (midi - before.midi) / (after.midi - before.midi);
    const between = (one: number, other: number): number => one + part * (other - one);
    return {
      travel: {
        upMm: up(midi),
        rightMm: right(midi),
        sdMm: between(before.travel.sdMm, after.travel.sdMm),
        rightSdMm: between(before.travel.rightSdMm, after.travel.rightSdMm),
      },
      force: { newtons: force(midi) },
      // A jaw counts as seen between two notes at which it was.
      ...(own && before.jawKnown && after.jawKnown ? { jaw: Object.fromEntries(jaw.map(([field, at]) => [field, at(midi)])) } : {}),
    };
  };
}
