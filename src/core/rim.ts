/** The rim: an annulus with a rounded contour, its lip line, and the nodes at which pressure is summed over it. */
import { gaussLegendre } from './gauss';
import { tooTight } from './formChecks';
import type { RimSpec } from './specs';
import { sayCore } from '../words/core';
import { saidNumber } from '../words/numbers';

/** How fine the sum over the rim is: rings (Gauss in r²) and azimuths a quarter turn (Gauss in each arc between breaks). */
export interface RimSampling {
  readonly rings: number;
  readonly azimuthsPerQuarter: number;
}

/** The fixed net on which a cold search comes in; what it finds is balanced anew on a contact net. */
export const WIDE_SAMPLING: RimSampling = { rings: 3, azimuthsPerQuarter: 8 };

/** For bands: on the ready-made cases a change from home errs by 0.05° (root mean square), at most by 0.33°. */
export const COARSE_SAMPLING: RimSampling = { rings: 1, azimuthsPerQuarter: 6 };

/** Nodes on the rim in its own frame: `across` to the player's left, `up`, `recede` toward the bell, mm; area in mm². */
export interface RimNodes {
  /** Nodes in use; the arrays may have room for more. */
  readonly count: number;
  readonly across: Float64Array;
  readonly up: Float64Array;
  readonly recede: Float64Array;
  readonly area: Float64Array;
  /** 1 where the node lies under the upper lip, 0 under the lower. */
  readonly underUpperLip: Uint8Array;
  readonly totalArea: number;
}

/** How far the rim recedes toward the bell at a radius, mm ≥ 0: zero on the high-point circle. */
export function contourHeight(rim: RimSpec, radiusMm: number): number {
  if (rim.contourRadiusMm === null) return 0;
  const away = radiusMm - rim.highPointDiameterMm / 2;
  return rim.contourRadiusMm - Math.sqrt(Math.max(0, rim.contourRadiusMm ** 2 - away * away));
}

/** How fast `contourHeight` grows with the radius. */
export function contourSlope(rim: RimSpec, radiusMm: number): number {
  if (rim.contourRadiusMm === null) return 0;
  const away = radiusMm - rim.highPointDiameterMm / 2;
  return away / Math.sqrt(Math.max(Number.MIN_VALUE, rim.contourRadiusMm ** 2 - away * away));
}

/** Area of the annulus as projected on its plane, mm². */
export function annulusArea(rim: RimSpec): number {
  return (Math.PI / 4) * (rim.outerDiameterMm ** 2 - rim.innerDiameterMm ** 2);
}

/** Throws RangeError, naming the field, where the numbers make no rim. */
export function checkRim(rim: RimSpec): void {
  const { innerDiameterMm: inner, outerDiameterMm: outer, highPointDiameterMm: high, contourRadiusMm: contour } = rim;
  if (!(inner > 0)) throw tooTight('rim.innerDiameterMm', saidNumber(inner), sayCore('above', { low: 0 }));
  if (!(outer > inner)) throw tooTight('rim.outerDiameterMm', saidNumber(outer), sayCore('aboveInner', { inner }));
  if (!(high >= inner && high <= outer)) {
    throw tooTight('rim.highPointDiameterMm', saidNumber(high), sayCore('innerToOuter', { inner, outer }));
  }
  const needed = Math.max(high - inner, outer - high) / 2;
  if (contour !== null && !(contour >= needed)) {
    throw tooTight('rim.contourRadiusMm', saidNumber(contour), sayCore('contour', { least: needed }));
  }
}

/**
 * Lays nodes on the rim. `lipLineMm` is the height of the lip line above the rim's centre; with `lipsAlike` it is no break and the
 * nodes are symmetric up–down and left–right to the last bit.
 */
