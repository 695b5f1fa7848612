/** What the horn does on a scan and on the arch that stands for it: the same rim, lips, force and travel, and how far the two predictions part. */
import { homePlace } from '../core/analyse';
import type { SeatReason } from '../core/analysis';
import type { MouthOf } from '../core/arch';
import { toDegrees } from '../core/frame';
import type { SeatFound, SeatResult } from '../core/seatAnswer';
import { createSeatSession } from '../core/session';
import type { JawSpec, PlayerRecord } from '../core/specs';

export interface ComparedPlace {
  readonly upMm: number;
  readonly rightMm: number;
  /** Where the jaw stands there; null: as in the record. */
  readonly jaw: JawSpec | null;
}

/** Change of the horn's angles from home, degrees, up and to the player's right positive. */
export interface HornChange {
  readonly elevationDeg: number;
  readonly lateralDeg: number;
}

export type ComparedSeats =
  | { readonly kind: 'compared'; readonly onArch: HornChange; readonly onScan: HornChange }
  | { readonly kind: 'unseated'; readonly on: 'arch' | 'scan'; readonly reason: SeatReason };

/** One answer a place, from home: runs `seatComparison` to its end. */
export function compareSeats(record: PlayerRecord, mouthOf: MouthOf, places: readonly ComparedPlace[]): readonly ComparedSeats[] {
  const steps = seatComparison(record, mouthOf, places);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The same in steps of some milliseconds, so that a page can breathe between them. */
export function* seatComparison(record: PlayerRecord, mouthOf: MouthOf, places: readonly ComparedPlace[]): Generator<void, readonly ComparedSeats[]> {
  const home = homePlace(record);
  const sessions = { arch: createSeatSession(record), scan: createSeatSession(record, undefined, mouthOf) } as const;
  const seat = (on: 'arch' | 'scan', { upMm, rightMm, jaw }: ComparedPlace): SeatResult =>
    sessions[on].followAngles({ upMm: home.upMm + upMm, rightMm: home.rightMm + rightMm, forceN: record.force.newtons, jaw });
  const atHome = { upMm: 0, rightMm: 0, jaw: null };
  const archHome = seat('arch', atHome);
  yield;
  const scanHome = seat('scan', atHome);
  const compared: ComparedSeats[] = [];
  for (const place of places) {
    yield;
    const onArch = seat('arch', place);
    yield;
    const onScan = seat('scan', place);
    compared.push(comparedSeats(archHome, onArch, scanHome, onScan));
  }
  return compared;
}

function comparedSeats(archHome: SeatResult, onArch: SeatResult, scanHome: SeatResult, onScan: SeatResult): ComparedSeats {
  if (!archHome.found) return { kind: 'unseated', on: 'arch', reason: archHome.reason };
  if (!onArch.found) return { kind: 'unseated', on: 'arch', reason: onArch.reason };
  if (!scanHome.found) return { kind: 'unseated', on: 'scan', reason: scanHome.reason };
  if (!onScan.found) return { kind: 'unseated', on: 'scan', reason: onScan.reason };
  return { kind: 'compared', onArch: changeBetween(archHome, onArch), onScan: changeBetween(scanHome, onScan) };
}

const changeBetween = (home: SeatFound, there: SeatFound): HornChange => ({
  elevationDeg: toDegrees(there.elevation - home.elevation),
  lateralDeg: toDegrees(there.lateral - home.lateral),
});
