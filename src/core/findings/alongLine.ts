/** Where the rim stands along its line of travel at each note, for the picture: places counted from home, and the monotone fit through them. */
import { monotoneFit } from './isotonic';
import { type WayReadings, sdAlong } from './readingsOfWay';

export interface AlongNote {
  readonly note: string;
  readonly midi: number;
  /** From home, + the way of rising pitch. */
  readonly alongMm: number;
  readonly sdMm: number;
  /** The nearest travel that never turns back. */
  readonly monotoneMm: number;
}

/** Low to high. `fromUpDeg` is the line's direction as in LineOfTravel. */
export function alongLine(way: WayReadings, fromUpDeg: number): AlongNote[] {
  const angle = (fromUpDeg * Math.PI) / 180;
  const places = way.notes.map(({ upMm, rightMm }) => upMm * Math.cos(angle) + rightMm * Math.sin(angle));
  const sds = way.notes.map((note) => sdAlong(note, angle));
  const fit = monotoneFit(places, sds.map((sd) => 1 / sd ** 2), 'rising');
  return way.notes.map(({ note, midi }, index) => ({
    note,
    midi,
    alongMm: places[index]!,
    sdMm: sds[index]!,
    monotoneMm: fit.values[index]!,
  }));
}
