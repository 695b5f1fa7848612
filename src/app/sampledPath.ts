/** The path's samples, computed once for an analysis and a view however many parts of the page draw them. */
import type { Analysis, LiveFrame, ViewName } from '../core/analysis';
import { createLive, samplePath } from '../core/live';

/** Smooth at the size it is drawn, quick to compute. */
const STEPS = 48;

export function sampledPath(analysis: Analysis, view: ViewName): readonly LiveFrame[] {
  const known = kept.get(analysis);
  if (known?.view === view) return known.frames;
  // A live picture of its own: the moving one is warm where the rim is, and should stay so.
  const frames = samplePath(analysis, createLive(analysis), STEPS, { horn: 'follow', view });
  kept.set(analysis, { view, frames });
  return frames;
}

const kept = new WeakMap<Analysis, { readonly view: ViewName; readonly frames: readonly LiveFrame[] }>();
