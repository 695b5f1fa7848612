/** Where something that was followed is missing from a trace: told to the person, who can mark it anew there. */
import type { FilmTrace, TracedName } from './traces';

export interface LostStretch {
  readonly name: TracedName | 'rim';
  /** Times of the first and the last frame without it, s. */
  readonly fromS: number;
  readonly toS: number;
  readonly frames: number;
}

/** In the order of their beginnings, for everything that is found in one frame at least, or that is in `marked`. */
export function lostStretches({ frames }: FilmTrace, marked: readonly (TracedName | 'rim')[] = []): LostStretch[] {
  const names = new Set<TracedName | 'rim'>(marked);
  for (const frame of frames) {
    if (frame.rim) names.add('rim');
    for (const name of Object.keys(frame.points) as TracedName[]) names.add(name);
  }
  const stretches: LostStretch[] = [];
  for (const name of names) {
    let from = -1;
    for (let place = 0; place <= frames.length; place++) {
      const frame = frames[place];
      const lost = frame !== undefined && (name === 'rim' ? frame.rim === null : frame.points[name] === undefined);
      if (lost && from < 0) from = place;
      if (lost || from < 0) continue;
      stretches.push({ name, fromS: frames[from]!.timeS, toS: frames[place - 1]!.timeS, frames: place - from });
      from = -1;
    }
  }
  return stretches.sort((one, other) => one.fromS - other.fromS);
}
