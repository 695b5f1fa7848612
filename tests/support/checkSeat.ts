/**
 * A seat checked without trusting the solver that claims it: force and moments summed anew on an even net, and every number in what was
 * answered finite.
 */
import type { Arch } from '../../src/core/arch';
import { layUniformNodes } from '../../src/core/rim';
import type { SeatState } from '../../src/core/seatAnswer';
import { BY_ELEVATION, BY_LATERAL, BY_Z, ENERGY, type SeatEnergy, createSeatEnergy } from '../../src/core/seatEnergy';
import type { PlayerRecord } from '../../src/core/specs';

/**
 * How far an even net may disagree with the net that the seat was balanced on. For ready-made arches the two agree to 0.01°
 * (tests/reference/sampling.test.ts); with very unlike lips, a flat arch over a pointed one or a small touch each misplaces the pressure's jumps.
 */
export interface Allowance {
  /** Unbalanced part of F and of F × outer radius. */
  readonly balance: number;
  /**
   * Where a stiff or a barely touching lip turns next to no movement into much force, parts of F say nothing. There the even net's energy
   * must rise in every direction within this part of the outer radius: the seat lies that near its minimum.
   */
  readonly near: number;
}

/** 5 %; or 0.06 mm and 0.17° for a trombone. */
export const MOUTH: Allowance = { balance: 0.05, near: 0.003 };
/** 10 %; or 0.2 mm and 0.6°. */
export const NO_MOUTH: Allowance = { balance: 0.1, near: 0.01 };

const RINGS = 8;
/** A seat that the first net denies is judged by this one: a small patch of contact falls between the nodes of the first. */
const FINEST = { azimuths: 1024, rings: 24 };

export const evenEnergy = (record: PlayerRecord, arch: Arch, lipLineMm: number, azimuths = 256, rings = RINGS): SeatEnergy =>
  createSeatEnergy(arch.upper.placed, arch.lower?.placed ?? null, record.lips, layUniformNodes(record.rim, lipLineMm, azimuths, rings));

/**
 * As `seatFault`, asked again of a much finer net before a seat is denied; `refused` may answer first that the seat is not claimed at all.
 */
export function provenFault(
  record: PlayerRecord, arch: Arch, lipLineMm: number, first: SeatEnergy, refused: () => boolean, ...seat: SeatQuestion
): string | null {
  const outerRadiusMm = record.rim.outerDiameterMm / 2;
  if (seatFault(first, outerRadiusMm, ...seat) === null || refused()) return null;
  return seatFault(evenEnergy(record, arch, lipLineMm, FINEST.azimuths, FINEST.rings), outerRadiusMm, ...seat);
}

type SeatQuestion = readonly [allowance: Allowance, x: number, y: number, seat: SeatState, forceN: number, free: boolean];

/** A sentence where the seat over (x, y) is no seat, else null. Angles in radians; `free`: follow, where moments vanish too. */
function seatFault(energy: SeatEnergy, outerRadiusMm: number, ...question: SeatQuestion): string | null {
  const [{ balance, near }, x, y, seat, forceN, free] = question;
  const { value } = energy;
  const total = (dz: number, de: number, dl: number): number =>
    energy.evaluate(x, y, seat.z + dz, seat.elevation + de, seat.lateral + dl, true) ? value[ENERGY]! + forceN * dz : Infinity;
  const here = total(0, 0, 0);
  if (here === Infinity) return 'a lip is squeezed to nothing';
  const unbalanced = [
    (value[BY_Z]! + forceN) / forceN,
    ...(free ? [value[BY_ELEVATION]! / (forceN * outerRadiusMm), value[BY_LATERAL]! / (forceN * outerRadiusMm)] : []),
  ];
  if (unbalanced.every((part) => Math.abs(part) <= balance)) return null;
  const step = near * outerRadiusMm;
  const around: (readonly [number, number, number])[] = [[step, 0, 0]];
  if (free) around.push([0, near, 0], [0, 0, near]);
  for (const [dz, de, dl] of around) {
    for (const sign of [1, -1]) {
      const there = total(sign * dz, sign * de, sign * dl);
      if (!(there > here)) return `unbalanced by ${unbalanced.join(', ')}; lower by ${here - there} at (${sign * dz} mm, ${sign * de}, ${sign * dl})`;
    }
  }
  return null;
}

/** The first number in a value that is not finite, by its path; null when all are. */
export function notFinite(value: unknown, path = ''): string | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : `${path} is ${value}`;
  if (value instanceof Float64Array) return notFinite([...value], path);
  if (typeof value !== 'object' || value === null) return null;
  for (const [name, each] of Object.entries(value)) {
    const found = notFinite(each, `${path}.${name}`);
    if (found !== null) return found;
  }
  return null;
}
