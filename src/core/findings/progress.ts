/** Travel, follow ratio and ease over a player's lessons, ready to be drawn: places on a time axis and what is known at each. */
import { tooTight } from '../formChecks';
import type { PlayerSpec, ReadingSpec } from '../specs';
import type { Estimate, Finding, Findings, FollowRatio, LineOfTravel } from './findings';

export interface LessonFindings {
  readonly id: string;
  /** As in 2026-03-01; absent where nobody wrote it down. */
  readonly date?: string | undefined;
  readonly readings: readonly Pick<ReadingSpec, 'ease'>[];
  /** Null where nothing could be worked out. */
  readonly findings: Pick<Findings, 'travel' | 'follow'> | null;
}

export interface ProgressPoint {
  readonly id: string;
  readonly date: string | null;
  /** Place on the time axis: days from the first dated lesson, or, where no two lessons have different dates, the lesson's number from 0. */
  readonly at: number;
  /** Along the line of travel, mm per octave, ascending; null: not told. */
  readonly travelMmPerOctave: Estimate | null;
  readonly followLateral: Estimate | null;
  readonly followElevation: Estimate | null;
  /** Mean of the lesson's readings, 1 to 5; null where nobody asked. No interval: easy and hard notes differ by more than chance. */
  readonly ease: { readonly value: number; readonly readings: number } | null;
}

/** In the order given, oldest first. An undated lesson stands between its neighbours. Throws RangeError for a date that is none. */
export function progressOf(lessons: readonly LessonFindings[]): ProgressPoint[] {
  const at = placesInTime(lessons.map(({ date }) => (date === undefined ? null : dayNumber(date))));
  return lessons.map(({ id, date, readings, findings }, index) => ({
    id,
    date: date ?? null,
    at: at[index]!,
    travelMmPerOctave: findings && travelOf(findings.travel),
    followLateral: findings && ratioOf(findings.follow.lateral),
    followElevation: findings && ratioOf(findings.follow.elevation),
    ease: meanEase(readings.flatMap(({ ease }) => (ease === undefined ? [] : [ease]))),
  }));
}

/** The lessons of a player for `progressOf`, with what was found in each. */
export function lessonFindings(player: PlayerSpec, findingsOf: (lessonId: string) => LessonFindings['findings']): LessonFindings[] {
  return player.lessons.map(({ id, date, readings }) => ({ id, date, readings, findings: findingsOf(id) }));
}

/** Days since 1970-01-01 of an ISO 8601 calendar date (Gregorian), by counting from March, so that the leap day ends the year. */
export function dayNumber(date: string): number {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date)?.slice(1).map(Number);
  const [year, month, day] = parts ?? [];
  if (year === undefined || month === undefined || day === undefined || month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) {
    throw tooTight('date', date, 'a day as in 2026-03-01');
  }
  const fromMarch = month > 2 ? month - 3 : month + 9;
  const marchYear = month > 2 ? year : year - 1;
  const leapDays = Math.floor(marchYear / 4) - Math.floor(marchYear / 100) + Math.floor(marchYear / 400);
  return marchYear * 365 + leapDays + Math.floor((153 * fromMarch + 2) / 5) + day - 1 - DAYS_TO_1970;
}

/** Days from 0000-03-01 to 1970-01-01. */
const DAYS_TO_1970 = 719468;

function daysIn(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

function placesInTime(days: readonly (number | null)[]): number[] {
  const dated = days.filter((day) => day !== null);
  const first = Math.min(...dated);
  const span = Math.max(...dated) - first;
  if (dated.length < 2 || span === 0) return days.map((_, index) => index);
  const step = span / (days.length - 1);
  return days.map((day, index) => {
    if (day !== null) return day - first;
    const before = days.findLastIndex((other, at) => at < index && other !== null);
    const after = days.findIndex((other, at) => at > index && other !== null);
    if (before < 0) return days[after]! - first - step * (after - index);
    if (after < 0) return days[before]! - first + step * (index - before);
    return days[before]! - first + ((days[after]! - days[before]!) * (index - before)) / (after - before);
  });
}

function travelOf(travel: Findings['travel']): Estimate | null {
  const ascending: Finding<LineOfTravel> | undefined = (travel.find(({ direction }) => direction !== 'down') ?? travel[0])?.line;
  return ascending?.kind === 'told' ? ascending.mmPerOctave : null;
}

const ratioOf = (follow: Finding<FollowRatio>): Estimate | null => (follow.kind === 'told' ? follow.ratio : null);

function meanEase(eases: readonly number[]): ProgressPoint['ease'] {
  const { length } = eases;
  return length === 0 ? null : { value: eases.reduce((sum, ease) => sum + ease, 0) / length, readings: length };
}
