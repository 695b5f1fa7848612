/** How the charts say numbers: for the line under a chart, the hidden table and the sliders. */
import { NINETY_FIVE_PERCENT } from '../../core/bands';
import { isNote, printedNote } from '../../core/pitch';
import { isAngleSeen } from '../../core/readings';
import type { Posture } from '../../print/instrumentWords';
import { sayChart } from '../../words/chart';
import { fixed } from '../../words/numbers';
import type { AnglePoint, Travel, TravelPoint } from './props';

export function noteLabel(label: string): string {
  return isNote(label) ? printedNote(label) : label;
}

/** A note of a chart by name, with its way where it has one. */
export function pointName({ label, direction }: Pick<AnglePoint | TravelPoint, 'label' | 'direction'>): string {
  return sayChart('point', { note: noteLabel(label), direction: direction ?? 'both' });
}

/** What an angle is called by how the instrument is held: "Bell up", "Head to the left". */
export const angleTitle = (posture: Posture, angle: 'elevation' | 'lateral'): string => sayChart(`${posture}-${angle}`);

/** "3.0° up", "1.2° left"; what rounds to nothing has no side. */
export function sided(value: number, unit: string, along: 'up' | 'right'): string {
  const isNone = Number(Math.abs(value).toFixed(1)) === 0;
  return sayChart(along === 'up' ? 'sidedUp' : 'sidedRight', {
    size: `${fixed(Math.abs(value), 1)}${unit}`,
    way: isNone ? 'none' : value < 0 ? 'minus' : 'plus',
  });
}

/** A number with its sign, as in tables: "+3.0", "−1.2", "0.0". */
export function signed(value: number, decimals = 1): string {
  const size = fixed(Math.abs(value), decimals);
  return Number(Math.abs(value).toFixed(decimals)) === 0 ? size : `${value < 0 ? '−' : '+'}${size}`;
}

export function travelWords(travel: Travel): string {
  return sayChart('both', { up: sided(travel.upMm, '\u00a0mm', 'up'), right: sided(travel.rightMm, '\u00a0mm', 'right') });
}

/** "B♭5: 3.1 mm up, 1.2 mm left". */
export const pointTravelWords = (point: TravelPoint): string => sayChart('pointTravel', { point: pointName(point), travel: travelWords(point) });

/** One sentence on a note of the angle chart; ± is half a 95 % band. */
export function angleSentence(point: AnglePoint): string {
  const { predicted, band, measured } = point;
  const up = measured && isAngleSeen(measured.sdDeg) ? withSd(measured.elevationDeg, measured.sdDeg || undefined, 'up') : null;
  const right = measured && isAngleSeen(measured.lateralSdDeg) ? withSd(measured.lateralDeg, measured.lateralSdDeg || undefined, 'right') : null;
  return sayChart('pointAngles', {
    point: pointName(point),
    predicted: sayChart('both', { up: withSd(predicted.elevationDeg, band?.elevationSdDeg, 'up'), right: withSd(predicted.lateralDeg, band?.lateralSdDeg, 'right') }),
    seen: up === null && right === null ? 'no' : 'yes',
    measured: up === null || right === null ? (up ?? right ?? '') : sayChart('both', { up, right }),
  });
}

/** The word beside the zero line, one or two lines of it. */
export const homeLines = (): readonly string[] => sayChart('home').split('\n');

/** Room for that word, px. */
export const homeRoomPx = (): number => Math.max(LEAST_HOME_PX, BESIDE_LINE_PX + CHARACTER_PX * Math.max(...homeLines().map(({ length }) => length)));

const LEAST_HOME_PX = 44;
const BESIDE_LINE_PX = 8;
/** At 12 px a letter takes about this much. */
const CHARACTER_PX = 6.5;

function withSd(value: number, sd: number | undefined, along: 'up' | 'right'): string {
  return sided(value, sd === undefined ? '°' : `° ± ${fixed(sd * NINETY_FIVE_PERCENT, 1)}°`, along);
}
