/** How exact a seat is made: in full for what stands, at a glance for what moves, coarsely for the draws of a band. */
import type { LoadDetail } from './analysis';

/** How near to balance an answer is brought, and how near to it net and gaps must have been made. */
export interface Closeness {
  /** Force and moments are balanced to this part of F and F × radius; at rounding's limit `enough` still counts. */
  readonly balanced: number;
  readonly enough: number;
  /** The fine net is laid anew whenever the pose has moved this far since, mm at the rim. */
  readonly relayMm: number;
  /** Gaps are read off anew where a node has moved this far since. docs/numerics.md §7. */
  readonly readOffMm: number;
  /** Until a step is shorter than this the net and the gaps of a place near by will do, mm at the rim. */
  readonly comingMm: number;
}

/**
 * Ten times better balanced than what is promised; what an answer then owes to where the search began lies below 1e-6°
 * (tests/unit/core/analyse.test.ts).
 */
export const IN_FULL: Closeness = { balanced: 1e-10, enough: 9e-10, relayMm: 1e-6, readOffMm: 1e-4, comingMm: 0.01 };
/** For the moving picture: one net, laid and read off once. Within 0.01° of the full answer (tests/reference/glance.test.ts). */
const AT_A_GLANCE: Closeness = { balanced: 1e-5, enough: 1e-4, relayMm: 0.05, readOffMm: 0.05, comingMm: 0.05 };
/** On a coarse net, whose angles are right to about 0.1°: what is left moves the angle by some thousandths of a degree. */
export const COARSELY: Closeness = { balanced: 1e-4, enough: 1e-3, relayMm: 1e-6, readOffMm: 0.3, comingMm: 0.01 };

/** What a warm search tries in turn: where a glance does not get there, all that can be done is. */
export function closenesses(exactly: Closeness, detail: LoadDetail): readonly Closeness[] {
  return exactly === IN_FULL && detail === 'glance' ? GLANCE_FIRST : [exactly];
}

const GLANCE_FIRST = [AT_A_GLANCE, IN_FULL] as const;
