/** Small records for tests: fresh, mutable copies, so that a test can spoil one field. */
import { lessonOf, recordOf } from '../../src/core/lessons';
import type { PlayerRecord, PlayerSpec } from '../../src/core/specs';
import { defaultPlayer } from '../../src/records/newRecords';
import { parsePlayers, playersFile } from '../../src/records/schema';
import { bareMeasuring, fullMeasuring } from './measurings';

/** The types of a record without `readonly`. */
export type Mutable<T> = T extends object ? { -readonly [K in keyof T]: Mutable<T[K]> } : T;

/** Every optional field is present somewhere. */
export function fullRecord(): Mutable<PlayerRecord> {
  const jawArch = (fdi: number, centreMm: number) => ({
    form: { kind: 'power' as const, widthMm: 60, depthMm: 45, exponent: 0.8 },
    profile: {
      kind: 'arcs' as const,
      inclinationDeg: 6,
      crownHeightMm: 10,
      crownRadiusMm: 14,
      gumRadiusMm: 16,
      gumInclinationDeg: 8,
    },
    teeth: [{ fdi, outMm: 0.5, centreMm, widthMm: 8.5 }],
  });
  return {
    player: { label: 'Invented', instrument: 'tenor-trombone' },
    arch: {
      upper: jawArch(11, -4.25),
      lower: jawArch(31, 2.5),
      jaw: { openingMm: 6, forwardMm: -1, hingeDeg: 0, hingeArmMm: 88 },
    },
    rim: { innerDiameterMm: 25.4, outerDiameterMm: 39, highPointDiameterMm: 32, contourRadiusMm: 7 },
    lips: {
      upper: { thicknessMm: 12, effectiveModulusKPa: 200 },
      lower: { thicknessMm: 13, effectiveModulusKPa: 200 },
      law: 'stiffening',
    },
    force: { newtons: 25 },
    home: { note: 'F3', upMm: 0, rightMm: 0 },
    upperLipShare: { value: 0.66, by: 'diameter' },
    readings: [
      {
        note: 'F3',
        travel: { upMm: 0, rightMm: 0, sdMm: 0.4 },
        horn: { elevationDeg: -8, lateralDeg: 1, sdDeg: 1.5 },
        method: 'video',
        direction: 'up',
        jaw: { openingMm: 7 },
        force: { newtons: 30 },
      },
      { note: 'B♭3', travel: { upMm: 1.5, rightMm: 0.5 } },
    ],
  };
}

/** The same mouth and readings as they are kept, a file of version 3: two lessons, a try-out, and every optional field somewhere. */
export function fullPlayer(): Mutable<PlayerSpec> {
  const { player, arch, lips, rim, force, home, upperLipShare, readings } = fullRecord();
  return {
    id: 'player-A_1',
    ...player,
    arch,
    lips,
    lessons: [
      {
        id: 'lesson-1',
        date: '2026-03-01',
        remark: 'after a rest',
        rim,
        force,
        ...(home !== undefined && { home }),
        upperLipShare,
        readings: [
          {
            ...{ ...readings[0]!, take: 2, airstream: 'down', upperLipShare: 0.6, ease: 4, remark: 'spoke late' },
            from: { measuring: 'measuring-1', source: 1, startS: 1.08, endS: 1.84, atS: 1.5 },
          },
          { ...readings[1]!, from: { measuring: 'measuring-1' } },
          { note: 'D4' },
        ],
        tryOuts: [
          { id: 'try-1', change: { kind: 'hold-horn' }, readings: [{ note: 'F3', ease: 3 }], remark: 'short' },
          { id: 'try-2', change: { kind: 'let-horn-follow' }, readings: [] },
          { id: 'try-3', change: { kind: 'place-rim', upMm: 2 }, readings: [] },
          { id: 'try-4', change: { kind: 'bring-horn-round', lateralDeg: -5 }, readings: [] },
        ],
        toTry: 'let the horn follow',
        measurings: [fullMeasuring(), bareMeasuring('measuring-2')],
      },
      { id: 'lesson-2', rim: { ...rim }, force: { ...force }, upperLipShare: { ...upperLipShare }, readings: [], tryOuts: [] },
    ],
  };
}

/** A record as the one lesson of a player. */
export function playerOf({ player, arch, lips, ...seen }: PlayerRecord): PlayerSpec {
  return { id: 'player-1', ...player, arch, lips, lessons: [{ id: 'lesson-1', ...seen, tryOuts: [] }] };
}

/** Whether a record could be kept: it is read as a file of one player. */
export function parseRecord(record: PlayerRecord): { readonly kind: 'record' } | { readonly kind: 'refused'; readonly message: string } {
  const parsed = parsePlayers(playersFile([playerOf(record)]));
  return parsed.kind === 'players' ? { kind: 'record' } : parsed;
}

/** A new player's record, every note seen to stay at home. */
export function defaultRecord(instrumentId: string): PlayerRecord {
  const player = defaultPlayer(instrumentId, { id: 'player-1', lessonId: 'lesson-1' });
  const record = recordOf(player, lessonOf(player, ''));
  return { ...record, readings: record.readings.map((reading) => ({ ...reading, travel: { upMm: 0, rightMm: 0 } })) };
}
