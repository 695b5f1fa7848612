/** The full scale of the pressure colours: a round number that the seated rim reaches along the path but seldom passes. */
import type { Analysis } from '../core/analysis';

/** kPa; what lies above has the last colour. Held still may pass it by far: that is the point of showing it. */
export function pressureScaleKPa(analysis: Analysis): number {
  const seats = [analysis.home.follow, ...analysis.readings.map((reading) => reading.follow)];
  const peak = Math.max(...seats.map((seat) => Math.max(...seat.load.ringPressureKPa)));
  const mean = Math.max(...seats.map((seat) => seat.load.meanPressureKPa));
  return roundUp(Math.max(1, peak * 1.15, mean * 2));
}

function roundUp(value: number): number {
  const decade = 10 ** Math.floor(Math.log10(value));
  return decade * (ROUND_STEPS.find((step) => step * decade >= value) ?? 10);
}

const ROUND_STEPS = [1, 1.5, 2, 3, 4, 5, 6, 8];
