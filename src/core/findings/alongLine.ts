/** Where the rim stands along its line of travel at each note, for the picture: places counted from home, and the monotone fit through them. */
import { monotoneFit } from './isotonic';
import type { WayReadings } from './readingsOfWay';

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
  const fit = monotoneFit(places, way.notes.map(({ sdMm }) => 1 / sdMm ** 2), 'rising');
  return way.notes.map(({ note, midi, sdMm }, index) => ({
    note,
    midi,
    alongMm: places[index]!,
    sdMm,
    monotoneMm: fit.values[index]!,
  }));
}
