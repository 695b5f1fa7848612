/** Where things stand on a film's time line, CSS pixels. Pure. */
import { type Scale, linePath, roundDomain, roundStep, ticks, toPixels } from '../../chart/scale';
import type { Curve, Panel, Stretch, WaveOverview } from './props';

const LEFT_PX = 44;
const RIGHT_PX = 12;
const WAVE_PX = 36;
/** A finger takes hold of a note's end by it. */
export const NOTES_PX = 28;
const PANEL_PX = 84;
const PANEL_GAP_PX = 26;
const AXIS_PX = 20;
const LEAST_WIDTH_PX = 80;
const PX_A_SECOND_TICK = 56;
const PX_A_VALUE_TICK = 26;

export interface PanelPlace {
  readonly topPx: number;
  readonly bottomPx: number;
  readonly y: Scale;
  readonly yTicks: readonly number[];
  readonly yStep: number;
}

export interface TimeLineLayout {
  readonly x: Scale;
  readonly waveTopPx: number;
  readonly waveMiddlePx: number;
  readonly waveBottomPx: number;
  readonly notesTopPx: number;
  readonly panels: readonly PanelPlace[];
  readonly axisPx: number;
  readonly heightPx: number;
  readonly timeTicks: readonly number[];
  readonly timeStep: number;
}

export function layoutTimeLine(widthPx: number, span: Stretch, panels: readonly Panel[]): TimeLineLayout {
  const right = Math.max(LEFT_PX + LEAST_WIDTH_PX, widthPx - RIGHT_PX);
  const lasts = Math.max(span.endS - span.startS, 0.1);
  const domain = [span.startS, span.startS + lasts] as const;
  const x: Scale = { from: domain, to: [LEFT_PX, right] };
  const notesTopPx = WAVE_PX + 4;
  let topPx = notesTopPx + NOTES_PX;
  const places = panels.map((panel): PanelPlace => {
    topPx += PANEL_GAP_PX;
    const bottomPx = topPx + PANEL_PX;
    const values = panel.curves.flatMap(({ points }) => points.flatMap(({ value }) => (value === null ? [] : [value])));
    const y: Scale = { from: roundDomain(extremes(values), panel.leastSpan), to: [bottomPx, topPx] };
    const [low, high] = y.from;
    const most = PANEL_PX / PX_A_VALUE_TICK;
    const place = { topPx, bottomPx, y, yTicks: ticks([low, high], most), yStep: roundStep(high - low, most) };
    topPx = bottomPx;
    return place;
  });
  const most = Math.max(2, (right - LEFT_PX) / PX_A_SECOND_TICK);
  return {
    x,
    waveTopPx: 0,
    waveMiddlePx: WAVE_PX / 2,
    waveBottomPx: WAVE_PX,
    notesTopPx,
    panels: places,
    axisPx: topPx,
    heightPx: topPx + AXIS_PX,
    timeTicks: ticks(domain, most),
    timeStep: roundStep(lasts, most),
  };
}

/** Math.min with thousands of arguments would not do. */
function extremes(values: readonly number[]): number[] {
  let [low, high] = [Infinity, -Infinity];
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return low <= high ? [low, high] : [];
}

/** The loudness as one closed outline; a bucket narrower than a pixel is joined to its neighbours. */
export function wavePath(wave: WaveOverview, { x, waveMiddlePx, waveTopPx }: TimeLineLayout): string {
  const half = waveMiddlePx - waveTopPx - 1;
  const columns = new Map<number, [number, number]>();
  for (let index = 0; index < wave.low.length; index++) {
    const column = Math.round(toPixels(x, wave.fromS + (index + 0.5) * wave.bucketS));
    const [low, high] = columns.get(column) ?? [0, 0];
    columns.set(column, [Math.min(low, wave.low[index] ?? 0), Math.max(high, wave.high[index] ?? 0)]);
  }
  const edges = [...columns].sort(([a], [b]) => a - b).filter(([column]) => column >= x.to[0] && column <= x.to[1]);
  if (edges.length < 2) return '';
  const y = (value: number): number => waveMiddlePx - Math.max(-1, Math.min(1, value)) * half;
  const upper = edges.map(([column, [, high]]) => [column, y(high)] as const);
  const lower = edges.map(([column, [low]]) => [column, y(low)] as const).reverse();
  return `${linePath([...upper, ...lower])}Z`;
}

/** A curve in pieces: it is not drawn across what is not known. */
export function curvePath({ points }: Curve, x: Scale, y: Scale): string {
  let path = '';
  let piece: (readonly [number, number])[] = [];
  for (const { timeS, value } of points) {
    if (value === null) {
      path += linePath(piece);
      piece = [];
    } else piece.push([toPixels(x, timeS), toPixels(y, value)]);
  }
  return path + linePath(piece);
}

/** The last known value of a curve at or before a time. */
export function valueAt({ points }: Curve, timeS: number): number | null {
  let [low, high] = [0, points.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((points[middle]?.timeS ?? Infinity) <= timeS) low = middle + 1;
    else high = middle;
  }
  return points[low - 1]?.value ?? null;
}
