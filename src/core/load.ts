/** What a pose does to the lips: shares of force, contact, peak, the pressure round the rim. Definitions: docs/model.md "Exactly". */
import type { HalfShares, LoadDetail, RimLoad, SeatReason } from './analysis';
import type { GapFace } from './gapFace';
import { type RimNodes, annulusArea, layRimNodes, layUniformNodes } from './rim';
import type { SeatFound, SeatSetup } from './seatAnswer';
import { BEYOND_REACH, BY_ELEVATION, BY_LATERAL, BY_Z, KPA_PER_NEWTON_PER_SQUARE_MM, SUMMED, type SeatEnergy, createSeatEnergy } from './seatEnergy';

/** Azimuths of `ringPressureKPa`; index i is at angle 2πi/RING_AZIMUTHS from the player's left over the top. */
export const RING_AZIMUTHS = 64;
const RING_RINGS = 3;
/** The peak is read off a finer net than the seat is solved on. */
const FINE_AZIMUTHS = 256;
const FINE_RINGS = 8;
/**
 * Where the net of the peak says little the seat is asked of this one as well: where it is the very net that the seat was balanced on, and where
 * fewer than FEW_POINTS of its 2048 bear the force.
 */
const OTHER_AZIMUTHS = 600;
const OTHER_RINGS = 18;
const FEW_POINTS = 64;
/** At a glance, gaps read off within this distance will do, mm: what the second order leaves out moves a pressure by some thousandths, by estimate. */
const GLANCE_REACH_MM = 0.5;
/** The lip line breaks this net, so that the shares by lip are sharp. */
const LIP_SAMPLING = { rings: 4, azimuthsPerQuarter: 10 };

/**
 * A seat is answered only where another net, as a rule that of the peak, agrees with it to this part of F and F × radius. Mouth-like records agree to some
 * thousandths; a touch much smaller than the distance between nodes does not.
 */
const TRUSTED_PART = 0.05;
/** Rounding of a sum of some hundred areas, as a part of it. */
const AREA_ROUNDING = 1e-9;

export interface LoadReader {
  /**
   * The load at an answered pose with its centre over (x, y); `balanced` is the solver's energy, still standing at that pose. A
   * reason instead where another net does not bear the seat out: a stiffening lip squeezed to nothing between the nodes that the seat
   * was balanced on, or (in full detail) a force or moment that differs by more than TRUSTED_PART.
   */
  read(
    balanced: SeatEnergy, x: number, y: number, seat: SeatFound, forceN: number, held: boolean, detail?: LoadDetail,
  ): RimLoad | SeatReason;
  /** Puts the lower jaw elsewhere. */
  moveLower(jaw: GapFace): void;
}

