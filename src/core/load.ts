/** What a pose does to the lips: shares of force, contact, peak, the pressure round the rim. Definitions: docs/model.md "Exactly". */
import type { HalfShares, RimLoad } from './analysis';
import { KPA_PER_NEWTON_PER_SQUARE_MM } from './lips';
import { type RimNodes, annulusArea, layRimNodes, layUniformNodes } from './rim';
import type { SeatFound, SeatSetup } from './seat';
import { type SeatEnergy, createSeatEnergy } from './seatEnergy';

/** Azimuths of `ringPressureKPa`; index i is at angle 2πi/RING_AZIMUTHS from the player's left over the top. */
export const RING_AZIMUTHS = 64;
/** Peak and contact are read off a finer net than the seat is solved on. */
const FINE_AZIMUTHS = 128;
const FINE_RINGS = 8;
/** The lip line breaks this net, so that the shares by lip are sharp. */
const LIP_SAMPLING = { rings: 4, azimuthsPerQuarter: 10 };

/** Rounding of a sum of some hundred areas, as a part of it. */
const AREA_ROUNDING = 1e-9;

export interface LoadReader {
  /**
   * The load at an answered pose with its centre over (x, y); `balanced` is the solver's energy, still standing at that pose. Null
   * where a stiffening lip would be squeezed to nothing between the nodes that the seat was balanced on.
   */
  read(balanced: SeatEnergy, x: number, y: number, seat: SeatFound, forceN: number, held: boolean): RimLoad | null;
}

export function createLoadReader(setup: SeatSetup): LoadReader {
  const { arch, rim, lips } = setup;
  const upper = arch.upper.placed;
  const lower = arch.lower?.placed ?? null;
  const fine = createSeatEnergy(upper, lower, lips, layUniformNodes(rim, setup.lipLineMm, FINE_AZIMUTHS, FINE_RINGS));
  const byLip = createSeatEnergy(upper, lower, lips, layRimNodes(rim, setup.lipLineMm, false, LIP_SAMPLING));
  const area = annulusArea(rim);
  return {
    read(balanced, x, y, seat, forceN, held) {
      for (const net of [fine, byLip]) {
        if (!net.evaluate(x, y, seat.z, seat.elevation, seat.lateral, false)) return null;
      }
      const meanPressure = forceN / area;
      let peak = greatestPressure(balanced);
      const ring = new Float64Array(RING_AZIMUTHS);
      // A touch too light for the shares' own net is still seen by the net it was balanced on.
      const shareNet = touchingArea(byLip) > 0 ? byLip : balanced;
      const ringArea = fine.nodes.totalArea / FINE_AZIMUTHS;
      for (let i = 0; i < fine.nodes.count; i++) {
        const pressure = fine.pressure[i]!;
        if (pressure > peak) peak = pressure;
        const azimuth = i % FINE_AZIMUTHS;
        const per = FINE_AZIMUTHS / RING_AZIMUTHS;
        if (azimuth % per === 0) ring[azimuth / per]! += pressure * fine.nodes.area[i]!;
      }
      return {
        share: halfShares(shareNet),
        lipShare: lipShares(shareNet),
        contactFraction: contactPart(balanced, area),
        peakOverMeanPressure: peak / meanPressure,
        meanPressureKPa: meanPressure * KPA_PER_NEWTON_PER_SQUARE_MM,
        momentNmm: held
          ? { elevation: seat.momentElevation, lateral: seat.momentLateral }
          : { elevation: 0, lateral: 0 },
        ringPressureKPa: ring.map((sum) => (sum / ringArea) * KPA_PER_NEWTON_PER_SQUARE_MM),
      };
    },
  };
}

/** Parts of Σ p·n_z·area by halves of the rim; a node on a dividing line counts half to either side. */
function halfShares(energy: SeatEnergy): HalfShares {
  const { nodes } = energy;
  let total = 0;
  let upper = 0;
  let left = 0;
  for (let i = 0; i < nodes.count; i++) {
    const force = energy.pressure[i]! * energy.normalZ[i]! * nodes.area[i]!;
    total += force;
    upper += force * sidePart(nodes.up[i]!);
    left += force * sidePart(nodes.across[i]!);
  }
  return { upper: upper / total, lower: 1 - upper / total, right: 1 - left / total, left: left / total };
}

function lipShares(energy: SeatEnergy): { upper: number; lower: number } {
  const nodes: RimNodes = energy.nodes;
  let total = 0;
  let upper = 0;
  for (let i = 0; i < nodes.count; i++) {
    const force = energy.pressure[i]! * energy.normalZ[i]! * nodes.area[i]!;
    total += force;
    if (nodes.underUpperLip[i] === 1) upper += force;
  }
  return { upper: upper / total, lower: 1 - upper / total };
}

/** Part of the annulus that presses; sums of areas that differ from the whole by rounding alone are the whole. */
function contactPart(energy: SeatEnergy, annulus: number): number {
  const part = touchingArea(energy) / annulus;
  return part > 1 - AREA_ROUNDING ? 1 : part;
}

function greatestPressure(energy: SeatEnergy): number {
  const { nodes } = energy;
  let greatest = 0;
  for (let i = 0; i < nodes.count; i++) {
    if (nodes.area[i]! > 0 && energy.pressure[i]! > greatest) greatest = energy.pressure[i]!;
  }
  return greatest;
}

/** Area of the nodes that press, mm². */
function touchingArea(energy: SeatEnergy): number {
  const { nodes } = energy;
  let area = 0;
  for (let i = 0; i < nodes.count; i++) if (energy.pressure[i]! > 0) area += nodes.area[i]!;
  return area;
}

const sidePart = (coordinate: number): number => (coordinate > 0 ? 1 : coordinate < 0 ? 0 : 0.5);
