/** How the charts say numbers: for the line under a chart, the hidden table and the sliders. */
import { NINETY_FIVE_PERCENT } from '../../core/bands';
import { isNote, printedNote } from '../../core/pitch';
import { isAngleSeen } from '../../core/readings';
import type { AnglePoint, Travel, TravelPoint } from './props';

export function noteLabel(label: string): string {
  return isNote(label) ? printedNote(label) : label;
}

/** A note of a chart by name, with its way where it has one. */
export function pointName({ label, direction }: Pick<AnglePoint | TravelPoint, 'label' | 'direction'>): string {
  return `${noteLabel(label)}${direction == null ? '' : direction === 'up' ? ', ascending' : ', descending'}`;
}

/** "3.0° up", "1.2° left"; what rounds to nothing has no side. */
export function sided(value: number, unit: string, positive: string, negative: string): string {
  const size = Math.abs(value).toFixed(1);
  return size === '0.0' ? `0.0${unit}` : `${size}${unit} ${value < 0 ? negative : positive}`;
}

/** A number with its sign, as in tables: "+3.0", "−1.2", "0.0". */
export function signed(value: number, decimals = 1): string {
  const size = Math.abs(value).toFixed(decimals);
  return Number(size) === 0 ? size : `${value < 0 ? '−' : '+'}${size}`;
}

export function travelWords(travel: Travel): string {
  return `${sided(travel.upMm, '\u00a0mm', 'up', 'down')}, ${sided(travel.rightMm, '\u00a0mm', 'right', 'left')}`;
}

/** One sentence on a note of the angle chart; ± is half a 95 % band. */
export function angleSentence(point: AnglePoint): string {
  const { predicted, band, measured } = point;
  const first = `${pointName(point)}: predicted ${withSd(predicted.elevationDeg, band?.elevationSdDeg, 'up', 'down')}, ${withSd(predicted.lateralDeg, band?.lateralSdDeg, 'right', 'left')}`;
  if (!measured) return `${first}.`;
  const seen = [
    ...(isAngleSeen(measured.sdDeg) ? [withSd(measured.elevationDeg, measured.sdDeg || undefined, 'up', 'down')] : []),
    ...(isAngleSeen(measured.lateralSdDeg) ? [withSd(measured.lateralDeg, measured.lateralSdDeg || undefined, 'right', 'left')] : []),
  ];
  return seen.length === 0 ? `${first}.` : `${first}; measured ${seen.join(', ')}.`;
}

function withSd(value: number, sd: number | undefined, positive: string, negative: string): string {
  return sided(value, sd === undefined ? '°' : `° ± ${(sd * NINETY_FIVE_PERCENT).toFixed(1)}°`, positive, negative);
}
