/** Pushes up, pulls down or goes to the side when ascending: the sign of the upward part of the travel, where that is sure. */
import { FOUR_TIMES_IN_FIVE, NORMAL_95 } from './distributions';
import type { Finding, WhichWay } from './findings';
import { largerSd, lineOfTravel, pitchSlope, takesAtEnds } from './lineOfTravel';
import { type WayReadings, evidenceOf } from './readingsOfWay';

/** A line whose whole 95 % interval lies this near to level is called sideways, degrees: its upward part is less than half of the travel. */
export const SIDEWAYS_WITHIN_DEG = 30;

/** Needs a line of travel; then `to-the-side` where the line is surely near level, else by the sign of the rise per octave at 95 %. */
export function whichWay(way: WayReadings): Finding<WhichWay> {
  const line = lineOfTravel(way);
  if (line.kind === 'cannot-tell') return line;
  const evidence = evidenceOf(way);
  const fromLevelDeg = 90 - Math.abs(line.fromUpDeg.value);
  const { low, high } = line.fromUpDeg;
  const farthestDeg = Math.max(...[low, high].map((end) => Math.abs(90 - Math.abs(end))));
  if (farthestDeg <= SIDEWAYS_WITHIN_DEG) return { kind: 'told', evidence, way: 'to-the-side' };
  if (line.upMmPerOctave.low > 0) return { kind: 'told', evidence, way: 'pushes-up' };
  if (line.upMmPerOctave.high < 0) return { kind: 'told', evidence, way: 'pulls-down' };
  const { notes } = way;
  return {
    kind: 'cannot-tell',
    reason: 'too-unsure',
    needs: [{ notes: [notes[0]!.note, notes[notes.length - 1]!.note], takes: takesToTell(way, fromLevelDeg), of: 'travel' }],
  };
}

/** As the travel lies so far: until its rise is surely not nothing, or its line surely near level, whichever comes first. */
function takesToTell(way: WayReadings, fromLevelDeg: number): number {
  const slope = pitchSlope(way.notes);
  const whole = Math.hypot(slope.up, slope.right);
  // What must be told apart from the rise as seen: nothing at all, or the edge of what is called sideways.
  const toEdge = whole * Math.sin((Math.max(0, SIDEWAYS_WITHIN_DEG - Math.abs(fromLevelDeg)) * Math.PI) / 180);
  const deviations = NORMAL_95 + FOUR_TIMES_IN_FIVE;
  const rise = Math.abs(slope.up);
  return rise > toEdge ? takesAtEnds(way.notes, rise, deviations, ({ sdMm }) => sdMm) : takesAtEnds(way.notes, toEdge, deviations, largerSd);
}
