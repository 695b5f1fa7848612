/** Numbers to pixels: linear scales, round ticks, domains, label placing. Pure functions. */
import { fixed } from '../../words/numbers';

export interface Scale {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

export function toPixels(scale: Scale, value: number): number {
  const [from0, from1] = scale.from;
  const [to0, to1] = scale.to;
  return from1 === from0 ? (to0 + to1) / 2 : to0 + ((value - from0) / (from1 - from0)) * (to1 - to0);
}

export function fromPixels(scale: Scale, pixels: number): number {
  const [from0, from1] = scale.from;
  const [to0, to1] = scale.to;
  return to1 === to0 ? from0 : from0 + ((pixels - to0) / (to1 - to0)) * (from1 - from0);
}

/** The smallest of 1, 2, 5 × a power of ten that cuts `span` into at most `most` parts. Throws unless both are above 0. */
export function roundStep(span: number, most: number): number {
  if (!(span > 0) || !(most > 0)) throw new RangeError(`roundStep: span ${span}, parts ${most}; allowed: both above 0`);
  const rough = span / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  // The small allowance keeps a span of exactly 10 in 5 parts at a step of 2.
  const factor = [1, 2, 5, 10].find((candidate) => candidate * power >= rough * (1 - 1e-9)) ?? 10;
  return factor * power;
}

/** Multiples of a round step within the domain, both ends included; exact zeros stay zero. */
export function ticks(domain: readonly [number, number], most: number): number[] {
  const step = roundStep(domain[1] - domain[0], most);
  const first = Math.ceil(domain[0] / step - 1e-9);
  const last = Math.floor(domain[1] / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, index) => {
    const value = (first + index) * step;
    return value === 0 ? 0 : Number(value.toPrecision(12));
  });
}

/** A domain that holds all values and zero, has some air, is at least `least` wide and ends on round numbers. */
export function roundDomain(values: readonly number[], least: number): [number, number] {
  let low = Math.min(0, ...values);
  let high = Math.max(0, ...values);
  const air = Math.max(least - (high - low), 0.16 * (high - low)) / 2;
  [low, high] = [low - air, high + air];
  const step = roundStep(high - low, 10);
  return [Math.floor(low / step + 1e-9) * step, Math.ceil(high / step - 1e-9) * step];
}

/** The pitch axis: from the lowest to the highest note, a single note in the middle. */
export function pitchScale(midis: readonly number[], leftPx: number, rightPx: number): Scale {
  const low = Math.min(...midis);
  const high = Math.max(...midis);
  return high > low ? { from: [low, high], to: [leftPx, rightPx] } : { from: [low - 1, low + 1], to: [leftPx, rightPx] };
}

export interface AxisLabel {
  readonly index: number;
  readonly xPx: number;
  readonly row: 0 | 1;
}

/**
 * Which note names are written under the axis, and in which of two rows, so that none overlap: those of greater priority
 * (smaller number) are placed first, in the upper row where they fit, else in the lower, else left out.
 */
export function placeLabels(
  places: readonly { readonly xPx: number; readonly widthPx: number; readonly priority: number }[],
): AxisLabel[] {
  const taken: [number, number][][] = [[], []];
  const order = places.map((_, index) => index).sort((a, b) => {
    const [first, second] = [places[a], places[b]];
    return first && second ? first.priority - second.priority || first.xPx - second.xPx : 0;
  });
  const labels: AxisLabel[] = [];
  for (const index of order) {
    const place = places[index];
    if (!place) continue;
    const [from, to] = [place.xPx - place.widthPx / 2, place.xPx + place.widthPx / 2];
    const row = ([0, 1] as const).find((candidate) => taken[candidate]?.every(([a, b]) => to <= a || from >= b));
    if (row === undefined) continue;
    taken[row]?.push([from, to]);
    labels.push({ index, xPx: place.xPx, row });
  }
  return labels.sort((a, b) => a.index - b.index);
}

/** Index of the place nearest to `px`; null when there is none. */
export function nearest(px: number, places: readonly number[]): number | null {
  let best: number | null = null;
  places.forEach((place, index) => {
    if (best === null || Math.abs(place - px) < Math.abs((places[best] as number) - px)) best = index;
  });
  return best;
}

export function linePath(points: readonly (readonly [number, number])[]): string {
  return points.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${x.toFixed(2)} ${y.toFixed(2)}`).join('');
}

/** A closed strip between an upper and a lower edge that share their x. */
export function stripPath(edges: readonly { readonly x: number; readonly high: number; readonly low: number }[]): string {
  if (edges.length < 2) return '';
  const upper = edges.map(({ x, high }) => [x, high] as const);
  const lower = [...edges].reverse().map(({ x, low }) => [x, low] as const);
  return `${linePath(upper)}${linePath(lower).replace('M', 'L')}Z`;
}

/** A tick's number: a true minus sign, no more decimals than the step needs. */
export function tickText(value: number, step: number): string {
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return `${value < 0 ? '−' : ''}${fixed(Math.abs(value), decimals)}`;
}
