/** What can be printed of one analysis, and how it is asked for. */
import type { Analysis } from '../core/analysis';
import type { HeldId } from '../notebook/share/holdWords';
import type { HeldWish } from '../solids/heldThings';
import { MOST_PEGS, type PegNote } from '../solids/pegSolids';
import { sayHold } from '../words/hold';

export interface HeldList {
  readonly wishes: readonly { readonly id: HeldId; readonly wish: HeldWish }[];
  /** One a peg, with the way of playing where notes have one. */
  readonly pegNames: readonly string[];
  readonly pegsLeftOut: number;
}

export function heldWishes({ record, readings, home }: Analysis, noteName: (sounding: string) => string): HeldList {
  const { arch, rim } = record;
  // Travel is counted from home, which itself may lie beside the midline.
  const places = [{ upMm: 0, rightMm: 0 }, ...readings.map(({ travel }) => travel)];
  const farthest = {
    upMm: Math.max(...places.map(({ upMm }) => Math.abs(home.upMm + upMm))),
    rightMm: Math.max(...places.map(({ rightMm }) => Math.abs(home.rightMm + rightMm))),
  };
  const parts = 'single' in arch ? ([['surface', 'upper']] as const) : ([['both', 'both'], ['upper', 'upper'], ['lower', 'lower']] as const);
  const order = [...readings].sort((a, b) => directionOrder(a.direction) - directionOrder(b.direction) || a.midi - b.midi);
  const chosen = evenlyChosen(order, MOST_PEGS);
  const notes: PegNote[] = chosen.map(({ note, travel, follow }) => ({
    name: noteName(note),
    travel: { upMm: travel.upMm, rightMm: travel.rightMm },
    axis: follow.pose.axis,
  }));
  return {
    wishes: [
      ...parts.map(([id, part]) => ({ id, wish: { thing: 'arch', part, arch, rim, farthest } as const })),
      { id: 'rim', wish: { thing: 'rim', rim } },
      { id: 'pegs', wish: { thing: 'pegs', notes } },
    ],
    pegNames: chosen.map(({ note, direction }) => (direction === null ? noteName(note) : sayHold('noteWay', { note: noteName(note), way: direction }))),
    pegsLeftOut: order.length - chosen.length,
  };
}

const directionOrder = (direction: string | null): number => (direction === 'down' ? 1 : 0);

/** At most `count` of them, the first and the last among these. */
function evenlyChosen<T>(all: readonly T[], count: number): T[] {
  if (all.length <= count) return [...all];
  return Array.from({ length: count }, (_, at) => all[Math.round((at * (all.length - 1)) / (count - 1))]!);
}
