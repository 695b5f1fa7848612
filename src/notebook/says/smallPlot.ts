/** Where a small plot's frame, its ticks and its scales stand, CSS pixels. Pure. */
import type { Box } from '../chart/faceLayout';
import { type Scale, roundDomain, roundStep, ticks } from '../chart/scale';

export interface PlotLayout {
  readonly box: Box;
  readonly x: Scale;
  readonly y: Scale;
  readonly yTicks: readonly number[];
  readonly yStep: number;
}

/** Room for the numbers at the left, for a word at the right, for the title above and the axis below. */
const LEFT_PX = 40;
const RIGHT_PX = 16;
const TOP_PX = 26;
const TICK_PX = 26;
const LEAST_WIDTH_PX = 60;

export interface PlotSize {
  readonly widthPx: number;
  readonly plotHeightPx: number;
  readonly rightPx?: number | undefined;
  /** Fixed ends of y, where the values are not to choose them. */
  readonly yDomain?: readonly [number, number] | undefined;
}

export function plotBox({ widthPx, plotHeightPx, rightPx = RIGHT_PX }: PlotSize): Box {
  return { leftPx: LEFT_PX, rightPx: Math.max(LEFT_PX + LEAST_WIDTH_PX, widthPx - rightPx), topPx: TOP_PX, bottomPx: TOP_PX + plotHeightPx };
}

/** Free scales: `xDomain` from edge to edge less an inset, `values` and zero within round numbers. */
export function layoutPlot(size: PlotSize, xDomain: readonly [number, number], values: readonly number[], leastSpan: number, insetPx = 14): PlotLayout {
  const box = plotBox(size);
  const domain = size.yDomain ?? roundDomain(values, leastSpan);
  return withTicks(
    box,
    { from: xDomain, to: [box.leftPx + insetPx, box.rightPx - insetPx] },
    { from: domain, to: [box.bottomPx, box.topPx] },
  );
}

/** One scale for both ways, so that a ratio of 1 is drawn at 45°; both zeros within. */
export function layoutSquare(size: PlotSize, xs: readonly number[], ys: readonly number[], leastSpan: number): PlotLayout {
  const box = plotBox(size);
  const [widthPx, heightPx] = [box.rightPx - box.leftPx, box.bottomPx - box.topPx];
  const [across, up] = [spanOf(xs, leastSpan), spanOf(ys, leastSpan)];
  const pxPerUnit = Math.min(widthPx / (across[1] - across[0]), heightPx / (up[1] - up[0]));
  const filled = ([low, high]: readonly [number, number], px: number): [number, number] => {
    const [middle, half] = [(low + high) / 2, px / pxPerUnit / 2];
    return [middle - half, middle + half];
  };
  return withTicks(
    box,
    { from: filled(across, widthPx), to: [box.leftPx, box.rightPx] },
    { from: filled(up, heightPx), to: [box.bottomPx, box.topPx] },
  );
}

/** Ticks along x at the step of y. */
export function xTicks({ x, yStep }: Pick<PlotLayout, 'x' | 'yStep'>): number[] {
  const [low, high] = x.from;
  return ticks([low, high], (high - low) / yStep);
}

function withTicks(box: Box, x: Scale, y: Scale): PlotLayout {
  const [low, high] = y.from;
  const yStep = roundStep(high - low, Math.max(2, (box.bottomPx - box.topPx) / TICK_PX));
  return { box, x, y, yStep, yTicks: ticks([low, high], (high - low) / yStep) };
}

function spanOf(values: readonly number[], least: number): [number, number] {
  const [low, high] = [Math.min(0, ...values), Math.max(0, ...values)];
  const air = Math.max(least - (high - low), 0.12 * (high - low)) / 2;
  return [low - air, high + air];
}
