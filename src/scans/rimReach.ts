/** Where a player's rim gets to before a scanned jaw, so that its gaps there can be measured beforehand. */
import { homePlace } from '../core/analyse';
import { frontalPosition } from '../core/frame';
import type { PlayerRecord } from '../core/specs';
import type { RimReach } from './scanDesk';
import type { JawName } from './startView';

/** Travel is hardly ever longer, mm: our judgement; further out gaps are measured when they are first needed. */
const TRAVEL_MM = 7;
/** A lip is not pressed thinner than this part of itself at any usual force: our judgement. */
const PRESSED_PART = 0.3;
/** The rim's parts that do not touch stand off by more than a lip, mm. */
const BEYOND_LIP_MM = 3;

export function rimReach(record: PlayerRecord, jaw: JawName): RimReach {
  const { upMm, rightMm } = homePlace(record);
  const { x, y } = frontalPosition(upMm, rightMm);
  const openingMm = 'single' in record.arch || jaw === 'upper' ? 0 : record.arch.jaw.openingMm;
  const lips = [record.lips.upper.thicknessMm, record.lips.lower.thicknessMm];
  return {
    x,
    y: y + openingMm,
    aroundMm: record.rim.outerDiameterMm / 2 + TRAVEL_MM,
    gapsMm: [PRESSED_PART * Math.min(...lips), Math.max(...lips) + BEYOND_LIP_MM],
  };
}