export function createLoadReader(setup: SeatSetup): LoadReader {
  const { arch, rim, lips } = setup;
  const upper = arch.upper.placed;
  const lower = arch.lower?.placed ?? null;
  let standing = lower;
  const netOf = (nodes: RimNodes): SeatEnergy => createSeatEnergy(upper, standing, lips, nodes);
  // One for either question, so that a glance finds gaps read off close by; made when first asked for.
  const ringNodes = layUniformNodes(rim, setup.lipLineMm, RING_AZIMUTHS, RING_RINGS);
  const ringNets: { follow: SeatEnergy | null; held: SeatEnergy | null } = { follow: null, held: null };
  let fullNets: { readonly fine: SeatEnergy; readonly byLip: SeatEnergy } | null = null;
  let otherNet: SeatEnergy | null = null;
  const area = annulusArea(rim);
  return {
    moveLower(jaw) {
      for (const net of [ringNets.follow, ringNets.held, fullNets?.fine, fullNets?.byLip, otherNet]) net?.moveLower(jaw);
      standing = jaw;
    },
    read(balanced, x, y, seat, forceN, held, detail = 'full') {
      const seen = (net: SeatEnergy): boolean => net.evaluate(x, y, seat.z, seat.elevation, seat.lateral, false);
      const glimpsed = (net: SeatEnergy): boolean => {
        const outcome = net.sumNear(x, y, seat.z, seat.elevation, seat.lateral, GLANCE_REACH_MM, false);
        return outcome === BEYOND_REACH ? seen(net) : outcome === SUMMED;
      };
      const ringNet = (ringNets[held ? 'held' : 'follow'] ??= netOf(ringNodes));
      if (!(detail === 'full' ? seen(ringNet) : glimpsed(ringNet))) return 'rim-inside-tooth';
      let shareNet = ringNet;
      let ring = ringNet;
      let peak = Math.max(greatestPressure(balanced), greatestPressure(ringNet));
      if (detail === 'full') {
        fullNets ??= {
          fine: netOf(layUniformNodes(rim, setup.lipLineMm, FINE_AZIMUTHS, FINE_RINGS)),
          byLip: netOf(layRimNodes(rim, setup.lipLineMm, false, LIP_SAMPLING)),
        };
        if (!seen(fullNets.fine) || !seen(fullNets.byLip)) return 'rim-inside-tooth';
        const { fine } = fullNets;
        if (!bearsOut(fine, seat, forceN, rim.outerDiameterMm / 2)) return 'touch-too-small';
        if (balanced.nodes.count === fine.nodes.count || bearingPoints(fine) < FEW_POINTS) {
          otherNet ??= netOf(layUniformNodes(rim, setup.lipLineMm, OTHER_AZIMUTHS, OTHER_RINGS));
          if (!seen(otherNet)) return 'rim-inside-tooth';
          if (!bearsOut(otherNet, seat, forceN, rim.outerDiameterMm / 2)) return 'touch-too-small';
        }
        shareNet = fullNets.byLip;
        ring = fullNets.fine;
        // The peak is by definition that of this net; a touch too light for it is read off the net it was balanced on.
        peak = greatestPressure(fullNets.fine) || greatestPressure(balanced);
      }
      // A touch too light for the shares' own net is still seen by the net it was balanced on.
      if (touchingArea(shareNet) === 0) shareNet = balanced;
      const meanPressure = forceN / area;
      return {
        share: halfShares(shareNet),
        lipShare: lipShares(shareNet),
        contactFraction: contactPart(balanced, area),
        peakOverMeanPressure: peak / meanPressure,
        meanPressureKPa: meanPressure * KPA_PER_NEWTON_PER_SQUARE_MM,
        momentNmm: held
          ? { elevation: seat.momentElevation, lateral: seat.momentLateral }
          : { elevation: 0, lateral: 0 },
        ringPressureKPa: ringPressure(ring),
      };
    },
  };
}

/** Whether another net agrees with the force and moments that a seat was balanced to. */
function bearsOut(net: SeatEnergy, seat: SeatFound, forceN: number, radiusMm: number): boolean {
  const trusted = TRUSTED_PART * forceN;
  return (
    Math.abs(net.value[BY_Z]! + forceN) <= trusted &&
    Math.abs(net.value[BY_ELEVATION]! - seat.momentElevation) <= trusted * radiusMm &&
    Math.abs(net.value[BY_LATERAL]! - seat.momentLateral) <= trusted * radiusMm
  );
}

/** Radial mean of the pressure at RING_AZIMUTHS azimuths of an even net that has a multiple of them, kPa. */
function ringPressure(net: SeatEnergy): Float64Array {
  const { nodes, pressure } = net;
  const ring = new Float64Array(RING_AZIMUTHS);
  const azimuths = azimuthsOf(nodes);
  const stride = azimuths / RING_AZIMUTHS;
  const scale = (azimuths / nodes.totalArea) * KPA_PER_NEWTON_PER_SQUARE_MM;
  for (let i = 0; i < nodes.count; i += stride) {
    ring[(i % azimuths) / stride]! += pressure[i]! * nodes.area[i]! * scale;
  }
  return ring;
}

const azimuthsOf = (nodes: RimNodes): number => (nodes.count === RING_AZIMUTHS * RING_RINGS ? RING_AZIMUTHS : FINE_AZIMUTHS);

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

/** How many points of a net bear the force, counted as if all bore alike: (Σf)² / Σf². */
function bearingPoints(energy: SeatEnergy): number {
  const { nodes, pressure } = energy;
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < nodes.count; i++) {
    const force = pressure[i]! * nodes.area[i]!;
    sum += force;
    squares += force * force;
  }
  return squares === 0 ? 0 : (sum * sum) / squares;
}

/** Area of the nodes that press, mm². */
function touchingArea(energy: SeatEnergy): number {
  const { nodes } = energy;
  let area = 0;
  for (let i = 0; i < nodes.count; i++) if (energy.pressure[i]! > 0) area += nodes.area[i]!;
  return area;
}

const sidePart = (coordinate: number): number => (coordinate > 0 ? 1 : coordinate < 0 ? 0 : 0.5);
