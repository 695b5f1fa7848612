/** How well a followed point is known in the direction that counts, where it may have slid along a straight edge. */
import type { TracedPoint } from './traces';

/** One deviation across a line through the point, px; `alongRad`: the line's direction, from the picture's x axis toward y. */
export function acrossSdPx({ sdPx, slides }: Pick<TracedPoint, 'sdPx' | 'slides'>, alongRad: number): number {
  if (!slides) return sdPx;
  const off = alongRad - slides.alongRad;
  return Math.hypot(sdPx * Math.cos(off), slides.sdPx * Math.sin(off));
}

/** One for each direction, where both count: root mean square, px. */
export function anyWaySdPx({ sdPx, slides }: Pick<TracedPoint, 'sdPx' | 'slides'>): number {
  return slides ? Math.sqrt((sdPx ** 2 + slides.sdPx ** 2) / 2) : sdPx;
}