export function layRimNodes(rim: RimSpec, lipLineMm: number, lipsAlike: boolean, sampling: RimSampling): RimNodes {
  const inner2 = (rim.innerDiameterMm / 2) ** 2;
  const outer2 = (rim.outerDiameterMm / 2) ** 2;
  const radial = gaussLegendre(sampling.rings);
  const across: number[] = [];
  const up: number[] = [];
  const recede: number[] = [];
  const area: number[] = [];
  radial.nodes.forEach((node, ring) => {
    const radius = Math.sqrt(inner2 + ((outer2 - inner2) * (1 + node)) / 2);
    const height = contourHeight(rim, radius);
    // dA = r dr dφ = ½ d(r²) dφ.
    const ringWeight = ((outer2 - inner2) / 4) * radial.weights[ring]!;
    for (const arc of quarterArcs(lipsAlike ? null : lipLineMm / radius, sampling.azimuthsPerQuarter)) {
      // Each arc of the right-hand-side half is mirrored, so that left and right agree to the last bit.
      for (const side of [1, -1]) {
        across.push(side * radius * arc.cos);
        up.push(radius * arc.sin);
        recede.push(height);
        area.push(ringWeight * arc.weight);
      }
    }
  });
  return {
    count: area.length,
    across: Float64Array.from(across),
    up: Float64Array.from(up),
    recede: Float64Array.from(recede),
    area: Float64Array.from(area),
    underUpperLip: Uint8Array.from(up, (height) => (height >= lipLineMm ? 1 : 0)),
    totalArea: area.reduce((sum, each) => sum + each, 0),
  };
}

/** Nodes from the bottom (−π/2) over the side to the top (π/2), broken at the horizontal and, if given, at the lip line. */
function quarterArcs(lipSine: number | null, perQuarter: number): { cos: number; sin: number; weight: number }[] {
  const quarter = Math.PI / 2;
  if (lipSine === null || Math.abs(lipSine) >= 1) {
    const rule = gaussLegendre(perQuarter);
    const upper = rule.nodes.map((node, index) => ({
      cos: Math.cos((quarter * (1 + node)) / 2),
      sin: Math.sin((quarter * (1 + node)) / 2),
      weight: (quarter / 2) * rule.weights[index]!,
    }));
    return upper.concat(upper.map((node) => ({ ...node, sin: -node.sin })));
  }
  const breaks = [-quarter, 0, quarter];
  const lipAngle = Math.asin(lipSine);
  if (Math.abs(lipAngle) > 1e-9) breaks.push(lipAngle);
  breaks.sort((a, b) => a - b);
  return breaks.slice(1).flatMap((to, index) => {
    const from = breaks[index]!;
    const count = Math.max(2, Math.ceil((perQuarter * (to - from)) / quarter + 1));
    const rule = gaussLegendre(Math.min(count, perQuarter));
    return rule.nodes.map((node, k) => {
      const angle = from + ((to - from) * (1 + node)) / 2;
      return { cos: Math.cos(angle), sin: Math.sin(angle), weight: ((to - from) / 2) * rule.weights[k]! };
    });
  });
}

/** Evenly spaced azimuths from the player's left over the top, ring by ring: for reading off peak, contact and the ring's colours. */
export function layUniformNodes(rim: RimSpec, lipLineMm: number, azimuths: number, rings: number): RimNodes {
  const inner2 = (rim.innerDiameterMm / 2) ** 2;
  const outer2 = (rim.outerDiameterMm / 2) ** 2;
  const radial = gaussLegendre(rings);
  const count = azimuths * rings;
  const across = new Float64Array(count);
  const up = new Float64Array(count);
  const recede = new Float64Array(count);
  const area = new Float64Array(count);
  for (let ring = 0; ring < rings; ring++) {
    const radius = Math.sqrt(inner2 + ((outer2 - inner2) * (1 + radial.nodes[ring]!)) / 2);
    for (let azimuth = 0; azimuth < azimuths; azimuth++) {
      const i = ring * azimuths + azimuth;
      const angle = (2 * Math.PI * azimuth) / azimuths;
      across[i] = radius * Math.cos(angle);
      up[i] = radius * Math.sin(angle);
      recede[i] = contourHeight(rim, radius);
      area[i] = (((outer2 - inner2) / 4) * radial.weights[ring]! * 2 * Math.PI) / azimuths;
    }
  }
  return {
    count,
    across,
    up,
    recede,
    area,
    underUpperLip: Uint8Array.from(up, (height) => (height >= lipLineMm ? 1 : 0)),
    totalArea: area.reduce((sum, each) => sum + each, 0),
  };
}
