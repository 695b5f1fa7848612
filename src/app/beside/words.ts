/** The sentences of two players side by side. */
import type { Travel } from '../../core/live';
import { joined, wayOf } from '../../print/instrumentWords';
import { sayBeside } from '../../words/beside';
import { fixed } from '../../words/numbers';

/** How far apart two ways are, without sign. */
export interface Differences {
  readonly upMm: number;
  readonly rightMm: number;
  readonly elevationDeg: number;
  readonly lateralDeg: number;
}

/** Below this a travel rounds to 0.0 mm and is not named. */
const NAMED_FROM_MM = 0.05;

/** "2.6 mm up and 0.4 mm to the right": the player’s own right, as of the bell; '' where neither is worth a name. */
export function travelParts({ upMm, rightMm }: Travel): string {
  return joined([
    ...(Math.abs(upMm) >= NAMED_FROM_MM ? [sayBeside('travelUp', { mm: fixed(Math.abs(upMm), 1), way: wayOf(upMm) })] : []),
    ...(Math.abs(rightMm) >= NAMED_FROM_MM ? [sayBeside('travelSide', { mm: fixed(Math.abs(rightMm), 1), way: wayOf(rightMm) })] : []),
  ]);
}

/** `from` null: from home. `swing` is a clause of instrumentWords.ts. */
export function fromToWords(from: string | null, to: string, travel: Travel, swing: string): string {
  const parts = travelParts(travel);
  const rim = parts === '' ? sayBeside('rimStays') : sayBeside('rimGoes', { parts });
  return sayBeside('fromTo', { named: from === null ? 'no' : 'yes', from: from ?? '', to, rim, swing });
}

export const differWords = ({ upMm, rightMm, elevationDeg, lateralDeg }: Differences): string =>
  sayBeside('differ', { upMm: fixed(upMm, 1), rightMm: fixed(rightMm, 1), elevation: fixed(elevationDeg, 1), lateral: fixed(lateralDeg, 1) });
